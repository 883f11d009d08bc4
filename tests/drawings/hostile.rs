//! Manuscripts that mean harm, are torn, or state what no quilt has: no panic, no great size, no markup out of a name.

use sparestrip::manuscript::Source;
use sparestrip::report::figure::{Figure, figures};
use sparestrip::report::worksheet_json;
use sparestrip::rule_book::Settings;
use sparestrip::worksheet::Worksheet;

use super::figures_as_xml::{elements, is_sound};
use super::support::{bounded_program, finish, folder_with, is_wild};
use super::{examples, worksheet};

/// The figures and the JSON of a text, each of a size that a page can hold.
fn drawn(text: &str) -> usize {
    let source = Source::from_text("test.pattern.yaml", text);
    let worksheet = Worksheet::new(&source, &Settings::default());
    let figures = figures(&worksheet.drawings);
    for figure in &figures {
        // The most is for 400 scallops with an opening over many of them, each drawn as a row of points.
        assert!(figure.svg.len() < 320_000, "{} is {} bytes", figure.id, figure.svg.len());
        is_sound(figure);
    }
    let json = worksheet_json(&source, &worksheet);
    assert!(json.len() < 8_000_000, "{}", json.len());
    figures.len()
}

const MARKUP: &str = "</svg><script>alert('x')</script>";

const NAMES: &str = r#"pattern: "<script>alert(1)</script>"
measure: inch
sizes:
  "</svg><script>alert('x')</script>": { finished: 40 x 60 }
  "\"quoted\" & 'more' שלום 縫い目": { finished: 40 x 60 }
fabrics:
  "<img src=x onerror=alert(1)> &":
    requires: { "</svg><script>alert('x')</script>": 2 yd, "\"quoted\" & 'more' שלום 縫い目": 2 yd }
    cut:
      - piece: "<b> ]]> <!-- &amp;"
        size: 2 1/2 x 3
        pieces: { "</svg><script>alert('x')</script>": 70, "\"quoted\" & 'more' שלום 縫い目": 70 }
  "\"squares\"":
    sold_as: squares
    precut: 5
    requires: { "</svg><script>alert('x')</script>": 30, "\"quoted\" & 'more' שלום 縫い目": 30 }
    cut:
      - piece: "'"
        size: 2 x 2
        pieces: { "</svg><script>alert('x')</script>": 99, "\"quoted\" & 'more' שלום 縫い目": 99 }
binding:
  strip_width: 2 1/2
  requires:
    "</svg><script>alert('x')</script>": { strips: 7, fabric: 1 yd }
    "\"quoted\" & 'more' שלום 縫い目": { strips: 3, fabric: 1 yd }
backing:
  requires:
    "</svg><script>alert('x')</script>": { fabric: 4 yd, panels: 2 }
    "\"quoted\" & 'more' שלום 縫い目": { fabric: 4 yd }
"#;

fn no_markup(figures: &[Figure]) {
    for figure in figures {
        is_sound(figure);
        for markup in ["<script", "<img", "<b>", "<!--"] {
            assert!(!figure.svg.contains(markup), "{markup} in {}", figure.id);
        }
        assert_eq!(figure.svg.matches("</svg>").count(), 1, "{}", figure.id);
        let wild = figure.svg.chars().find(|c| *c != '\n' && (is_wild(*c) || ['\u{fffe}', '\u{ffff}'].contains(c)));
        assert_eq!(wild, None, "{}", figure.id);
        for words in [&figure.caption, &figure.alternative] {
            assert!(!words.chars().any(is_wild), "{words:?}");
        }
    }
}

#[test]
fn markup_in_names_is_text_in_figures() {
    let (worksheet, _) = worksheet(NAMES);
    let figures = figures(&worksheet.drawings);
    assert_eq!(figures.len(), 10, "an edge, three fabrics and a backing each");
    no_markup(&figures);
    let title = elements(&figures[0].svg).into_iter().find(|element| element.name == "title").unwrap();
    assert_eq!(title.text, format!("The binding around {MARKUP}"));
}

