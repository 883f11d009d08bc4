//! What is drawn of an edge lies where its numbers say: a drawing to scale can be measured.

use sparestrip::report::figure::{Figure, figures};

use super::figures_as_xml::{Element, elements};
use super::worksheet;

const TEXT: &str = "pattern: Test Scale
measure: inch
assumes: { usable_width: 40 }
sizes:
  mat: { finished: 32 x 64 }
binding:
  strip_width: 2
  tails: 6
  opening: 8
  requires:
    mat: { strips: 6, fabric: 1/2 yd }
";

fn first(text: &str) -> Figure {
    figures(&worksheet(text).0.drawings).remove(0)
}

/// The places of a path in thousandths of a unit.
fn places(element: &Element) -> Vec<(i64, i64)> {
    let thousandths = |word: &str| {
        let (whole, rest) = word.split_once('.').unwrap_or((word, ""));
        format!("{whole}{rest:0<3}").parse::<i64>().unwrap()
    };
    let path = element.attribute("d").unwrap();
    let numbers: Vec<i64> = path.split(['M', 'L', 'Z', ' ']).filter(|word| !word.is_empty()).map(thousandths).collect();
    numbers.chunks(2).map(|pair| (pair[0], pair[1])).collect()
}

/// How many 1024ths of an inch a unit stands for.
fn unit(root: &Element) -> i64 {
    root.attribute("data-unit").unwrap().strip_suffix("/1024").unwrap().parse().unwrap()
}

fn far(line: &[(i64, i64)]) -> i64 {
    line.windows(2).map(|pair| (pair[1].0 - pair[0].0).abs() + (pair[1].1 - pair[0].1).abs()).sum()
}

#[test]
fn the_quilt_and_its_strips_are_to_scale() {
    let figure = first(TEXT);
    let elements = elements(&figure.svg);
    let unit = unit(&elements[0]);
    let on_page = |inches: i64| inches * 1024 * 1000 / unit;
    let quilt = elements.iter().find(|element| element.attribute("class") == Some("fig-quilt")).unwrap();
    let corners = places(quilt);
    let near = |one: i64, other: i64| (one - other).abs() <= 8;
    let reach =
        |of: fn(&(i64, i64)) -> i64| corners.iter().map(of).max().unwrap() - corners.iter().map(of).min().unwrap();
    assert!(near(reach(|place| place.0), on_page(32)) && near(reach(|place| place.1), on_page(64)), "{corners:?}");
    // Strip 1 is sewn on from the start to join 1: 38 + 1 - 6 = 33 in, of which 32 to the corner, 1/2 in it, 1/2 past it.
    let strip = |number: &str| elements.iter().find(|element| element.attribute("data-strip") == Some(number)).unwrap();
    let line = places(strip("1"));
    assert!(near(far(&line), on_page(65) / 2), "{line:?} {unit}");
    // Strip 2 is 38 in from join to join: all of it on the bottom and 7 in up the left, less a corner of 1/2 in.
    let line = places(strip("2"));
    assert!(near(far(&line), on_page(75) / 2), "{line:?} {unit}");
    // They keep to the edge: a rectangle has no slant anywhere.
    for strip in elements.iter().filter(|element| element.attribute("data-strip").is_some()) {
        for pair in places(strip).windows(2) {
            assert!(near(pair[0].0, pair[1].0) || near(pair[0].1, pair[1].1), "{strip:?} cuts a corner: {pair:?}");
        }
    }
    // Tails run beside the longest side, each as long as it is.
    for tail in ["start", "end"] {
        let tail = elements.iter().find(|element| element.attribute("data-tail") == Some(tail)).unwrap();
        assert!(near(far(&places(tail)), on_page(6)), "{tail:?}");
    }
}

#[test]
fn strips_go_round_as_the_hands_of_a_clock_do() {
    let figure = first(TEXT);
    let elements = elements(&figure.svg);
    let strip = elements.iter().find(|element| element.attribute("data-strip") == Some("1")).unwrap();
    let line = places(strip);
    assert!(line[1].1 > line[0].1, "the start is on the right side, and the strip goes down it: {line:?}");
}
