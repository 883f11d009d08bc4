//! One table, one size, one colorway; wide columns, real fractions, other languages; signed numbers alone; and folders.

use std::collections::BTreeSet;

use rstest::rstest;
use sparestrip::manuscript::Source;
use sparestrip::report::{Separator, table_as_wide, tables_as_csv, tables_as_html};
use sparestrip::rule_book::Settings;
use sparestrip::tables::{Language, Tables, Wanted, tables_wanted};

use super::formats::{of_csv, of_html, of_wide};
use super::random::Maker;
use super::{Fact, facts, manuscripts, stated, text_of};
use crate::support::{GOOD, Ran, folder_with, run, run_with_input, write};

fn wanted(text: &str, wanted: &Wanted) -> Tables {
    tables_wanted(&Source::from_text("x.pattern.yaml", text), &Settings::default(), wanted).expect("it is there")
}

fn tern_colony() -> String {
    let files = manuscripts("example-patterns");
    text_of(files.iter().find(|file| file.ends_with("tern-colony.pattern.yaml")).expect("the example"))
}

fn texts() -> Vec<String> {
    manuscripts("example-patterns").iter().map(|file| text_of(file)).collect()
}

#[test]
fn each_table_in_wide_columns_holds_its_facts() {
    for text in texts() {
        let (all, sizes) = (facts(&text), stated::sizes(&text));
        for table in wanted(&text, &Wanted::default()).tables {
            let own: BTreeSet<Fact> = all.iter().filter(|fact| fact[0] == table.caption).cloned().collect();
            for (separator, delimiter) in [(Separator::Comma, b','), (Separator::Tab, b'\t')] {
                assert_eq!(of_wide(&table_as_wide(&table, separator), delimiter, &table.caption, &sizes), own);
            }
        }
    }
}

#[test]
fn the_tables_of_one_size_hold_its_numbers_and_no_others() {
    for text in texts() {
        let all = facts(&text);
        for size in stated::sizes(&text) {
            let one = Wanted { size: Some(size.clone()), ..Wanted::default() };
            let tables = wanted(&text, &one);
            let read = of_csv(&tables_as_csv(&tables));
            let of_size = |facts: &BTreeSet<Fact>| -> BTreeSet<Fact> {
                facts.iter().filter(|fact| !fact[3].is_empty()).cloned().collect()
            };
            let expected = of_size(&all).into_iter().filter(|fact| fact[3] == size).collect();
            assert_eq!(of_size(&read), expected, "{size}");
            assert!(read.is_subset(&all));
            assert_eq!(of_html(&tables_as_html(&tables), std::slice::from_ref(&size)), read);
        }
    }
}

#[test]
fn the_colors_of_a_colorway_stand_with_the_fabrics() {
    let text = tern_colony();
    let one = Wanted { colorway: Some("shore".to_string()), ..Wanted::default() };
    let tables = wanted(&text, &one);
    assert_eq!(tables.head.title, "Tern Colony, edition 1, colorway shore");
    let read = of_csv(&tables_as_csv(&tables));
    let color = |fabric: &str| {
        let is_color = |fact: &&Fact| fact[0] == "What to buy" && fact[1] == fabric && fact[2] == "color";
        read.iter().find(is_color).map(|fact| fact[4].clone())
    };
    // Those that the colorway does not name stay as they are shown.
    assert_eq!(color("ink").as_deref(), Some("bottle green"));
    assert_eq!(color("foam").as_deref(), Some("white"));
    assert!(!read.iter().any(|fact| fact[0] == "Colorways"));
    let ran = run_with_input(
        &std::env::temp_dir(),
        &["tables", "-", "--form", "instructions", "--colorway", "dusk"],
        text.as_bytes(),
    );
    assert!(ran.out.contains("\n## From ink (plum), cut:\n"), "{}", ran.out);
}

