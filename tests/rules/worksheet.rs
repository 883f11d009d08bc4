//! The account of a manuscript: each stated number of the layers is in it, with what is needed and how it stands.

use sparestrip::audit::{Line, account};
use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;

const LAYERS: &str = "pattern: Test Harbour
measure: inch
sizes:
  throw: { finished: 54 x 72, for: twin bed, drop: 10 }
  queen: { finished: 90 x 96 }
backing:
  overhang: 4
  seam: 1/2
  usable_width: 42
  requires:
    throw: { fabric: 3 1/4 yd (3.2 m), panels: 2, panels_run: across }
    queen: 8 1/2 yd
batting:
  overhang: 3
  requires:
    throw: 60 x 77
    queen: packaged king
";

fn lines(text: &str) -> Vec<Line> {
    account(&Source::from_text("test.pattern.yaml", text), &Settings::default()).lines
}

/// What a line says, without its working.
fn told(line: &Line) -> (&str, &str, &str, &str, String) {
    let size = line.size.as_deref().unwrap_or_default();
    (size, &line.number, &line.stated, &line.needed, line.result())
}

#[test]
fn every_number_of_the_layers_is_in_the_account() {
    let lines = lines(LAYERS);
    let told: Vec<_> = lines.iter().map(told).collect();
    let expected = [
        ("", "backing overhang", "4", "", "as given"),
        ("", "backing seam", "1/2", "", "as given"),
        ("", "backing usable_width", "42", "", "as given"),
        ("", "batting overhang", "3", "", "as given"),
        // 38 x 75 and a drop of 10: 58 x 85.
        ("throw", "finished", "54 x 72", "58 x 85 in", "short"),
        ("throw", "drop", "10", "", "as given"),
        // Two panels of 62 in across: 124 in.
        ("throw", "backing fabric", "3 1/4 yd (3.2 m)", "3 1/2 yd (3.2 m)", "short"),
        ("throw", "backing panels", "2", "2", "OK"),
        ("throw", "batting", "60 x 77", "60 x 78 in", "short"),
        ("queen", "finished", "90 x 96", "", "as given"),
        // Three panels of 98 in across: 294 in, 8 1/4 yd.
        ("queen", "backing fabric", "8 1/2 yd", "8 1/4 yd", "OK, note"),
        ("queen", "batting", "packaged king", "96 x 102 in", "OK"),
    ];
    assert_eq!(
        told,
        expected.map(|(size, number, stated, needed, result)| (size, number, stated, needed, result.to_string()))
    );
}

#[test]
fn what_depends_on_an_unreadable_number_is_not_checked() {
    let text = LAYERS.replace("overhang: 4", "overhang: four").replace("overhang: 3", "overhang: three");
    let lines = lines(&text);
    let unchecked: Vec<_> = lines.iter().filter(|line| line.status.word() == "not checked").map(told).collect();
    let expected = [
        ("throw", "backing fabric", "3 1/4 yd (3.2 m)", "", "not checked"),
        ("throw", "backing panels", "2", "", "not checked"),
        ("throw", "batting", "60 x 77", "", "not checked"),
        ("queen", "backing fabric", "8 1/2 yd", "", "not checked"),
        ("queen", "batting", "packaged king", "", "not checked"),
    ];
    assert_eq!(
        unchecked,
        expected.map(|(size, number, stated, needed, result)| (size, number, stated, needed, result.to_string()))
    );
}
