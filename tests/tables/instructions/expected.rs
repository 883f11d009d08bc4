//! What cutting instructions should say, read from a manuscript by `serde_yaml`.

use std::collections::BTreeSet;

use serde_yaml::Value;

use super::super::Fact;
use super::super::stated::{As, Stated, named, parsed, plain, scalar};

/// A value for each size, nothing where a size states none.
type Each = Vec<Option<String>>;

struct Expected {
    stated: Stated,
    /// Whether what a size takes none of is left out, as in lists for each size.
    only_taken: bool,
    facts: BTreeSet<Fact>,
}

/// Every fact of the instructions.
pub(crate) fn facts(text: &str, only_taken: bool) -> BTreeSet<Fact> {
    let whole = parsed(text);
    let mut expected = Expected { stated: Stated::new(&whole), only_taken, facts: BTreeSet::new() };
    for (name, fabric) in named(&whole["fabrics"]) {
        expected.fabric(&whole, &name, &fabric);
    }
    let (binding, backing) = (&whole["binding"], &whole["backing"]);
    if binding["from"].is_null() {
        expected.binding("From the binding fabric, cut", binding);
    }
    if !binding["flange"].is_null() {
        let width = expected.each(&binding["flange"], As::Length);
        let wof = expected.same("WOF");
        expected.clause(
            "From the fabric of the flange, cut",
            "flange",
            &[("strip width", width), ("strip length", wof)],
        );
    }
    if backing["from"].is_null() {
        expected.backing("From the backing fabric, cut", backing);
    }
    let batting = expected.each(&whole["batting"]["requires"], As::Length);
    expected.clause("For the batting, cut", "batting", &[("size", batting)]);
    let overhang = expected.overhang(&whole["batting"]["overhang"]);
    expected.clause("For the batting, cut", "batting", &[("overhang", overhang)]);
    expected.besides(&whole);
    expected.units(&whole);
    expected.facts
}

impl Expected {
    /// A value for each size, of one for all or one for each.
    fn each(&self, value: &Value, kind: As) -> Each {
        let shown = |value: &Value| {
            if value.is_null() { None } else { Some(self.stated.shown(&plain(&scalar(value)), kind)) }
        };
        if !self.stated.is_by_size(value) {
            return if value.is_mapping() { vec![None; self.stated.sizes.len()] } else { self.alike(shown(value)) };
        }
        let stated = self.stated.by_size(value);
        let of = |size: &String| stated.iter().find(|(name, _)| name == size).and_then(|(_, value)| shown(value));
        self.stated.sizes.iter().map(of).collect()
    }

    fn alike(&self, value: Option<String>) -> Each {
        vec![value; self.stated.sizes.len()]
    }

    fn same(&self, words: &str) -> Each {
        self.alike(Some(words.to_string()))
    }

    /// The facts of a clause, for each size that states the first value.
    fn clause(&mut self, section: &str, row: &str, values: &[(&str, Each)]) {
        let (_, first) = &values[0];
        for (place, size) in self.stated.sizes.iter().enumerate() {
            let Some(main) = &first[place] else { continue };
            if self.only_taken && main == "0" {
                continue;
            }
            for (what, value) in values.iter().filter_map(|(what, each)| Some((what, each[place].as_ref()?))) {
                self.facts.insert([section, row, what, size, value].map(plain));
            }
        }
    }

    fn fabric(&mut self, whole: &Value, name: &str, fabric: &Value) {
        let mut words = Vec::new();
        let sold_as = fabric["sold_as"].as_str().unwrap_or("yardage");
        words.extend(match sold_as {
            "yardage" => None,
            "strips" | "squares" => Some(format!("precut {sold_as}")),
            "panel" => Some("printed panels".to_string()),
            other => Some(other.replace('_', " ")),
        });
        let length = |value: &Value| self.stated.shown(&plain(&scalar(value)), As::Length);
        words.extend((!fabric["precut"].is_null()).then(|| length(&fabric["precut"])));
        words.extend(
            (!fabric["usable_width"].is_null()).then(|| format!("usable width {}", length(&fabric["usable_width"]))),
        );
        let words = if words.is_empty() { String::new() } else { format!(" ({})", words.join(", ")) };
        let section = plain(&format!("From {name}{words}, cut"));
        for cut in fabric["cut"].as_sequence().into_iter().flatten() {
            self.entry(&section, cut, sold_as == "yardage");
        }
        if whole["binding"]["from"] == name {
            self.binding(&section, &whole["binding"]);
        }
        if whole["backing"]["from"] == name {
            self.backing(&section, &whole["backing"]);
        }
    }

