//! The drawing of blocks and of the top: values worked by hand, parts that are not known, and bounds.

use serde_json::Value;
use sparestrip::manuscript::Source;
use sparestrip::report::figure::{Figure, figures};
use sparestrip::report::page;
use sparestrip::rule_book::Settings;

use super::figures_as_xml::{elements, is_sound};
use super::{list, worksheet};

/// A block of 6 in: a half-square triangle of 2 in, geese of 4 x 2 in and the same turned, and a patch of 4 in.
fn quilt(layout: &str) -> String {
    format!(
        "pattern: Test Eddy
measure: inch
sizes: {{ mat: {{ finished: 20 x 20 }} }}
units:
  half: {{ make: half_square_triangle, finished: 2, cut: {{ first: A, second: B }} }}
  geese: {{ make: flying_geese, finished: 4 x 2, method: stitch_and_flip, cut: {{ goose: C, sky: 2 1/2 }} }}
  plain: {{ make: patch, finished: 4 }}
blocks:
  eddy: {{ finished: 6, rows: [[half, geese], [geese turned, plain]] }}
fabrics:
  ink:
    requires: {{ mat: 1 yd }}
    cut:
      - {{ piece: A, size: 2 7/8 x 2 7/8, pieces: {{ mat: 5 }} }}
      - {{ piece: C, size: 4 1/2 x 2 1/2, pieces: {{ mat: 18 }} }}
      - {{ piece: rim, strip_width: 1 1/2, strips: {{ mat: 2 }} }}
  foam:
    requires: {{ mat: 1 yd }}
    cut:
      - {{ piece: B, size: 2 7/8 x 2 7/8, pieces: {{ mat: 5 }} }}
layout:
  mat: {{ {layout} }}
"
    )
}

const PLAIN: &str = "across: 3, down: 3, blocks: eddy, borders: [{ width: 1, piece: rim }]";

fn outlines(parts: &Value) -> Vec<(&str, &str)> {
    let word = |part: &'static str| move |value: &Value| value[part].as_str().map(str::len).map(|_| part);
    let told = |part| {
        let part: &Value = part;
        let name = ["part", "unit", "block"].into_iter().find_map(|name| word(name)(part)).unwrap_or("kind");
        (part[name].as_str().unwrap(), part["outline"].as_str().unwrap())
    };
    list(parts).iter().map(told).collect()
}

fn figure<'f>(figures: &'f [Figure], id: &str) -> &'f Figure {
    figures.iter().find(|figure| figure.id == id).unwrap_or_else(|| panic!("no figure {id}"))
}

#[test]
fn units_and_blocks_lie_where_they_are_worked_out_by_hand() {
    let (_, json) = worksheet(&quilt(PLAIN));
    let design = &json["drawings"]["design"];
    assert_eq!(outlines(&design["units"][0]["pieces"]), [("first", "0,0 2,0 0,2"), ("second", "2,0 2,2 0,2")]);
    let geese = [("goose", "2,0 4,2 0,2"), ("sky", "0,0 2,0 0,2"), ("sky", "2,0 4,0 4,2")];
    assert_eq!(outlines(&design["units"][1]["pieces"]), geese);
    // Turned clockwise, the geese's own corner at the top left is at the top right.
    let parts = [
        ("half", "0,0 2,0 2,2 0,2"),
        ("geese", "2,0 6,0 6,2 2,2"),
        ("geese", "2,2 2,6 0,6 0,2"),
        ("plain", "2,2 6,2 6,6 2,6"),
    ];
    assert_eq!(outlines(&design["blocks"][0]["parts"]), parts);
    let fabric = |unit: usize, piece: usize| design["units"][unit]["pieces"][piece]["fabric"].as_str();
    let told = [fabric(0, 0), fabric(0, 1), fabric(1, 0), fabric(1, 1), fabric(2, 0)];
    assert_eq!(told, [Some("ink"), Some("foam"), Some("ink"), None, None], "what is cut by size has no fabric");
}

#[test]
fn the_top_lies_where_it_is_worked_out_by_hand() {
    let (worksheet, json) = worksheet(&quilt(PLAIN));
    let top = &json["drawings"]["sizes"][0]["top"];
    assert_eq!((&top["width"]["inches"], list(&top["parts"]).len()), (&"20".into(), 13));
    assert_eq!(top["parts"][4]["outline"], "7,7 13,7 13,13 7,13");
    // Butted: the sides first, then the top and the bottom over them.
    let borders: Vec<&str> = list(&top["parts"])[9..].iter().map(|part| part["outline"].as_str().unwrap()).collect();
    let around = ["0,1 1,1 1,19 0,19", "19,1 20,1 20,19 19,19", "0,0 20,0 20,1 0,1", "0,19 20,19 20,20 0,20"];
    assert_eq!((borders, &top["parts"][9]["fabric"]), (around.to_vec(), &"ink".into()));
    let figures = figures(&worksheet.drawings);
    let shown = elements(&figure(&figures, "fig-1-top").svg);
    assert_eq!(shown.iter().filter(|element| element.name == "use").count(), 9, "one symbol, used for each block");
    assert!(
        figure(&figures, "fig-1-top").alternative.contains("9 block eddy. Border 1 from the inside: 4 border of ink.")
    );
}

