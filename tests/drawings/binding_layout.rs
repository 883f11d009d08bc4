//! Random bindings laid a second time: strips are laid end to end on a tape, and the tape is walked around the quilt, side
//! by side and corner by corner, in 64ths of an inch. Nothing is shared with the program but the text.

use std::fmt::Write as _;

use serde_json::Value;

use super::{edge, list, sixty_fourths, worksheet};

#[allow(dead_code)]
use crate::support::rng;

use rng::Rng;

const INCH: i64 = 64;

struct Binding {
    width: i64,
    length: i64,
    strip: i64,
    usable: i64,
    tails: (i64, i64),
    opening: i64,
    straight: bool,
    strips: Option<i64>,
}

fn random(rng: &mut Rng) -> Binding {
    let side = |rng: &mut Rng| rng.between(2 * 20, 2 * 120) * INCH / 2;
    Binding {
        width: side(rng),
        length: side(rng),
        strip: rng.between(16, 26) * INCH / 8,
        usable: rng.between(2 * 30, 2 * 45) * INCH / 2,
        tails: (rng.between(8, 40) * INCH / 4, rng.between(8, 40) * INCH / 4),
        opening: rng.between(4, 14) * INCH,
        straight: rng.one_in(3),
        strips: rng.one_in(4).then_some(()).map_or_else(|| Some(rng.between(1, 20)), |()| None),
    }
}

fn inches(value: i64) -> String {
    let (whole, rest) = (value / INCH, value % INCH);
    if rest == 0 { whole.to_string() } else { format!("{whole} {rest}/64") }
}

fn text(binding: &Binding) -> String {
    let mut text = format!(
        "pattern: Random Reef\nmeasure: inch\nassumes: {{ usable_width: {} }}\nsizes:\n  one: {{ finished: {} x {} }}\n",
        inches(binding.usable),
        inches(binding.width),
        inches(binding.length)
    );
    let join = if binding.straight { "straight" } else { "diagonal" };
    write!(
        text,
        "binding:\n  strip_width: {}\n  join: {join}\n  tails: {{ start: {}, end: {} }}\n  opening: {}\n  requires:\n",
        inches(binding.strip),
        inches(binding.tails.0),
        inches(binding.tails.1),
        inches(binding.opening)
    )
    .unwrap();
    match binding.strips {
        Some(strips) => writeln!(text, "    one: {{ strips: {strips} }}").unwrap(),
        None => text.push_str("    one: { fabric: 1 yd }\n"),
    }
    text
}

/// Where a join comes down: on which side, or in which corner, and how far past the corner.
#[derive(Debug, PartialEq, Eq)]
enum Down {
    StartTail,
    EndTail,
    Side(usize, usize, i64),
    Corner(usize),
}

/// Walks so far along the binding from the first stitch.
fn walk(binding: &Binding, far: i64) -> Down {
    if far < 0 {
        return Down::StartTail;
    }
    let (long, short) = (binding.width.max(binding.length), binding.width.min(binding.length));
    // The start is in the middle of the longest side, or as far past its corner as the opening and 3 in ask for.
    let start = (long / 2).max(binding.opening + 3 * INCH);
    let mut left = far;
    let stretches = [long - start, short, long, short, start - binding.opening];
    for (index, stretch) in stretches.into_iter().enumerate() {
        if left < stretch || index == 4 && left == stretch {
            let before = if index == 0 { start } else { 0 };
            return Down::Side(index % 4 + 1, (index + 3) % 4 + 1, left + before);
        }
        left -= stretch;
        if index == 4 {
            return Down::EndTail;
        }
        if left <= INCH / 2 {
            return Down::Corner(index + 1);
        }
        left -= INCH / 2;
    }
    Down::EndTail
}

fn told(join: &Value) -> Down {
    let number = |name: &str| usize::try_from(join[name].as_u64().unwrap()).unwrap();
    match join["on"].as_str().unwrap() {
        "start_tail" => Down::StartTail,
        "end_tail" => Down::EndTail,
        "corner" => Down::Corner(number("corner")),
        _ => Down::Side(number("side"), number("corner"), sixty_fourths(&join["past_corner"])),
    }
}

