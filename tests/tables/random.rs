//! Random manuscripts: any names, and quantities written in every way that the format reads.

use std::collections::BTreeSet;

use serde_yaml::{Mapping, Value};
use sparestrip::manuscript::Source;
use sparestrip::tables::tables;

use super::rng::Rng;
use super::{facts, stated};

const MANUSCRIPTS: u64 = 400;

const NAMES: [&str; 24] = [
    "ink",
    "foam",
    "lap",
    "king size",
    "a|b",
    "<i>",
    "\"q\"",
    "*star*",
    "_low_",
    "=1+1",
    "+a",
    "-b",
    "@c",
    "'d",
    "x\\y",
    "ends\\",
    "#1",
    "1. one",
    "`code`",
    "$5",
    "~~no~~",
    "[l](u)",
    "ü ½ 名",
    "two  spaces",
];

/// A word, and what makes up its value.
type Entry = (&'static str, fn(&mut Maker) -> Value);

/// Makes up manuscripts.
pub(super) struct Maker {
    pub(super) rng: Rng,
    metric: bool,
    sizes: Vec<String>,
}

pub(super) fn table(entries: impl IntoIterator<Item = (String, Value)>) -> Value {
    Value::Mapping(entries.into_iter().map(|(word, value)| (word.into(), value)).collect::<Mapping>())
}

impl Maker {
    /// One that makes up the manuscript of a number.
    pub(super) fn of(seed: u64, index: u64) -> Maker {
        let mut maker = Maker { rng: Rng::new(seed + index), metric: index.is_multiple_of(3), sizes: Vec::new() };
        let many = maker.rng.between(1, 5);
        maker.sizes = maker.names(many);
        maker
    }

    /// So many names, none of them twice.
    pub(super) fn names(&mut self, many: i64) -> Vec<String> {
        let mut names = BTreeSet::new();
        while names.len() < usize::try_from(many).unwrap() {
            let mut name = self.rng.pick(&NAMES).to_string();
            if self.rng.one_in(3) {
                name = format!("{name} {}", self.rng.pick(&NAMES));
            }
            names.insert(name);
        }
        names.into_iter().collect()
    }

    /// A number without its unit: whole, a decimal, a fraction, or both.
    pub(super) fn number(&mut self) -> String {
        let whole = self.rng.between(1, 40);
        match self.rng.below(8) {
            0 => format!("{whole} 1/2"),
            1 => format!("{whole}-3/8"),
            2 => format!("{whole}¾"),
            3 => format!("{whole}.25"),
            4 => "5/8".to_string(),
            5 => ".5".to_string(),
            6 => format!("{whole}\u{a0}7/64"),
            _ => whole.to_string(),
        }
    }

    pub(super) fn unit(&mut self) -> &'static str {
        let marks: [&str; 7] = ["", "", "", " in", "\"", " cm", "mm"];
        self.rng.pick(&marks)
    }

    pub(super) fn length(&mut self) -> Value {
        let (number, unit) = (self.number(), self.unit());
        let spaces = if self.rng.one_in(5) { "  " } else { "" };
        format!("{spaces}{number}{unit}{spaces}").into()
    }

    pub(super) fn dimensions(&mut self) -> Value {
        let (width, length, unit) = (self.number(), self.number(), self.unit());
        let times = self.rng.pick(&[" x ", "x", " × ", "  X "]);
        format!("{width}{unit}{times}{length}{unit}").into()
    }

    fn amount(&mut self) -> Value {
        let half = |maker: &mut Maker| {
            let (number, unit) = (maker.number(), maker.rng.pick(&[" yd", " yards", " cm", " m", "", " in"]));
            format!("{number}{unit}")
        };
        let first = half(self);
        if self.rng.one_in(3) { format!("{first} ( {} )", half(self)).into() } else { first.into() }
    }

    pub(super) fn count(&mut self) -> Value {
        let count = self.rng.below(400);
        if self.rng.one_in(4) { Value::from(count.to_string()) } else { Value::from(count) }
    }

    pub(super) fn per_size(&mut self, make: impl Fn(&mut Maker) -> Value) -> Value {
        let sizes = self.sizes.clone();
        table(sizes.into_iter().map(|size| (size, make(self))))
    }

    /// Each of the words one time in two.
    fn some(&mut self, words: &[Entry]) -> Vec<(String, Value)> {
        let mut entries = Vec::new();
        for (word, make) in words {
            if self.rng.one_in(2) {
                entries.push(((*word).to_string(), make(self)));
            }
        }
        entries
    }

    fn fabric(&mut self) -> Value {
        let mut entries = self
            .some(&[("usable_width", Maker::length), ("directional", |maker| maker.rng.pick(&["yes", "no"]).into())]);
        let sold_as = self.rng.pick(&["", "", "yardage", "fat_quarters", "strips", "squares"]);
        if !sold_as.is_empty() {
            entries.push(("sold_as".into(), sold_as.into()));
        }
        if matches!(sold_as, "strips" | "squares") {
            entries.push(("precut".into(), self.length()));
        }
        let role = self.names(1).remove(0);
        entries.push(("role".into(), role.into()));
        let bought = if matches!(sold_as, "" | "yardage") { Maker::amount } else { Maker::count };
        entries.push(("requires".into(), self.per_size(bought)));
        let many = self.rng.below(4);
        let cuts: Vec<Value> = self.names(many).into_iter().map(|piece| self.cut(piece)).collect();
        entries.push(("cut".into(), Value::Sequence(cuts)));
        table(entries)
    }

    fn cut(&mut self, piece: String) -> Value {
        let mut entries = vec![("piece".to_string(), Value::from(piece)), ("size".to_string(), self.dimensions())];
        entries.extend(self.some(&[("strip_width", Maker::length), ("strips", |maker| maker.per_size(Maker::count))]));
        entries.push(("pieces".into(), self.per_size(Maker::count)));
        table(entries)
    }

    fn binding(&mut self) -> Value {
        let mut entries = vec![("strip_width".to_string(), self.length())];
        let words: [Entry; 5] = [
            ("seam", Maker::length),
            ("opening", Maker::length),
            ("tails", |maker| table([("start".into(), maker.length()), ("end".into(), maker.length())])),
            ("loft", |maker| maker.rng.pick(&["low", "high", "3/16 in"]).into()),
            ("join", |maker| maker.rng.pick(&["diagonal", "straight"]).into()),
        ];
        entries.extend(self.some(&words));
        let bias = self.rng.one_in(3);
        if bias {
            entries.push(("grain".into(), "bias".into()));
        }
        let requires = self.per_size(|maker| {
            let mut entries = vec![("strips".to_string(), maker.count())];
            entries.extend(maker.some(&[("fabric", Maker::amount), ("strip_length", Maker::length)]));
            if bias && maker.rng.one_in(2) {
                entries.push(("square".into(), maker.length()));
            }
            table(entries)
        });
        entries.push(("requires".into(), requires));
        table(entries)
    }

    fn layers(&mut self) -> [Value; 2] {
        let mut backing =
            self.some(&[("overhang", Maker::length), ("usable_width", Maker::length), ("seam", Maker::length)]);
        let required = |maker: &mut Maker| {
            if maker.rng.one_in(2) {
                return maker.amount();
            }
            table([
                ("fabric".to_string(), maker.amount()),
                ("panels".to_string(), maker.count()),
                ("panels_run".to_string(), maker.rng.pick(&["along", "across"]).into()),
            ])
        };
        backing.push(("requires".into(), self.per_size(required)));
        let batting =
            self.per_size(|maker| if maker.rng.one_in(3) { "packaged queen".into() } else { maker.dimensions() });
        [table(backing), table([("requires".to_string(), batting)])]
    }

    pub(super) fn manuscript(&mut self) -> Value {
        let sizes = self.per_size(|maker| table([("finished".to_string(), maker.dimensions())]));
        let name = self.names(1).remove(0);
        let mut entries = vec![
            ("pattern".to_string(), Value::from(name)),
            ("measure".to_string(), if self.metric { "cm" } else { "inch" }.into()),
            ("assumes".to_string(), table(self.some(&[("seam", Maker::length), ("usable_width", Maker::length)]))),
            ("sizes".to_string(), sizes),
        ];
        let many = self.rng.below(4);
        let fabrics: Vec<(String, Value)> = self.names(many).into_iter().map(|name| (name, self.fabric())).collect();
        entries.push(("fabrics".into(), table(fabrics)));
        entries.push(("binding".into(), self.binding()));
        let [backing, batting] = self.layers();
        entries.extend([("backing".to_string(), backing), ("batting".to_string(), batting)]);
        table(entries)
    }
}

#[test]
fn the_tables_of_a_random_manuscript_hold_what_it_states_and_nothing_else() {
    let mut numbers = 0;
    for index in 0..MANUSCRIPTS {
        let mut maker = Maker::of(0x7ab1e, index);
        let manuscript = maker.manuscript();
        // In lines with indentation, and in brackets.
        let in_lines = serde_yaml::to_string(&manuscript).unwrap();
        let in_brackets = serde_json::to_string(&manuscript).unwrap();
        let expected = stated::facts(&in_lines);
        for text in [in_lines, in_brackets] {
            let made = tables(&Source::from_text("x.pattern.yaml", text.as_str()));
            assert!(made.head.missing.is_empty(), "manuscript {index}: {:?} in:\n{text}", made.head.missing);
            assert_eq!(facts(&text), expected, "manuscript {index}:\n{text}");
        }
        numbers += expected.len();
    }
    assert!(numbers > 10_000, "{numbers}");
}
