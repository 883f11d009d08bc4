//! Plans as they are printed, read as a reader reads them and cut piece by piece: the worksheet's words, and the strips
//! of its JSON.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::cut_again;
use super::lists::{Fabric, Piece, eighths, items, realistic};
use super::rng::Rng;
use serde_json::Value;
use sparestrip::manuscript::Source;
use sparestrip::quantity::{Count, Length};
use sparestrip::quilt_math::planner::{CutGrid, CutStrips, Cutting, Decision};
use sparestrip::report::worksheet_json;
use sparestrip::rule_book::Settings;
use sparestrip::worksheet::Worksheet;

/// How many lists.
const CASES: u64 = 14;

/// An eighth of a yard, and what is lost when the edge is squared up, in eighths of an inch.
const STEP: i64 = 36;
const SQUARING: i64 = 4;

fn inches(eighths: i64) -> String {
    let (whole, rest) = (eighths / 8, eighths % 8);
    if rest == 0 { whole.to_string() } else { format!("{whole} {rest}/8") }
}

/// A manuscript with one fabric that is cut into the pieces of a list.
fn manuscript(fabric: &Fabric, stated: Length) -> String {
    let directional = if fabric.pieces.iter().any(|piece| piece.turns) { "no" } else { "yes" };
    let eighths = stated.ticks() / eighths(1).ticks();
    let mut text = format!(
        "pattern: Row Boat\nmeasure: inch\nsizes:\n  lap: {{ finished: 48 x 60 }}\nfabrics:\n  ink:\n    usable_width: {}\n    \
         directional: {directional}\n    requires: {{ lap: {} in }}\n    cut:\n",
        inches(fabric.width),
        inches(i64::try_from(eighths).unwrap()),
    );
    for (number, piece) in fabric.pieces.iter().enumerate() {
        let grain = if piece.along > 36 * 8 { ", grain: lengthwise" } else { "" };
        let size = format!("{} x {}", inches(piece.across), inches(piece.along));
        let line = format!("      - {{ piece: p{number}, size: {size}{grain}, pieces: {{ lap: {} }} }}", piece.count);
        writeln!(text, "{line}").unwrap();
    }
    text
}

/// The worksheet of a list for which just as much is stated as its best plan takes.
fn worksheet(case: u64) -> (Fabric, String, Value) {
    let fabric = realistic(&mut Rng::new(9_000 + case));
    let best = Decision::new(&items(&fabric.pieces), eighths(fabric.width), &[]).best().unwrap().length();
    let bought = (best + eighths(SQUARING)).up_to(eighths(STEP));
    let source = Source::from_text("boat.pattern.yaml", manuscript(&fabric, bought));
    let worksheet = Worksheet::new(&source, &Settings::default());
    let line = worksheet.account.lines.iter().find(|line| line.number == "ink requires").unwrap();
    let json = serde_json::from_str(&worksheet_json(&source, &worksheet)).unwrap();
    (fabric, line.working.clone(), json)
}

#[test]
fn every_plan_in_the_json_gives_its_pieces_when_it_is_cut_again() {
    for case in 0..CASES {
        let (fabric, _, json) = worksheet(case);
        let drawn = &json["drawings"]["sizes"][0]["fabrics"][0];
        let rows = drawn["rows"].as_array().unwrap();
        assert_eq!(drawn["more"], 0, "case {case}");
        let strips: Vec<CutStrips> = rows.iter().map(strips).collect();
        let list: Vec<Piece> =
            fabric.pieces.iter().map(|piece| Piece { turns: piece.turns && piece.along <= 36 * 8, ..*piece }).collect();
        cut_again(&items(&list), eighths(fabric.width), &Cutting { strips: strips.clone() });
        for (row, strips) in rows.iter().zip(&strips) {
            let area = |across: Length, along: Length| across.ticks() * along.ticks();
            let pieces: i128 =
                strips.grids.iter().map(|grid| area(grid.across, grid.along) * i128::from(grid.count.0)).sum();
            let left: i128 = row["left_over"]
                .as_array()
                .unwrap()
                .iter()
                .map(|left| area(length(&left["across"]), length(&left["along"])))
                .sum();
            assert_eq!(pieces + left, area(eighths(fabric.width), strips.width), "case {case}: {row:#}");
        }
    }
}