#[test]
fn what_the_reader_of_manuscripts_refuses_in_names_does_no_harm_in_figures_either() {
    let (mut worksheet, _) = worksheet(NAMES);
    let wild = format!("{MARKUP}\u{0}\u{7}\u{1b}[31m\u{202e}\u{200f}\u{fffe}\u{ffff}\u{fdd0} \"&' {}", "w".repeat(500));
    for size in &mut worksheet.drawings.sizes {
        size.size.clone_from(&wild);
        for fabric in &mut size.fabrics {
            fabric.fabric.clone_from(&wild);
        }
    }
    no_markup(&figures(&worksheet.drawings));
}

/// Sizes, shapes and counts at the ends of what a manuscript may state.
fn extremes(binding: &str) -> String {
    format!(
        "pattern: Ends\nmeasure: inch\nsizes:
  plain: {{ finished: 60 x 80 }}
  vast: {{ finished: 2000 x 2000 }}
  thin: {{ finished: 1/8 x 2000 }}
  line: {{ finished: 2000 x 1/64 }}
  dot: {{ finished: 1/64 x 1/64 }}
  scallop: {{ finished: 50 x 60, outline: {{ scallops_across: 100, scallops_down: 100, depth: 1/8 }} }}
  half: {{ finished: 20 x 20, outline: {{ scallops_across: 1, scallops_down: 1, depth: 10 }} }}
  hundred: {{ finished: 96 x 96, outline: {{ sides: 100, side: 3 }} }}
  counter: {{ finished: 60 x 40, outline: {{ points: [0 x 0, 0 x 40, 60 x 40, 60 x 0] }} }}
  bow: {{ finished: 60 x 40, outline: {{ points: [0 x 0, 60 x 40, 60 x 0, 0 x 40] }} }}
fabrics:
  cloth:
    requires: {{ plain: 20 yd, vast: 3 yd }}
    cut:
      - {{ piece: a, size: 1 x 1, pieces: 100000 }}
      - {{ piece: b, size: 2 1/2 x 3, strips: 100000, pieces: 7 }}
      - {{ piece: c, size: 1/64 x 30, pieces: 700 }}
binding:
  strip_width: 2 1/4
{binding}
  requires:
    plain: {{ strips: 100000, fabric: 50 yd }}
    vast: {{ strips: 300, fabric: 1 yd }}
    thin: {{ strips: 3, fabric: 1/8 yd }}
    line: {{ strips: 3, fabric: 1/8 yd }}
    dot: {{ strips: 3, fabric: 1/8 yd }}
    scallop: {{ strips: 9 }}
    half: {{ strips: 3 }}
    hundred: {{ strips: 9, strip_length: 20 }}
    counter: {{ strips: 7 }}
    bow: {{ strips: 7 }}
backing:
  requires:
    plain: {{ fabric: 5 yd, panels: 100000 }}
    vast: {{ fabric: 5 yd, panels: 3 }}
    line: {{ fabric: 50 yd }}
    dot: {{ fabric: 1 yd }}
batting:
  requires:
    plain: 200 x 300
    dot: packaged king
    line: 2000 x 1
"
    )
}

#[test]
fn extremes_are_drawn_within_bounds() {
    let bindings = [
        "  extra_length: 20",
        "  tails: { start: 10, end: 3 }\n  opening: 1/64",
        "  tails: { start: 150, end: 2000 }\n  opening: 1\n  join: straight",
        "  tails: { start: 1/64, end: 2000 }\n  opening: 30\n  strip_length: 3",
        "  grain: bias\n  strip_length: 30\n  tails: 10\n  opening: 3",
        "  grain: bias\n  tails: 10\n  opening: 3",
        "  grain: lengthwise\n  strip_length: 110\n  tails: 10\n  opening: 12",
        "  strip_length: 2 1/4",
    ];
    for binding in bindings {
        let count = drawn(&extremes(binding));
        assert!(count > 5, "{count} with {binding}");
    }
}

#[test]
fn what_is_too_much_to_show_is_counted() {
    let (_, json) = worksheet(&extremes("  tails: 10\n  opening: 1\n  strip_length: 3"));
    let size = &json["drawings"]["sizes"][1];
    assert_eq!(size["size"], "vast");
    let laid = &size["edge"]["laid"];
    assert_eq!(laid["strips"].as_array().unwrap().len(), 200);
    assert_eq!(laid["more"], 100);
    let panels = &json["drawings"]["sizes"][0]["backing"];
    assert_eq!((panels["panels"].as_array().unwrap().len(), panels["more"].as_u64()), (200, Some(99_800)));
}