    fn entry(&mut self, section: &str, cut: &Value, from_bolt: bool) {
        let members = cut["subcut"].as_sequence().cloned().unwrap_or_else(|| vec![cut.clone()]);
        let names: Vec<String> = members.iter().map(|member| plain(&scalar(&member["piece"]))).collect();
        let strips = self.each(&cut["strips"], As::Count);
        let is_counted = strips.iter().any(Option::is_some);
        let is_shape = cut["shape"].is_string();
        let mut width = self.each(&cut["strip_width"], As::Length);
        // Strips for squares are as wide as these.
        if cut["strip_width"].is_null() && is_counted && !is_shape && is_square(&cut["size"]) {
            width = self.each(&cut["size"], As::Size).into_iter().map(|size| size.map(|size| side(&size))).collect();
        }
        let wof = if from_bolt { self.same("WOF") } else { self.alike(None) };
        let is_whole = cut["size"].is_null() && cut["height"].is_null() && cut["subcut"].is_null();
        let used_for = if is_whole { self.each(&cut["for"], As::Text) } else { self.alike(None) };
        let after = [("strip width", width.clone()), ("strip length", wof), ("for", used_for)];
        if is_counted {
            self.clause(section, &names.join(" and "), &[&[("strips", strips)], &after[..]].concat());
        } else if width.iter().any(Option::is_some) {
            self.clause(section, &names.join(" and "), &after);
        }
        if !is_whole || !cut["subcut"].is_null() {
            members.iter().zip(&names).for_each(|(member, name)| self.pieces(section, name, member));
        }
    }

    fn pieces(&mut self, section: &str, name: &str, cut: &Value) {
        let shape = cut["shape"].as_str();
        let (what, size) = match (shape, cut["height"].is_null()) {
            (None, _) => ("size", &cut["size"]),
            (Some("template"), _) => ("by template, each from a rectangle", &cut["size"]),
            (Some("parallelogram" | "trapezoid"), _) => ("finished base x height", &cut["size"]),
            (Some(_), true) => ("finished side", &cut["size"]),
            (Some(_), false) => ("finished height", &cut["height"]),
        };
        let noun = match shape {
            None if is_square(size) => "square",
            None if is_rectangle(size) => "rectangle",
            None | Some("template") => "piece",
            Some("triangle_60") => "60-degree triangle",
            Some("half_triangle_60") => "half 60-degree triangle",
            Some("diamond_60") => "60-degree diamond",
            Some("diamond_45") => "45-degree diamond",
            Some("half_hexagon") => "half hexagon",
            Some(other) => other,
        };
        let mut after = vec![(what, self.each(size, As::Length)), ("noun", self.same(noun))];
        for detail in details(cut) {
            after.push(("how", self.same(&detail)));
        }
        after.push(("for", self.each(&cut["for"], As::Text)));
        let pieces = self.each(&cut["pieces"], As::Count);
        let each = self.each(&cut["pieces_from_each"], As::Count);
        match (cut["pieces"].is_null(), cut["pieces_from_each"].is_null()) {
            (false, from_each) => {
                self.clause(section, name, &[&[("pieces", pieces)], &after[..]].concat());
                if !from_each {
                    self.clause(section, name, &[("from each", each)]);
                }
            }
            (true, false) => self.clause(section, name, &[&[("from each", each)], &after[..]].concat()),
            (true, true) => self.clause(section, name, &after),
        }
    }