fn length(told: &Value) -> Length {
    let text = told["inches"].as_str().unwrap();
    let (top, over) = text.split_once('/').unwrap_or((text, "1"));
    Length::inch_fraction(top.parse().unwrap(), over.parse().unwrap())
}

fn strips(row: &Value) -> CutStrips {
    let grid = |pieces: &Value| CutGrid {
        item: pieces["piece"].as_str().unwrap()[1..].parse().unwrap(),
        from: length(&pieces["from"]),
        above: length(&pieces["above"]),
        across: length(&pieces["across"]),
        along: length(&pieces["along"]),
        stacked: Count(pieces["stacked"].as_u64().unwrap()),
        count: Count(pieces["count"].as_u64().unwrap()),
    };
    CutStrips {
        count: Count(row["strips"].as_u64().unwrap()),
        width: length(&row["width"]),
        remnant: None,
        grids: row["pieces"].as_array().unwrap().iter().map(grid).collect(),
    }
}

#[test]
fn every_plan_in_words_gives_its_pieces_when_it_is_cut_as_it_says() {
    for case in 0..CASES {
        let (fabric, words, _) = worksheet(case);
        let made = Reader::new(&words, fabric.width).cut();
        let wanted: BTreeMap<String, i64> =
            (0..).zip(&fabric.pieces).map(|(number, piece)| (format!("p{number}"), piece.count)).collect();
        let mut summed = BTreeMap::new();
        for ((name, size), count) in made {
            let number: usize = name[1..].parse().unwrap();
            let piece = &fabric.pieces[number];
            let sides = [piece.across, piece.along];
            assert!(size == sides || size == [sides[1], sides[0]], "case {case}: {name} is cut {size:?}: {words}");
            *summed.entry(name).or_insert(0) += count;
        }
        assert_eq!(summed, wanted, "case {case}: {words}");
    }
}

/// What was cut: the name and the sides, and how many.
type Made = BTreeMap<(String, [i64; 2]), i64>;

/// Reads a plan in words and cuts it, in eighths of an inch.
struct Reader<'w> {
    sentences: Vec<&'w str>,
    width: i64,
    made: Made,
    /// Sections that are still to be cut: how many, and their sides.
    sections: BTreeMap<String, (i64, [i64; 2])>,
}

/// Which way a list goes on: along a strip, or across it.
#[derive(Clone, Copy)]
struct Room {
    long: i64,
    high: i64,
    across: bool,
}

