//! How much more is stated than is needed.

use super::{list, worksheet};

const TEXT: &str = "pattern: Test Margin
measure: inch
sizes:
  throw: { finished: 54 x 72 }
fabrics:
  ink:
    requires: { throw: 1 yd (1 m) }
    cut:
      - { piece: A, size: 3 1/2 x 3 1/2, strips: { throw: 4 }, pieces: { throw: 60 } }
binding:
  strip_width: 2 1/2
  tails: 10
  opening: 12
  requires:
    throw: { strips: 7, fabric: 3/4 yd }
backing:
  requires:
    throw: { fabric: 4 yd, panels: 3, panels_run: along }
batting:
  requires:
    throw: 62 x 80
";

#[test]
fn margins_are_worked_from_the_values() {
    let (_, json) = worksheet(TEXT);
    let margin = |number: &str| {
        let line = list(&json["lines"]).iter().find(|line| line["number"] == number);
        line.unwrap_or_else(|| panic!("no line for {number}"))["margin"].as_str().unwrap().to_string()
    };
    // Double fold: 3 x 1/4 + 1/16 folded round, and 1/16 to catch: twice 7/8.
    assert_eq!(margin("binding strip_width"), "3/4 in");
    // 20 for 12 and a join of 2 1/2.
    assert_eq!(margin("binding tails"), "5 1/2 in");
    // 262 takes 7, and one to spare: 8 strips of 2 1/2 and 1/2 are 20 1/2, so 5/8 yd.
    assert_eq!(margin("binding strips"), "-1");
    assert_eq!(margin("binding fabric"), "1/8 yd");
    // 60 squares at 11 a strip take 6 strips of 3 1/2 and 1/2: 21 1/2 in, 5/8 yd, or 60 cm.
    assert_eq!(margin("ink A strips"), "-2");
    assert_eq!(margin("ink requires"), "3/8 yd (40 cm)");
    // Three panels of 80 are 240 in, 6 3/4 yd; two would do.
    assert_eq!(margin("backing panels"), "1");
    assert_eq!(margin("backing fabric"), "-2 3/4 yd");
    assert_eq!((margin("binding opening").as_str(), margin("batting").as_str()), ("", ""));
}

#[test]
fn what_is_enough_by_less_than_is_told_has_no_margin_and_is_not_short() {
    // The circle is 376.992 cm round, 391.992 cm with 20 and 20 in tails and 25 unsewn: a square of 48.4969 cm gives
    // it in strips of 6 cm, and two seams of 1/4 in make 49.7669 cm, which is told as 49.8 cm.
    let text = |square: &str| {
        format!(
            "pattern: Test Round\nmeasure: cm\nsizes:\n  mat: {{ finished: 120 x 120, outline: circle }}\nbinding:\n  \
             strip_width: 6\n  grain: bias\n  tails: 20\n  opening: 25\n  requires: {{ mat: {{ square: {square} }} }}\n"
        )
    };
    let told = |square: &str| {
        let (_, json) = worksheet(&text(square));
        let line = list(&json["lines"]).iter().find(|line| line["number"] == "binding square").unwrap();
        ["needed", "margin", "standing"].map(|key| line[key].as_str().unwrap().to_string())
    };
    assert_eq!(told("49.78"), ["49.8 cm", "0 cm", "ok"]);
    assert_eq!(told("49.7"), ["49.8 cm", "-0.1 cm", "short"]);
}