    fn binding(&mut self, section: &str, binding: &Value) {
        let requires = self.stated.by_size(&binding["requires"]);
        let of = |word: &str, kind: As| -> Each {
            let shown = |value: &Value| Some(self.stated.shown(&plain(&scalar(value)), kind));
            let find = |size: &String| {
                let (_, stated) = requires.iter().find(|(name, _)| name == size)?;
                if stated[word].is_null() { None } else { shown(&stated[word]) }
            };
            self.stated.sizes.iter().map(find).collect()
        };
        let (strips, square, bias) = (of("strips", As::Count), of("square", As::Size), of("length", As::Length));
        let grain = binding["grain"].as_str().unwrap_or("crosswise");
        let width = self.each(&binding["strip_width"], As::Length);
        let otherwise = self.each(&binding["strip_length"], As::Length);
        let length = of("strip_length", As::Length)
            .into_iter()
            .zip(otherwise)
            .map(|(own, otherwise)| own.or(otherwise).or((grain == "crosswise").then(|| "WOF".to_string())));
        let how = match grain {
            "lengthwise" => Some("cut lengthwise".to_string()),
            "bias" => Some("cut on the bias".to_string()),
            _ => None,
        };
        let is_stated = |each: &Each| each.iter().any(Option::is_some);
        let after =
            [("strip width", width.clone()), ("strip length", length.collect::<Each>()), ("how", self.alike(how))];
        if is_stated(&strips) {
            self.clause(section, "binding", &[&[("strips", strips)], &after[..]].concat());
        } else if !is_stated(&square) && !is_stated(&bias) && is_stated(&width) {
            self.clause(section, "binding", &after);
        }
        for (what, each) in [("square", square), ("bias", bias)] {
            let width = width.iter().zip(&each).map(|(width, of)| of.as_ref().and(width.clone())).collect();
            self.clause(section, "binding", &[(what, each)]);
            self.clause(section, "binding", &[("in strips", width)]);
        }
    }

    fn backing(&mut self, section: &str, backing: &Value) {
        let requires = self.stated.by_size(&backing["requires"]);
        let of = |word: &str, kind: As| -> Each {
            let find = |size: &String| {
                let (_, stated) = requires.iter().find(|(name, _)| name == size)?;
                if stated[word].is_null() {
                    None
                } else {
                    Some(self.stated.shown(&plain(&scalar(&stated[word])), kind))
                }
            };
            self.stated.sizes.iter().map(find).collect()
        };
        let run = of("panels_run", As::Text).into_iter().map(|way| {
            way.map(|way| format!("{way} the {} of the quilt", if way == "along" { "length" } else { "width" }))
        });
        let (panels, size, run) = (of("panels", As::Count), of("size", As::Length), run.collect());
        let insert = self.each(&backing["insert"], As::Length);
        self.clause(section, "backing", &[("panels", panels)]);
        self.clause(section, "backing", &[("run", run)]);
        self.clause(section, "backing", &[("size", size)]);
        self.clause(section, "backing", &[("insert", insert)]);
        let overhang = self.overhang(&backing["overhang"]);
        self.clause(section, "backing", &[("overhang", overhang)]);
    }

    fn overhang(&self, overhang: &Value) -> Each {
        if overhang["across"].is_null() {
            return self.each(overhang, As::Length);
        }
        let side = |word: &str| self.stated.shown(&plain(&scalar(&overhang[word])), As::Length);
        let (across, down) = (side("across"), side("down"));
        self.same(&if across == down { across } else { format!("{across}, {down} at top and bottom") })
    }