#[test]
fn blocks_on_point_have_exact_diagonals() {
    let (worksheet, json) = worksheet(&quilt("set: on_point, across: 2, down: 2, blocks: eddy"));
    let top = &json["drawings"]["sizes"][0]["top"];
    assert_eq!(top["width"]["inches"], "12√2");
    // From the block's own corner, which is at the top.
    assert_eq!(top["parts"][0]["outline"], "3√2,0 6√2,3√2 3√2,6√2 0,3√2");
    let count = |kind: &str| list(&top["parts"]).iter().filter(|part| part["kind"] == kind).count();
    assert_eq!((count("block"), count("side_triangle"), count("corner_triangle")), (5, 4, 4));
    figures(&worksheet.drawings).iter().for_each(is_sound);
}

#[test]
fn every_piece_of_a_block_has_the_number_of_its_fabric_and_the_legend_names_it() {
    let (worksheet, _) = worksheet(&quilt(PLAIN));
    let figures = figures(&worksheet.drawings);
    let block = figure(&figures, "fig-block-1");
    let texts: Vec<String> =
        elements(&block.svg).into_iter().filter(|one| one.name == "text").map(|one| one.text).collect();
    let count = |text: &str| texts.iter().filter(|one| *one == text).count();
    // A triangle and two geese of ink, one triangle of foam, four pieces of sky and a patch of nobody knows what; and
    // one of each in the legend.
    assert_eq!((count("1"), count("2"), count("?")), (3 + 1, 1 + 1, 5 + 1), "{texts:?}");
    assert_eq!((count("ink"), count("foam"), count("fabric not stated")), (1, 1, 1), "{texts:?}");
    assert!(
        block.caption.starts_with("Block eddy, 6 x 6 in finished: 1 half, 2 geese and 1 plain."),
        "{}",
        block.caption
    );
}

#[test]
fn what_is_not_known_is_an_empty_box_and_says_so() {
    let other = quilt(PLAIN).replace("make: patch, finished: 4", "make: other, finished: 4");
    let (sheet, json) = worksheet(&other);
    assert_eq!(json["drawings"]["design"]["units"][2]["empty"], "how it is sewn is not stated");
    let words = figure(&figures(&sheet.drawings), "fig-block-1").alternative.clone();
    assert!(words.contains("Unit plain: an empty box, since how it is sewn is not stated."), "{words}");
    let unread = quilt(PLAIN).replace("make: patch, finished: 4", "make: patch, finished: broad");
    let (sheet, json) = worksheet(&unread);
    let why = json["drawings"]["design"]["blocks"][0]["empty"].as_str().unwrap().to_string();
    assert!(why.contains("row 2 and what is below it is not drawn"), "{why}");
    assert!(figure(&figures(&sheet.drawings), "fig-block-1").alternative.contains(&why));
    let (sheet, json) =
        worksheet(&quilt("across: 3, down: 3, blocks: eddy, borders: [{ width: 1 }, { width: broad }]"));
    let told = json["drawings"]["sizes"][0]["top"]["empty"][0].as_str().unwrap();
    assert_eq!(told, "border 2 and what is outside of it, which could not be read");
    figures(&sheet.drawings).iter().for_each(is_sound);
}

#[test]
fn a_wrong_design_is_drawn_as_it_is_stated() {
    // Geese of 5 x 2 1/2 in do not fit, and are drawn all the same.
    let (sheet, json) = worksheet(&quilt(PLAIN).replace("finished: 4 x 2", "finished: 5 x 2 1/2"));
    let block = &json["drawings"]["design"]["blocks"][0];
    assert_eq!((block["parts"][1]["outline"].as_str(), &block["empty"]), (Some("2,0 7,0 7,5/2 2,5/2"), &Value::Null));
    figures(&sheet.drawings).iter().for_each(is_sound);
}

#[test]
fn forty_thousand_blocks_make_a_small_page_that_says_what_is_not_drawn() {
    let text = quilt("across: 200, down: 200, blocks: eddy, borders: [{ width: 1, piece: rim }]");
    let (sheet, json) = worksheet(&text);
    let top = &json["drawings"]["sizes"][0]["top"];
    assert_eq!(top["more"], 40_000);
    assert_eq!(top["empty"][0], "40000 blocks and sashes, too many to draw one by one");
    let source = Source::from_text("test.pattern.yaml", &text);
    let page = page(&sheet, &source, &Settings::default());
    assert!(page.len() < 300_000 && page.contains("too many to draw one by one"), "{}", page.len());
    // Near the bound each block is drawn, once as a symbol.
    let (sheet, _) = worksheet(&quilt("across: 44, down: 44, blocks: eddy"));
    let svg = &figure(&figures(&sheet.drawings), "fig-1-top").svg.clone();
    assert_eq!(svg.matches("<use ").count(), 44 * 44);
    assert!(svg.len() < 320_000, "{}", svg.len());
}

#[test]
fn blocks_within_blocks_without_end_are_bounded() {
    let mut blocks = String::from("  b0: { finished: 2, rows: [[half]] }\n");
    let mut side = 2;
    for number in 1..12 {
        side *= 3;
        let row = format!("[b{0}, b{0}, b{0}]", number - 1);
        blocks.push_str(&format!("  b{number}: {{ finished: {}, rows: [{row}, {row}, {row}] }}\n", side.min(2000)));
    }
    let text = quilt(PLAIN).replace("fabrics:\n", &format!("{blocks}fabrics:\n"));
    let (sheet, json) = worksheet(&text);
    let told = json["drawings"]["design"]["blocks"][12]["empty"].as_str().unwrap();
    assert!(told.ends_with("pieces, too many to draw one by one"), "{told}");
    figures(&sheet.drawings).iter().for_each(is_sound);
    assert!(json.to_string().len() < 1_000_000);
}
