//! Random manuscripts that cut in every way that the format has a word for.

use serde_yaml::{Mapping, Value};

use super::super::random::{Maker, table};
use super::reads_back;

const MANUSCRIPTS: u64 = 400;

fn entries<const N: usize>(entries: [(&str, Value); N]) -> Vec<(String, Value)> {
    entries.into_iter().map(|(word, value)| (word.to_string(), value)).collect()
}

fn of<const N: usize>(words: [(&str, Value); N]) -> Value {
    table(entries(words))
}

fn add(manuscript: &mut Value, word: &str, value: Value) {
    manuscript.as_mapping_mut().unwrap().insert(word.into(), value);
}

/// Two sides in one unit, the second of them times so much.
fn sides(maker: &mut Maker, times: i64) -> Value {
    let (width, unit) = (maker.rng.between(1, 30), maker.unit());
    format!("{width}{unit} x {}{unit}", width * times).into()
}

impl Maker {
    /// What is cut in a way that not every fabric allows.
    fn ways(&mut self, name: &str) -> Vec<Value> {
        let piece: Value = name.into();
        let pieces = self.per_size(Maker::count);
        let (one, size) = (entries([("piece", piece.clone()), ("pieces", pieces.clone())]), self.dimensions());
        let strips = self.per_size(Maker::count);
        let with = |more: Vec<(String, Value)>| table(one.iter().cloned().chain(more));
        let kind = self.rng.below(12);
        vec![match kind {
            0 => {
                let beside = entries([
                    ("piece", format!("{name} beside").into()),
                    ("size", self.dimensions()),
                    ("beside", piece),
                    ("pieces", pieces),
                ]);
                let anchor = with(entries([("size", size), ("grain", "lengthwise".into())]));
                return vec![table(beside), anchor];
            }
            1 => with(entries([("size", sides(self, 1)), ("cut_again", self.rng.pick(&["once", "twice"]).into())])),
            2 => with(entries([("size", sides(self, 1)), ("strips", strips)])),
            3 => {
                let many = self.rng.between(1, 4);
                let subcut = (0..many).map(|number| {
                    let counts = self.per_size(Maker::count);
                    let (name, size) = (format!("{name} {number}"), self.dimensions());
                    table(entries([("piece", name.into()), ("size", size), ("pieces", counts)]))
                });
                let subcut = Value::Sequence(subcut.collect());
                let mut group = entries([("strip_width", self.length()), ("subcut", subcut)]);
                group.extend(self.rng.one_in(2).then(|| ("strips".to_string(), strips)));
                table(group)
            }
            4 => {
                let shapes = ["triangle_60", "half_triangle_60", "hexagon", "half_hexagon", "diamond_60", "diamond_45"];
                let shape = self.rng.pick(&shapes);
                let word = self.rng.pick(&["size", "height"]);
                let value = if self.rng.one_in(2) { self.length() } else { self.per_size(Maker::length) };
                let mut more = entries([("shape", shape.into()), (word, value)]);
                if shape.ends_with("triangle_60") && self.rng.one_in(2) {
                    more.push(("tips".into(), "blunt".into()));
                }
                more.extend(self.rng.one_in(2).then(|| ("strips".to_string(), strips)));
                more.extend(self.rng.one_in(3).then(|| ("strip_width".to_string(), self.length())));
                with(more)
            }
            5 => {
                let angle = self.rng.pick(&["45", "60"]);
                let shape = self.rng.pick(&["parallelogram", "trapezoid"]);
                let size = format!("{} x {}", self.rng.between(20, 40), self.rng.between(1, 5));
                with(entries([("shape", shape.into()), ("size", size.into()), ("angle", angle.into())]))
            }
            6 => with(entries([("shape", "template".into()), ("size", size)])),
            7 => with(entries([("size", size), ("from", "remnants".into())])),
            8 => {
                let wide = if self.rng.one_in(2) { self.length() } else { self.per_size(Maker::length) };
                table(entries([("piece", piece), ("strip_width", wide), ("strips", strips)]))
            }
            9 => {
                let size = self.per_size(Maker::dimensions);
                let mut more = entries([("size", size), ("for", "the label".into())]);
                more.extend(self.rng.one_in(2).then(|| ("strips".to_string(), strips)));
                with(more)
            }
            10 => with(entries([("size", size), ("joined", self.rng.pick(&["diagonal", "straight"]).into())])),
            _ => {
                let mut more = entries([("size", size), ("centered", "yes".into())]);
                more.extend(self.rng.one_in(2).then(|| ("per_repeat".to_string(), self.rng.between(1, 9).into())));
                with(more)
            }
        }]
    }