/// A quantity in plain characters, however it is set.
fn plain(text: &str) -> String {
    let mut plain = text.replace('\u{2044}', "/").replace(['\u{d7}', 'X'], "x");
    for (sign, fraction) in [
        ('½', "1/2"),
        ('⅓', "1/3"),
        ('⅔', "2/3"),
        ('¼', "1/4"),
        ('¾', "3/4"),
        ('⅛', "1/8"),
        ('⅜', "3/8"),
        ('⅝', "5/8"),
        ('⅞', "7/8"),
    ] {
        plain = plain.replace(sign, &format!(" {fraction}"));
    }
    plain.replace(['-', ' '], "")
}

#[test]
fn real_fractions_say_the_same_numbers() {
    let typographic = Wanted { typographic: true, ..Wanted::default() };
    let random = (0..100).map(|index| serde_yaml::to_string(&Maker::of(0x7ab1e, index).manuscript()).expect("YAML"));
    let mut fractions = 0;
    for text in texts().into_iter().chain(random) {
        let set = of_csv(&tables_as_csv(&wanted(&text, &typographic)));
        let plainly = |facts: &BTreeSet<Fact>| -> BTreeSet<Fact> {
            facts
                .iter()
                .map(|[table, row, number, size, cell]| {
                    [table.clone(), row.clone(), number.clone(), size.clone(), plain(cell)]
                })
                .collect()
        };
        let all = facts(&text);
        assert_eq!(plainly(&set), plainly(&all), "{text}");
        fractions += set.iter().filter(|fact| fact[4].contains(['½', '¾', '\u{2044}', '×'])).count();
        let is_number = |fact: &&Fact| fact[2].is_empty() && fact[4].starts_with(|c: char| c.is_ascii_digit());
        assert!(!set.iter().filter(is_number).any(|fact| fact[4].contains("1/2")), "{set:#?}");
    }
    assert!(fractions > 1_000, "{fractions}");
    let text = GOOD.replace("36 x 48", "36 3/16 x 48 1/2");
    let ran = run_with_input(&std::env::temp_dir(), &["tables", "-", "--typographic"], text.as_bytes());
    assert!(ran.out.contains("| 36 3⁄16 × 48½ in |"), "{}", ran.out);
    let words = ["tables", "-", "--form", "instructions", "--typographic"];
    let ran = run_with_input(&std::env::temp_dir(), &words, text.as_bytes());
    assert!(ran.out.contains("- 6 (9, 12) strips 2½ in × WOF (binding)\n"), "{}", ran.out);
}

#[rstest]
#[case("de")]
#[case("fr")]
fn a_language_that_is_shipped_has_a_word_for_every_heading(#[case] tag: &str) {
    let file = format!("{}/src/tables/languages/{tag}.yaml", env!("CARGO_MANIFEST_DIR"));
    let (read, slips) = Language::read(&Source::from_text(&file, text_of(std::path::Path::new(&file))));
    assert_eq!((read.lacks(), slips), (Vec::new(), Vec::new()));
    assert_eq!(read.tag(), tag);
    let language = Language::of_tag(tag).expect("shipped").clone();
    let translated = Wanted { language, ..Wanted::default() };
    // Each heading is asked for as the tables are made, which fails where it is not in the table of headings.
    let has_number = |cell: &str| cell.chars().any(|c| c.is_ascii_digit());
    for text in texts() {
        let tables = wanted(&text, &translated);
        let words: BTreeSet<String> = tables.tables.iter().map(|table| table.caption.clone()).collect();
        let english: BTreeSet<String> =
            wanted(&text, &Wanted::default()).tables.iter().map(|table| table.caption.clone()).collect();
        assert_eq!(words.len(), english.len());
        assert!(words.iter().all(|caption| !english.contains(caption) || caption == "Notions"), "{words:?}");
        // Two headings with one name would make one table or row of two.
        let cells = |facts: &BTreeSet<Fact>| facts.iter().filter(|fact| has_number(&fact[4])).count();
        assert_eq!(cells(&of_csv(&tables_as_csv(&tables))), cells(&facts(&text)), "{words:?}");
        let page = tables_as_html(&tables);
        assert!(page.contains(&format!("<html lang=\"{tag}\">")), "{page}");
        assert!(!page.contains("Rotary blades") && page.contains("class=\"caution\""), "{page}");
    }
}

