//! The drawings' numbers in the JSON are those that the figures carry and write.

use serde_json::Value;
use sparestrip::report::figure::{Figure, figures};

use super::figures_as_xml::{Element, elements};
use super::{examples, list, worksheet_of};

fn data<'e>(element: &'e Element, name: &str) -> Option<&'e str> {
    element.attribute(&format!("data-{name}"))
}

/// A length of the JSON in eighths of an inch.
fn eighths(length: &Value) -> u64 {
    let (over, under) =
        length["inches"].as_str().unwrap().split_once('/').unwrap_or((length["inches"].as_str().unwrap(), "1"));
    let (over, under): (u64, u64) = (over.parse().unwrap(), under.parse().unwrap());
    over * 8 / under
}

fn shown(told: &Value) -> Option<&str> {
    told["shown"].as_str()
}

/// Each element that has the one, with the other data.
fn table(elements: &[Element], names: &[&str]) -> Vec<Vec<Option<String>>> {
    let rows = elements.iter().filter(|element| data(element, names[0]).is_some());
    rows.map(|element| names.iter().map(|name| data(element, name).map(str::to_string)).collect()).collect()
}

fn row(values: &[Option<&str>]) -> Vec<Option<String>> {
    values.iter().map(|value| value.map(str::to_string)).collect()
}

fn edge_agrees(edge: &Value, figure: &Figure) {
    let elements = elements(&figure.svg);
    for name in ["width", "length", "round", "needed", "had", "over", "short"] {
        assert_eq!(data(&elements[0], name), shown(&edge[name]), "{name} of {}", figure.id);
    }
    let laid = &edge["laid"];
    let number = |value: &Value| value.as_u64().map(|number| number.to_string());
    let joins: Vec<_> = list(&laid["joins"])
        .iter()
        .map(|join| {
            let (number, side, corner) = (number(&join["join"]), number(&join["side"]), number(&join["corner"]));
            row(&[
                number.as_deref(),
                shown(&join["at"]),
                side.as_deref(),
                corner.as_deref(),
                shown(&join["past_corner"]),
            ])
        })
        .collect();
    assert_eq!(table(&elements, &["join", "at", "side", "corner-of-join", "past-corner"]), joins, "{}", figure.id);
    let corners: Vec<_> = list(&laid["corners"])
        .iter()
        .map(|corner| row(&[number(&corner["corner"]).as_deref(), shown(&corner["at"])]))
        .collect();
    assert_eq!(table(&elements, &["corner", "at"]), corners, "{}", figure.id);
    // A strip that is in a tail alone has no band on the edge.
    for strip in table(&elements, &["strip", "begins", "ends"]) {
        let twin = list(&laid["strips"]).iter().find(|twin| number(&twin["strip"]) == strip[0]).unwrap();
        assert_eq!(strip[1..], row(&[shown(&twin["begins"]), shown(&twin["ends"])]), "{}", figure.id);
    }
    if laid.is_object() {
        let tails =
            vec![row(&[Some("start"), shown(&laid["start_tail"])]), row(&[Some("end"), shown(&laid["end_tail"])])];
        assert_eq!(table(&elements, &["tail", "length"]), tails, "{}", figure.id);
        assert_eq!(table(&elements, &["start"]), [row(&[Some(shown(&laid["start"]).unwrap_or(""))])], "{}", figure.id);
        let opening = shown(&laid["opening"]).map(|opening| row(&[Some(opening)]));
        assert_eq!(table(&elements, &["opening"]), opening.into_iter().collect::<Vec<_>>(), "{}", figure.id);
    }
    for join in list(&laid["joins"]) {
        let at = shown(&join["at"]).unwrap();
        let told = at.strip_prefix('-').unwrap_or(at);
        assert!(figure.alternative.contains(told), "join at {at}: {}", figure.alternative);
        assert!(elements.iter().any(|element| element.text.contains(told)), "join at {at} is not written");
    }
    // What the table of the joins refers to is named in the drawing.
    if list(&laid["corners"]).len() <= 5 {
        for corner in list(&laid["corners"]) {
            let name = format!("corner {}", corner["corner"]);
            assert!(elements.iter().any(|element| element.text == name), "{name} has no name in {}", figure.id);
        }
    }
    for join in list(&laid["joins"]).iter().filter(|join| join["on"] == "side" || join["on"] == "corner") {
        let number = join["join"].to_string();
        let discs = elements.iter().filter(|element| element.text == number).count();
        assert!(discs >= 2, "join {} is in the table and not at its place in {}", join["join"], figure.id);
    }
    assert!(figure.caption.contains(shown(&edge["needed"]).unwrap()), "{}", figure.caption);
}

fn fabric_agrees(fabric: &Value, figure: &Figure) {
    let elements = elements(&figure.svg);
    assert_eq!(data(&elements[0], "drawing"), fabric["kind"].as_str());
    let names: &[&str] = match fabric["kind"].as_str().unwrap() {
        "bolt" => &["used", "left", "short", "usable-width", "stated"],
        "square" => &["side", "gives", "needed", "left", "short", "stated"],
        "bias" => &["edge-to-edge", "strip-length", "pitch"],
        _ => &[],
    };
    for name in names {
        assert_eq!(data(&elements[0], name), shown(&fabric[name.replace('-', "_")]), "{name} of {}", figure.id);
    }
    if fabric["kind"] == "precut" {
        for name in ["used", "stated"] {
            assert_eq!(data(&elements[0], name), fabric[name].as_u64().map(|n| n.to_string()).as_deref());
        }
    }
}