    /// The manuscript with more ways of cutting in it.
    fn enriched(&mut self) -> Value {
        let mut manuscript = self.manuscript();
        let mut bolts = Vec::new();
        for (number, (name, fabric)) in manuscript["fabrics"].as_mapping_mut().unwrap().iter_mut().enumerate() {
            if !matches!(fabric["sold_as"].as_str(), None | Some("yardage")) {
                continue;
            }
            bolts.push(name.clone());
            for way in 0..self.rng.below(4) {
                let cuts = self.ways(&format!("W{number}{way}"));
                fabric["cut"].as_sequence_mut().unwrap().extend(cuts);
            }
        }
        if self.rng.one_in(2) {
            self.more_layers(&mut manuscript, bolts.first());
        }
        if self.rng.one_in(2) {
            let cut = self.per_size(Maker::dimensions);
            add(&mut manuscript, "sleeve", table(entries([("depth", self.length()), ("requires", cut)])));
            let points = self.per_size(Maker::count);
            add(&mut manuscript, "prairie_points", table(entries([("square", "4".into()), ("requires", points)])));
            let pieces =
                |maker: &mut Maker| table(entries([("first", maker.dimensions()), ("second", maker.dimensions())]));
            let requires = self.per_size(pieces);
            add(&mut manuscript, "pillow_back", table(entries([("requires", requires)])));
        }
        if self.rng.one_in(2) {
            add(&mut manuscript, "units", self.units());
        }
        manuscript
    }

    fn units(&mut self) -> Value {
        let square = |maker: &mut Maker| sides(maker, 1);
        let cut = of([("patch", square(self))]);
        let patch = of([("make", "patch".into()), ("finished", "3".into()), ("cut", cut)]);
        let cut = of([("first", square(self)), ("second", square(self))]);
        let two = [
            ("make", "half_square_triangle".into()),
            ("finished", "3".into()),
            ("trim", self.rng.pick(&["3 1/2", "3.5 in x 3 1/2 in"]).into()),
            ("cut", cut),
        ];
        let set = [("make", "strip_set".into()), ("finished", "4 x 3".into()), ("segment", self.length())];
        table(entries([("plain patch", patch), ("two", of(two)), ("rail", of(set))]))
    }

    fn more_layers(&mut self, manuscript: &mut Value, bolt: Option<&Value>) {
        let width = self.per_size(Maker::length);
        let binding = &mut manuscript["binding"];
        add(binding, "strip_width", width);
        add(binding, "flange", self.length());
        if binding["grain"].is_null() && self.rng.one_in(2) {
            add(binding, "grain", "lengthwise".into());
            add(binding, "strip_length", self.length());
        }
        if let Some(bolt) = bolt {
            add(binding, "from", bolt.clone());
            let no_fabric = |requires: &mut Mapping| drop(requires.remove("fabric"));
            let sizes = binding["requires"].as_mapping_mut().unwrap();
            sizes.values_mut().for_each(|size| no_fabric(size.as_mapping_mut().unwrap()));
        }
        let requires = self.per_size(|maker| {
            let mut entries = entries([("size", maker.dimensions()), ("panels", maker.count())]);
            if maker.rng.one_in(2) {
                entries.push(("panels_run".into(), maker.rng.pick(&["along", "across"]).into()));
            }
            table(entries)
        });
        let mut overhang = entries([("across", self.length()), ("down", self.length())]);
        overhang.truncate(2);
        let backing = &mut manuscript["backing"];
        add(backing, "requires", requires);
        add(backing, "overhang", table(overhang));
        add(backing, "insert", self.length());
        if let Some(bolt) = bolt.filter(|_| self.rng.one_in(2)) {
            add(backing, "from", bolt.clone());
        }
    }
}

#[test]
fn the_instructions_of_random_manuscripts_read_back() {
    let mut numbers = 0;
    for index in 0..MANUSCRIPTS {
        let manuscript = Maker::of(0x1457, index).enriched();
        numbers += reads_back(&serde_yaml::to_string(&manuscript).unwrap());
    }
    assert!(numbers > 30_000, "{numbers}");
}