fn asked(words: &[&str]) -> Ran {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    run(folder.path(), &[&["tables", "x.pattern.yaml"], words].concat())
}

#[test]
fn a_file_of_words_of_ones_own() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let begun = run(folder.path(), &["tables", "--headings"]);
    assert_eq!(begun.status, Some(0), "{begun:?}");
    assert!(
        begun.out.starts_with("language: en\n") && begun.out.contains("\n\"cut size\": \"cut size\"\n"),
        "{}",
        begun.out
    );
    let file = folder.path().join("nl.yaml");
    write(
        &file,
        begun
            .out
            .replace("language: en", "language: nl")
            .replace("\"What to buy\": \"What to buy\"", "\"What to buy\": \"Wat te kopen\""),
    );
    let ran = run(folder.path(), &["tables", "x.pattern.yaml", "--language", "nl.yaml", "--format", "html"]);
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{ran:?}");
    assert!(
        ran.out.contains("<html lang=\"nl\">") && ran.out.contains("<caption>Wat te kopen</caption>"),
        "{}",
        ran.out
    );
    write(&file, "language: nl\ncut size: maat\n");
    let ran = run(folder.path(), &["tables", "x.pattern.yaml", "--language", "nl.yaml"]);
    assert_eq!(ran.status, Some(0));
    assert!(ran.err.contains("there is no word for \"What to buy\", which stays English"), "{}", ran.err);
    for (text, place, why) in [
        ("language: nl\ncut sise: maat\n", "nl.yaml:2:1: ", "\"cut sise\" is no heading of the tables"),
        (
            "blocks of {}: blokken\n",
            "nl.yaml:1:15: ",
            "{} must stand in \"blokken\" where it stands in \"blocks of {}\"",
        ),
        ("cut size: [a]\n", "nl.yaml:1:1: ", "what \"cut size\" is called must stand after it"),
        ("maat\n", "nl.yaml:1:1: ", "it is no list of words"),
    ] {
        write(&file, text);
        let ran = run(folder.path(), &["tables", "x.pattern.yaml", "--language", "nl.yaml"]);
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""), "{ran:?}");
        assert!(ran.err.contains(&format!("{place}{why}")), "{}", ran.err);
    }
}

#[rstest]
#[case(&["--size", "emperor"], "there is no size \"emperor\"; the sizes are: crib, throw, queen")]
#[case(&["--colorway", "dusk"], "the manuscript has no colorways")]
#[case(&["--table", "Cutting"], "there is no table \"Cutting\"; the tables are: Finished sizes; What to buy; For all sizes; Binding")]
#[case(&["--format", "tsv"], "these columns are those of one table: name it with --table; the tables are: Finished sizes;")]
#[case(&["--language", "xx"], "The languages are de, fr; of another, name a file of words")]
#[case(&["--form", "instructions", "--language", "de"], "--language goes with the tables")]
#[case(&["--signed"], "nobody has signed it off; `sparestrip check --signed` says more")]
fn what_is_not_there_is_said(#[case] words: &[&str], #[case] why: &str) {
    let ran = asked(words);
    assert_eq!(ran.out, "");
    assert_eq!(ran.status, Some(if words == ["--signed"] { 1 } else { 2 }), "{ran:?}");
    assert!(ran.err.contains(why), "{}", ran.err);
}