/// Fabrics and sizes by the dozen, each with a long cutting list.
fn crowd() -> String {
    let sizes: Vec<String> = (0..25).map(|size| format!("s{size}")).collect();
    let each = |number: &str| {
        let counts: Vec<String> = sizes.iter().map(|size| format!("{size}: {number}")).collect();
        format!("{{ {} }}", counts.join(", "))
    };
    let sizes_text: String = sizes.iter().map(|size| format!("  {size}: {{ finished: 40 x 60 }}\n")).collect();
    let cut = |cut: usize| {
        format!(
            "      - {{ piece: p{cut}, size: {} x {}, pieces: {} }}\n",
            cut % 30 + 2,
            cut % 17 + 1,
            each(&(cut + 1).to_string())
        )
    };
    let cuts: String = (0..10).map(cut).collect();
    let bought = each("5 yd");
    let fabrics: String =
        (0..45).map(|fabric| format!("  f{fabric}:\n    requires: {bought}\n    cut:\n{cuts}")).collect();
    format!("pattern: Crowd\nmeasure: inch\nsizes:\n{sizes_text}fabrics:\n{fabrics}")
}

#[test]
fn a_crowd_of_fabrics_and_sizes_is_drawn_within_bounds_and_the_rest_is_counted() {
    let (worksheet, json) = worksheet(&crowd());
    let drawings = &json["drawings"];
    assert_eq!((drawings["sizes"].as_array().unwrap().len(), drawings["more_sizes"].as_u64()), (20, Some(5)));
    assert_eq!(drawings["sizes"][0]["more_fabrics"], 5);
    let bolt = &drawings["sizes"][0]["fabrics"][0];
    assert!(bolt["more"].as_u64().unwrap() > 0, "rows are left out, and counted: {bolt}");
    let whole: usize = figures(&worksheet.drawings).iter().map(|figure| figure.svg.len()).sum();
    assert!(whole < 40_000_000, "{whole}");
    assert!(drawings.to_string().len() < 40_000_000);
}

#[test]
fn examples_with_any_number_changed_are_drawn_or_not_and_nothing_breaks() {
    for path in examples() {
        let text = Source::open(&path).unwrap().text;
        let mut at = 0;
        let mut round = 0;
        while let Some(found) = text[at..].find(|c: char| c.is_ascii_digit()) {
            let start = at + found;
            let end = start + text[start..].find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len() - start);
            let other = ["0", "1", "2000", "100000", "x"][round % 5];
            round += 1;
            at = end;
            // Every seventh is enough to meet every kind of number.
            if round % 7 == 0 {
                drawn(&format!("{}{other}{}", &text[..start], &text[end..]));
            }
        }
    }
}

#[test]
fn torn_examples_are_drawn_or_not_and_nothing_breaks() {
    for path in examples() {
        let text = Source::open(&path).unwrap().text;
        for tenth in 1..20 {
            let mut end = text.len() * tenth / 20;
            while !text.is_char_boundary(end) {
                end += 1;
            }
            drawn(&text[..end]);
        }
    }
}

#[test]
fn the_program_tells_a_vast_manuscript_in_little_memory_and_tamely() {
    let (folder, _) = folder_with("vast.pattern.yaml", extremes("  tails: 10\n  opening: 1"));
    let mut command = bounded_program(folder.path());
    let ran = finish(command.args(["worksheet", "--format", "json", "vast.pattern.yaml"]), b"");
    assert_eq!(ran.status, Some(0), "{}", ran.err);
    ran.is_tame("vast");
    let (folder, _) = folder_with("names.pattern.yaml", NAMES);
    let mut command = bounded_program(folder.path());
    let ran = finish(command.args(["worksheet", "--format", "json", "names.pattern.yaml"]), b"");
    assert_eq!((ran.status, ran.json()["version"].as_u64()), (Some(0), Some(1)));
    ran.is_tame("names");
}