/// Lays strips on a tape from the free end of the start tail: where each begins and ends before it is joined.
fn tape(binding: &Binding, strips: i64) -> Vec<(i64, i64)> {
    let loss = if binding.straight { INCH / 2 } else { binding.strip };
    let mut tape = vec![(0, binding.usable)];
    while i64::try_from(tape.len()).unwrap() < strips {
        let (_, end) = *tape.last().unwrap();
        tape.push((end - loss, end - loss + binding.usable));
    }
    tape
}

#[test]
fn five_thousand_random_bindings_lie_as_they_do_when_they_are_laid_again() {
    let mut rng = Rng::new(64);
    let (mut laid, mut short, mut corners, mut tails) = (0, 0, 0, 0);
    for _ in 0..5000 {
        let binding = random(&mut rng);
        let text = text(&binding);
        let (_, json) = worksheet(&text);
        let edge = edge(&json);
        let long = binding.width.max(binding.length);
        if binding.opening + 6 * INCH > long {
            assert!(edge["laid"].is_null(), "{text}");
            continue;
        }
        laid += 1;
        let loss = if binding.straight { INCH / 2 } else { binding.strip };
        let round = 2 * (binding.width + binding.length) + 2 * INCH;
        let asked = (round + binding.tails.0 + binding.tails.1 - binding.opening).max(round + loss);
        let enough = (1..1000).find(|strips| tape(&binding, *strips).last().unwrap().1 >= asked).unwrap();
        let count = binding.strips.unwrap_or(enough + 1);
        let tape = tape(&binding, count.min(enough));
        assert_eq!(sixty_fourths(&edge["needed"]), asked, "{text}");
        assert_eq!(edge["strips"]["enough"], enough, "{text}");
        assert_eq!(edge["strips"]["left_over"], (count - enough).max(0), "{text}");
        let joins = list(&edge["laid"]["joins"]);
        assert_eq!(joins.len() + 1, tape.len(), "{text}");
        for (join, pair) in joins.iter().zip(tape.windows(2)) {
            // The middle of what two strips share.
            let twice = pair[0].1 + pair[1].0 - 2 * binding.tails.0;
            assert_eq!(sixty_fourths_twice(&join["at"]), twice, "{text}");
            if twice % 2 == 0 {
                assert_eq!(told(join), walk(&binding, twice / 2), "{join} {text}");
            }
            corners += usize::from(join["on"] == "corner");
            tails += usize::from(join["on"] != "corner" && join["on"] != "side");
        }
        let strips = list(&edge["laid"]["strips"]);
        for (pair, join) in strips.windows(2).zip(joins) {
            assert_eq!((&pair[0]["ends"], &pair[1]["begins"]), (&join["at"], &join["at"]), "{text}");
        }
        assert_eq!(sixty_fourths(&strips[0]["begins"]), -binding.tails.0, "{text}");
        let reach = tape.last().unwrap().1;
        let whole = round - binding.opening + binding.tails.0 + binding.tails.1;
        assert_eq!(sixty_fourths(&strips.last().unwrap()["ends"]), reach.min(whole) - binding.tails.0, "{text}");
        if count < enough {
            short += 1;
            assert_eq!(sixty_fourths(&edge["short"]), asked - reach, "{text}");
        }
    }
    assert!(laid > 4000 && short > 500 && corners > 20 && tails > 500, "{laid} {short} {corners} {tails}");
}

/// Twice a length in 64ths: the middle of a join may lie between two of them.
fn sixty_fourths_twice(told: &Value) -> i64 {
    let text = told["inches"].as_str().unwrap();
    let (top, over) = text.split_once('/').unwrap_or((text, "1"));
    let (top, over): (i64, i64) = (top.parse().unwrap(), over.parse().unwrap());
    assert_eq!(top * 128 % over, 0, "{text}");
    top * 128 / over
}