#[test]
fn one_table_is_named_by_its_heading_or_its_fabric() {
    let ran = asked(&["--table", "what to BUY", "--format", "tsv", "--size", "throw"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    assert_eq!(ran.out, "\u{feff}to buy\tthrow\r\nbinding\t3/4 yd\r\n");
    assert!(ran.err.starts_with("sparestrip: print this with it: For an infant, "), "{}", ran.err);
    let ran = run_with_input(
        &std::env::temp_dir(),
        &["tables", "-", "--table", "ink", "--table", "sand", "--format", "csv"],
        tern_colony().as_bytes(),
    );
    let tables: BTreeSet<String> = of_csv(&ran.out).into_iter().map(|fact| fact[0].clone()).collect();
    assert_eq!(tables, ["Cut from ink".to_string(), "Cut from sand".to_string()].into());
    let words = ["tables", "-", "--form", "instructions", "--table", "ink", "--format", "wide-csv"];
    let ran = run_with_input(&std::env::temp_dir(), &words, tern_colony().as_bytes());
    assert_eq!(ran.out, "\u{feff}cut,wall,throw\r\nsquares 12.6 x 12.6 cm (5 x 5 in) (B),20,48\r\n");
}

#[test]
fn signed_numbers_are_printed_and_changed_ones_are_not() {
    let (folder, file) = folder_with("x.pattern.yaml", GOOD);
    assert_eq!(run(folder.path(), &["sign", "x.pattern.yaml", "--by", "Ada Finch"]).status, Some(0));
    assert_eq!(run(folder.path(), &["tables", "x.pattern.yaml", "--signed"]).status, Some(0));
    write(&file, GOOD.replace("strips: 12", "strips: 13").replace("7/8 yd", "1 yd"));
    write(&folder.path().join("y.pattern.yaml"), GOOD);
    let ran = run(folder.path(), &["tables", ".", "--signed", "--output", "."]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(1), ""));
    assert!(
        ran.err.contains("x.pattern.yaml: not what Ada Finch signed on ") && ran.err.contains("y.pattern.yaml: nobody"),
        "{}",
        ran.err
    );
    assert!(!folder.path().join("x.tables.md").exists());
}

#[test]
fn a_folder_is_written_to_a_folder() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    write(&folder.path().join("more/y.pattern.yaml"), GOOD.replace("Harbour Lanterns", "Harbour Lights"));
    let printed = run(folder.path(), &["tables", "."]);
    assert_eq!(printed.status, Some(0), "{printed:?}");
    assert_eq!(printed.out.matches("\n# ").count() + 1, 2, "{}", printed.out);
    std::fs::create_dir(folder.path().join("out")).expect("a folder");
    let ran = run(folder.path(), &["tables", ".", "--format", "html", "--output", "out", "--form", "instructions"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    for (file, title) in [("x", "Harbour Lanterns"), ("y", "Harbour Lights")] {
        let text = text_of(&folder.path().join(format!("out/{file}.instructions.html")));
        assert!(text.contains(&format!("<h1>{title}, edition 1</h1>")), "{text}");
    }
    for (words, why) in [
        (&["--format", "html"][..], "name a folder for the files of several manuscripts"),
        (&["--output", "nowhere"], "nowhere is no folder"),
    ] {
        let ran = run(folder.path(), &[&["tables", "."], words].concat());
        assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
        assert!(ran.err.contains(why), "{}", ran.err);
    }
    write(&folder.path().join("more/x.pattern.yaml"), GOOD);
    let ran = run(folder.path(), &["tables", ".", "--output", "out"]);
    assert!(ran.err.contains("two manuscripts would be written to x.tables.md"), "{}", ran.err);
    assert!(!folder.path().join("out/x.tables.md").exists());
}

/// A style sheet finds each kind of table and of cell.
#[test]
fn classes_name_what_is_in_a_page() {
    let page = scraper::Html::parse_document(&tables_as_html(&wanted(&tern_colony(), &Wanted::default())));
    let count = |selector: &str| page.select(&super::formats::selector(selector)).count();
    for class in [
        "about",
        "finished-sizes",
        "what-to-buy",
        "notions",
        "for-all-sizes",
        "colorways",
        "units",
        "blocks",
        "layout",
        "binding",
        "backing",
    ] {
        assert_eq!(count(&format!("table.{class}")), 1, "{class}");
    }
    assert_eq!(count("table.cutting"), 5);
    assert_eq!(count("table:not([class])") + count("td:not([class])") + count("th:not([class])"), 0);
    assert_eq!(count("table.what-to-buy th.size"), 2);
    assert!(
        count("table.what-to-buy td.size") > 10 && count("table.cutting th.counted") > 5 && count("p.caution") == 2
    );
}
