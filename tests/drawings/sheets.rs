//! Strips lie inside their fabric and on no other, pieces inside their strips, and panels cover the backing.

use serde_json::Value;

use super::{examples, list, sixty_fourths, worksheet, worksheet_of};

/// A length in inches as a fraction, so that it can be compared whatever it is.
fn fraction(told: &Value) -> (i128, i128) {
    let text = told["inches"].as_str().unwrap_or_else(|| panic!("no length: {told}"));
    let (top, over) = text.split_once('/').unwrap_or((text, "1"));
    (top.parse().unwrap(), over.parse().unwrap())
}

fn times((top, over): (i128, i128), count: u64) -> (i128, i128) {
    (top * i128::from(count), over)
}

fn sum((a, b): (i128, i128), (c, d): (i128, i128)) -> (i128, i128) {
    (a * d + c * b, b * d)
}

fn at_most((a, b): (i128, i128), (c, d): (i128, i128)) -> bool {
    a * d <= c * b
}

fn same(one: (i128, i128), other: (i128, i128)) -> bool {
    at_most(one, other) && at_most(other, one)
}

fn number(value: &Value) -> u64 {
    value.as_u64().unwrap_or_else(|| panic!("no count: {value}"))
}

/// Pieces that are cut alike, or what is left over: from and to along a strip and across it.
struct Rectangle {
    from: [(i128, i128); 2],
    to: [(i128, i128); 2],
}

fn apart(rectangles: &[Rectangle], row: &Value) {
    for (number, one) in rectangles.iter().enumerate() {
        for other in &rectangles[number + 1..] {
            let beside = [0, 1]
                .into_iter()
                .any(|side| at_most(one.to[side], other.from[side]) || at_most(other.to[side], one.from[side]));
            assert!(beside, "pieces overlap: {row}");
        }
    }
}

fn bolt_holds(bolt: &Value) {
    let mut from = (0, 1);
    let mut first = 1;
    for row in list(&bolt["rows"]) {
        assert!(same(fraction(&row["from"]), from), "{row}");
        assert_eq!(number(&row["first"]), first);
        let mut end = (0, 1);
        let mut rectangles = Vec::new();
        for pieces in list(&row["pieces"]) {
            let stacked = number(&pieces["stacked"]).min(number(&pieces["count"]));
            // The last column may have fewer pieces than the others.
            let full = number(&pieces["count"]) / stacked;
            let columns = number(&pieces["count"]).div_ceil(stacked);
            let (across, along) = (fraction(&pieces["across"]), fraction(&pieces["along"]));
            let (from, above) = (fraction(&pieces["from"]), fraction(&pieces["above"]));
            let last = sum(from, times(across, full));
            rectangles.push(Rectangle { from: [from, above], to: [last, sum(above, times(along, stacked))] });
            let rest = number(&pieces["count"]) % stacked;
            let to = [sum(last, across), sum(above, times(along, rest))];
            rectangles.extend((rest > 0).then_some(Rectangle { from: [last, above], to }));
            let reach = sum(from, times(across, columns));
            end = if at_most(end, reach) { reach } else { end };
        }
        for left in list(&row["left_over"]) {
            let from = [fraction(&left["from"]), fraction(&left["above"])];
            let to = [sum(from[0], fraction(&left["across"])), sum(from[1], fraction(&left["along"]))];
            rectangles.push(Rectangle { from, to });
        }
        apart(&rectangles, row);
        assert!(rectangles.iter().all(|rectangle| at_most(rectangle.to[1], fraction(&row["width"]))), "{row}");
        assert!(at_most(end, fraction(&bolt["usable_width"])), "beyond the selvedge: {row}");
        assert!(same(sum(end, fraction(&row["rest"])), fraction(&bolt["usable_width"])), "{row}");
        from = sum(from, times(fraction(&row["width"]), number(&row["strips"])));
        first += number(&row["strips"]);
    }
    assert_eq!(first - 1 + number(&bolt["more"]), number(&bolt["strips"]));
    assert!(list(&bolt["rows"]).iter().all(|row| row["more_pieces"] == 0));
    if number(&bolt["more"]) == 0 {
        assert!(same(from, fraction(&bolt["used"])), "{bolt}");
    }
    if bolt["left"].is_object() {
        assert!(same(sum(fraction(&bolt["used"]), fraction(&bolt["left"])), fraction(&bolt["stated"])));
    }
    if bolt["short"].is_object() {
        assert!(same(sum(fraction(&bolt["stated"]), fraction(&bolt["short"])), fraction(&bolt["used"])));
    }
}

fn panels_cover(backing: &Value) {
    let mut begins = (0, 1);
    for panel in list(&backing["panels"]) {
        assert!(same(fraction(&panel["begins"]), begins), "a gap or a lap: {panel}");
        begins = fraction(&panel["ends"]);
    }
    assert!(same(begins, fraction(&backing["sewn"])), "{backing}");
    if let [first, _, ..] = list(&backing["panels"]) {
        // The first loses one seam to the second.
        let cut = sum(fraction(&first["ends"]), fraction(&backing["seam"]));
        assert!(same(cut, fraction(&backing["usable_width"])), "{backing}");
    }
    let covers = at_most(fraction(&backing["across"]), begins);
    assert_eq!(covers, backing["short"].is_null(), "{backing}");
}

#[test]
fn strips_and_panels_of_every_example_lie_where_they_can() {
    let (mut bolts, mut backings) = (0, 0);
    for path in examples() {
        let (_, json) = worksheet_of(&path);
        for size in list(&json["drawings"]["sizes"]) {
            for fabric in list(&size["fabrics"]).iter().filter(|fabric| fabric["kind"] == "bolt") {
                bolt_holds(fabric);
                bolts += 1;
            }
            if size["backing"].is_object() {
                panels_cover(&size["backing"]);
                backings += 1;
            }
        }
    }
    assert!(bolts > 20 && backings > 5, "{bolts} {backings}");
}

#[test]
fn precuts_are_counted() {
    let text = "pattern: P\nmeasure: inch\nsizes: { one: { finished: 20 x 20 } }\nfabrics:\n  bits:\n    \
                sold_as: squares\n    precut: 5\n    requires: { one: 7 }\n    cut:\n      - { piece: A, size: 2 1/2 x \
                2 1/2, pieces: { one: 33 } }\n";
    let (_, json) = worksheet(text);
    let fabric = &json["drawings"]["sizes"][0]["fabrics"][0];
    // Four from each: 33 take nine.
    assert_eq!((number(&fabric["used"]), number(&fabric["stated"]), number(&fabric["short"])), (9, 7, 2));
    assert_eq!((sixty_fourths(&fabric["across"]), &fabric["called"]), (5 * 64, &"precut square".into()));
}