fn backing_agrees(backing: &Value, figure: &Figure) {
    let elements = elements(&figure.svg);
    for name in ["sewn", "across", "each", "trimmed", "short", "fabric"] {
        assert_eq!(data(&elements[0], name), shown(&backing[name]), "{name} of {}", figure.id);
    }
    let panels: Vec<_> =
        list(&backing["panels"]).iter().map(|panel| row(&[shown(&panel["begins"]), shown(&panel["ends"])])).collect();
    let drawn = table(&elements, &["panel", "begins", "ends"]);
    let drawn: Vec<_> = drawn.into_iter().map(|panel| panel[1..].to_vec()).collect();
    assert_eq!(drawn, panels, "{}", figure.id);
}

/// A block or a unit: its size, and every piece of it that is in the JSON is drawn once.
fn block_agrees(block: &Value, figure: &Figure) {
    let elements = elements(&figure.svg);
    for name in ["width", "length"] {
        assert_eq!(data(&elements[0], name), shown(&block[name]), "{name} of {}", figure.id);
    }
    let pieces = match &block["pieces"] {
        Value::Array(pieces) => pieces.len(),
        count => usize::try_from(count.as_u64().unwrap()).unwrap(),
    };
    let drawn = elements.iter().filter(|element| data(element, "piece").is_some() || data(element, "unit").is_some());
    // The figure itself tells what a unit of it stands for.
    assert_eq!(drawn.count() - 1, pieces.max(1), "{}", figure.id);
    assert!(figure.caption.contains(shown(&block["length"]).unwrap()), "{}", figure.caption);
}

/// A top: its size, and every part of it is drawn once.
fn top_agrees(top: &Value, figure: &Figure) {
    let elements = elements(&figure.svg);
    for name in ["width", "length"] {
        assert_eq!(data(&elements[0], name), shown(&top[name]), "{name} of {}", figure.id);
    }
    let kinds = table(&elements, &["kind"]).into_iter().flatten().flatten();
    let told = list(&top["parts"]).iter().map(|part| part["kind"].as_str().unwrap().replace('_', " "));
    assert_eq!(kinds.collect::<Vec<_>>(), told.collect::<Vec<_>>(), "{}", figure.id);
    for why in list(&top["empty"]) {
        assert!(figure.alternative.contains(why.as_str().unwrap()), "{}", figure.alternative);
    }
}

#[test]
fn figures_of_every_example_carry_the_numbers_of_the_json() {
    let (mut edges, mut blocks) = (0, 0);
    for path in examples() {
        let (worksheet, json) = worksheet_of(&path);
        let figures = figures(&worksheet.drawings);
        let mut figures = figures.iter().peekable();
        let design = &json["drawings"]["design"];
        for block in list(&design["blocks"]) {
            block_agrees(block, figures.next().unwrap());
            // Units whose pieces are too small for their numbers follow.
            while let Some(figure) = figures.next_if(|figure| figure.id.starts_with("fig-unit-")) {
                let root = &elements(&figure.svg)[0];
                let mut units = list(&design["units"]).iter();
                block_agrees(units.find(|unit| data(root, "name") == unit["unit"].as_str()).unwrap(), figure);
            }
            blocks += 1;
        }
        for size in list(&json["drawings"]["sizes"]) {
            if size["top"].is_object() {
                top_agrees(&size["top"], figures.next().unwrap());
            }
            if size["edge"].is_object() {
                edge_agrees(&size["edge"], figures.next().unwrap());
                edges += 1;
            }
            for fabric in list(&size["fabrics"]) {
                fabric_agrees(fabric, figures.next().unwrap());
            }
            if size["backing"].is_object() {
                backing_agrees(&size["backing"], figures.next().unwrap());
            }
        }
        assert!(figures.next().is_none());
    }
    assert!(edges > 20 && blocks > 5, "{edges} {blocks}");
}

#[test]
fn a_join_that_the_rule_points_at_is_there_in_the_json() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns/with-faults");
    let (worksheet, json) = worksheet_of(&folder.join("salt-marsh.pattern.yaml"));
    let finding = worksheet.account.outcome.findings.iter().find(|finding| finding.rule == "join-near-corner").unwrap();
    let size = list(&json["drawings"]["sizes"]).iter().find(|size| size["size"].as_str() == finding.size.as_deref());
    let edge = &size.unwrap()["edge"];
    let joins = list(&edge["laid"]["joins"]);
    let told = finding.stated.as_deref().unwrap();
    // From the corner behind the join, or to the one before it.
    let past = |join: &Value| shown(&join["past_corner"]).map(|past| format!("{past} from the corner"));
    let before = |join: &Value| {
        let along = list(&edge["sides"]).iter().find(|each| each["side"] == join["side"])?;
        let left = eighths(&along["length"]) - eighths(&join["past_corner"]);
        (told == format!("{left}/8 in from the corner")).then_some(())
    };
    let is_told = |join: &Value| past(join).as_deref() == Some(told) || before(join).is_some();
    assert!(joins.iter().any(|join| join["on"] == "corner" || is_told(join)), "{told}: {joins:?}");
}