impl<'w> Reader<'w> {
    fn new(words: &'w str, width: i64) -> Reader<'w> {
        let plan = words.trim_start_matches("It is enough only if the pieces are cut by one plan. ");
        let plan = plan.split(" Left over: ").next().unwrap();
        let end = plan.find(". 1 strip x").or(plan.find(". 1 length x"));
        let sums = (2..60).find_map(|count| {
            plan.find(&format!(". {count} strips x")).or_else(|| plan.find(&format!(". {count} lengths x")))
        });
        let end = end.into_iter().chain(sums).min().unwrap_or(plan.len());
        let plan = plan[..end].trim_end_matches('.');
        Reader { sentences: plan.split(". ").collect(), width, made: Made::new(), sections: BTreeMap::new() }
    }

    fn cut(mut self) -> Made {
        for sentence in self.sentences.clone() {
            if let Some(from) = sentence.strip_prefix("From ") {
                let (name, list) = from.split_once(" cut ").unwrap();
                let name = name.trim_start_matches("each ").to_string();
                let (count, [across, along]) = self.sections.remove(&name).unwrap();
                let is_rows = list.starts_with(|letter: char| letter.is_ascii_digit()) && list.contains(" row");
                let room = Room {
                    long: if is_rows { along } else { across },
                    high: if is_rows { across } else { along },
                    across: !is_rows,
                };
                self.list(list, count, room);
                continue;
            }
            let (head, rest) = sentence.split_once("; ").unwrap_or_else(|| panic!("{sentence}"));
            let head = head.strip_prefix("Cut ").unwrap();
            let (count, head) = number(head);
            let wide = measure(head.split_once(' ').unwrap().1.split_once(" x WOF").unwrap().0);
            let list = rest.trim_start_matches("from each ").strip_prefix("subcut ").unwrap();
            let room = Room { long: self.width, high: wide, across: true };
            if let Some((list, most)) = list.rsplit_once(", up to ") {
                // So many from each strip, the last of them fewer.
                let most = number(most).0;
                let before: i64 = self.made.values().sum();
                self.list_of(list, 1, Room { long: self.width * count, ..room });
                let made = self.made.values().sum::<i64>() - before;
                assert!(made <= most * count && made > most * (count - 1), "{sentence}");
                self.list_of(&format!("{most} {}", list.split_once(' ').unwrap().1), 0, room);
                continue;
            }
            self.list(list.trim_end_matches(" from each").trim_end_matches(','), count, room);
        }
        assert!(self.sections.is_empty(), "{:?}", self.sections);
        self.made
    }

    fn list(&mut self, list: &str, times: i64, room: Room) {
        self.list_of(list, times, room);
    }

    /// Parts one after another, which must not be longer than the room.
    fn list_of(&mut self, list: &str, times: i64, room: Room) {
        let used: i64 = list.split(", then ").map(|part| self.part(part, times, room)).sum();
        assert!(used <= room.long, "{list}: {used} of {}", room.long);
    }

    /// How much of the room's length a part takes.
    fn part(&mut self, part: &str, times: i64, room: Room) -> i64 {
        let (count, rest) = number(part);
        let (word, rest) = rest.split_once(' ').unwrap();
        if !matches!(word.trim_end_matches('s'), "section" | "row") {
            return count * self.pieces(count, rest, times, room.high);
        }
        let (size, rest) = sides(rest);
        let (long, high) = if room.across { (size[0], size[1]) } else { (size[1], size[0]) };
        assert_eq!(high, room.high, "{part}");
        if let Some((_, inner)) = rest.split_once("into ") {
            let used: i64 = inner
                .split(" and ")
                .map(|pieces| {
                    let (inner, rest) = number(pieces);
                    inner * self.pieces(inner, rest.split_once(' ').unwrap().1, times * count, long)
                })
                .sum();
            assert!(used <= high, "{part}: {used} of {high}");
        } else {
            let name = rest.trim_start_matches(" (").trim_end_matches(')').to_string();
            self.sections.insert(name, (times * count, size));
        }
        count * long
    }

    /// The shorter side of pieces that a strip so wide can give: how much of its length each takes.
    fn pieces(&mut self, count: i64, words: &str, times: i64, wide: i64) -> i64 {
        let (size, rest) = sides(words);
        let (name, trimmed) = rest.trim_start_matches(" (").split_once(')').unwrap();
        *self.made.entry((name.to_string(), size)).or_insert(0) += count * times;
        let fits = [(size[0], size[1]), (size[1], size[0])].into_iter().filter(|(_, high)| *high <= wide);
        let taken = fits.map(|(long, _)| long).min().unwrap_or_else(|| panic!("{words} in {wide}"));
        if let Some(from) = trimmed.strip_prefix(", trimmed from ") {
            assert_eq!(measure(from), wide, "{words}");
        }
        taken
    }
}

/// A whole number, and what follows it.
fn number(words: &str) -> (i64, &str) {
    let (number, rest) = words.split_once(' ').unwrap();
    (number.parse().unwrap_or_else(|_| panic!("{words}")), rest)
}

/// `6 1/2 x 21 in`, and what follows it.
fn sides(words: &str) -> ([i64; 2], &str) {
    let (size, rest) = words.split_once(" in").unwrap_or_else(|| panic!("{words}"));
    let (one, other) = size.split_once(" x ").unwrap();
    ([measure(one), measure(other)], rest)
}

/// `6 1/2` or `6 1/2 in`, in eighths.
fn measure(words: &str) -> i64 {
    let part = |word: &str| match word.split_once('/') {
        Some((top, over)) => top.parse::<i64>().unwrap() * 8 / over.parse::<i64>().unwrap(),
        None => word.parse::<i64>().unwrap() * 8,
    };
    words.trim_end_matches(" in").split(' ').map(part).sum()
}