    fn besides(&mut self, whole: &Value) {
        let section = "Besides the quilt, cut";
        let sleeve = self.each(&whole["sleeve"]["requires"], As::Length);
        self.clause(section, "hanging sleeve", &[("made", sleeve)]);
        let points = &whole["prairie_points"];
        if !points.is_null() {
            let (counts, side) = (self.each(&points["requires"], As::Count), self.each(&points["square"], As::Length));
            let values = [("pieces", counts), ("size", side), ("noun", self.same("square"))];
            self.clause(section, "prairie points", &values);
        }
        for (word, row) in [("first", "pillow back, first piece"), ("second", "pillow back, second piece")] {
            let requires = self.stated.by_size(&whole["pillow_back"]["requires"]);
            let find = |size: &String| {
                let (_, stated) = requires.iter().find(|(name, _)| name == size)?;
                Some(self.stated.shown(&plain(&scalar(&stated[word])), As::Length))
            };
            let each = self.stated.sizes.iter().map(find).collect();
            self.clause(section, row, &[("made", each)]);
        }
    }

    fn units(&mut self, whole: &Value) {
        let section = "For the units, cut or trim";
        for (name, unit) in named(&whole["units"]) {
            for (part, from) in named(&unit["cut"]) {
                let from = scalar(&from);
                if from.starts_with(|c: char| c.is_ascii_digit()) {
                    let size = self.each(&from.into(), As::Size);
                    self.clause(section, &name, &[(&part.replace('_', " "), size)]);
                }
            }
            let segments = self.each(&unit["segment"], As::Length);
            self.clause(section, &name, &[("segments", segments)]);
            let trim = self.each(&unit["trim"], As::Size);
            self.clause(section, &name, &[("trim", trim)]);
        }
    }
}

/// The words that say how a piece is cut.
fn details(cut: &Value) -> Vec<String> {
    let word = |word: &str| cut[word].as_str().map(str::to_string);
    let mut details = Vec::new();
    let angle = &cut["angle"];
    details.extend((!angle.is_null()).then(|| format!("{} degrees at the base", scalar(angle))));
    details.extend(word("tips").filter(|tips| tips == "blunt").map(|_| "tips cut off at the seam".to_string()));
    details.extend(word("grain").filter(|grain| grain == "lengthwise").map(|_| "cut lengthwise".to_string()));
    details.extend(word("joined").map(|join| format!("from strips joined with {join} seams")));
    details.extend(word("beside").map(|beside| format!("beside {}", plain(&beside))));
    details.extend(word("from").map(|_| "from what is left".to_string()));
    details.extend(word("centered").filter(|is| is == "yes").map(|_| match &cut["per_repeat"] {
        Value::Null => "each centered on the print".to_string(),
        count => format!("each centered on the print ({} from each repeat)", scalar(count)),
    }));
    details.extend(word("cut_again").map(|often| format!("cut {often} diagonally")));
    details
}

/// The two sides of each size that is stated, as they are written.
fn sides(size: &Value) -> Vec<(String, String)> {
    let texts: Vec<String> = match size {
        Value::Mapping(sizes) => sizes.values().map(scalar).collect(),
        Value::Null => Vec::new(),
        one => vec![scalar(one)],
    };
    let halves = |text: &String| {
        let first = plain(text.split('(').next().unwrap());
        let bare = |text: &str| text.trim().trim_end_matches(|c: char| "incm\"".contains(c)).trim().to_string();
        match first.split_once(['x', 'X', '×']) {
            Some((width, length)) => (bare(width), bare(length)),
            None => (bare(&first), bare(&first)),
        }
    };
    texts.iter().map(halves).collect()
}

fn is_square(size: &Value) -> bool {
    let sides = sides(size);
    !sides.is_empty() && sides.iter().all(|(width, length)| width == length)
}

fn is_rectangle(size: &Value) -> bool {
    let sides = sides(size);
    !sides.is_empty() && sides.iter().all(|(width, length)| width != length)
}

/// The second side of a square, also in the other measure.
fn side(size: &str) -> String {
    let second = |text: &str| text.rsplit(['x', 'X', '×']).next().unwrap().trim().to_string();
    match size.split_once(" (") {
        Some((first, other)) => format!("{} ({}", second(first), second(other)),
        None => second(size).trim_end_matches(" square").to_string(),
    }
}
