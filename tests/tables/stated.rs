//! What a manuscript states, read by `serde_yaml` into plain values, in the form in which the tables should have it.

use std::collections::BTreeSet;

use serde_yaml::{Mapping, Value};

use super::Fact;

pub(crate) fn parsed(text: &str) -> Value {
    serde_yaml::from_str(text).unwrap_or_else(|error| panic!("{error} in:\n{text}"))
}

/// The names of the sizes.
pub(crate) fn sizes(text: &str) -> Vec<String> {
    named(&parsed(text)["sizes"]).into_iter().map(|(name, _)| plain(&name)).collect()
}

/// The entries of a table with their words.
pub(crate) fn named(value: &Value) -> Vec<(String, Value)> {
    let none = Mapping::new();
    value.as_mapping().unwrap_or(&none).iter().map(|(key, value)| (scalar(key), value.clone())).collect()
}

pub(crate) fn scalar(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Number(number) => number.to_string(),
        other => panic!("not a single value: {other:?}"),
    }
}

/// White space made plain.
pub(crate) fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What a number is.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum As {
    Count,
    Length,
    Amount,
    Size,
    Keyword,
    Text,
}

pub(crate) struct Stated {
    unit: &'static str,
    pub(crate) sizes: Vec<String>,
    facts: BTreeSet<Fact>,
}

impl Stated {
    pub(crate) fn new(whole: &Value) -> Stated {
        let unit = if whole["measure"] == "cm" { "cm" } else { "in" };
        let sizes = named(&whole["sizes"]).into_iter().map(|(size, _)| size).collect();
        Stated { unit, sizes, facts: BTreeSet::new() }
    }

    pub(crate) fn add(&mut self, place: [&str; 4], value: &Value, kind: As) {
        if value.is_null() {
            return;
        }
        let shown = self.shown(&plain(&scalar(value)), kind);
        let [table, row, number, size] = place.map(plain);
        self.facts.insert([table, row, number, size, shown]);
    }

    pub(crate) fn shown(&self, text: &str, kind: As) -> String {
        match kind {
            As::Count | As::Text => text.to_string(),
            As::Keyword => text.replace('_', " "),
            As::Amount => match text.split_once('(') {
                Some((first, second)) => {
                    format!("{} ({})", self.marked(first.trim()), self.marked(second.trim_end_matches(')').trim()))
                }
                None => self.marked(text),
            },
            As::Size if !text.contains(['x', 'X', '×']) => format!("{} square", self.marked(text)),
            As::Length | As::Size => self.marked(text),
        }
    }

    /// With its unit, where it has no mark.
    fn marked(&self, text: &str) -> String {
        let marks = |c: char| c == '"' || c.is_alphabetic() && !matches!(c, 'x' | 'X');
        if text.contains(marks) { text.to_string() } else { format!("{text} {}", self.unit) }
    }

    /// What is stated for each size, with what every size shares.
    pub(crate) fn by_size(&self, value: &Value) -> Vec<(String, Value)> {
        let every = &value["every_size"];
        if every.is_null() {
            return named(value);
        }
        let merged = |size: &String| {
            let own = &value[size.as_str()];
            let mut all = every.clone();
            match (all.as_mapping_mut(), own.as_mapping()) {
                (Some(all), Some(own)) => all.extend(own.clone()),
                _ if !own.is_null() => all = own.clone(),
                _ => {}
            }
            (size.clone(), all)
        };
        self.sizes.iter().map(merged).collect()
    }

    /// Whether each size has its own.
    pub(crate) fn is_by_size(&self, value: &Value) -> bool {
        let mut words = named(value).into_iter().map(|(word, _)| word);
        words.any(|word| word == "every_size" || self.sizes.contains(&word))
    }

    /// One for all sizes, or one for each.
    fn one_or_each(&mut self, one: [&str; 3], each: [&str; 3], value: &Value, kind: As) {
        if self.is_by_size(value) {
            self.per_size(each, value, kind);
        } else {
            self.add([one[0], one[1], one[2], ""], value, kind);
        }
    }

    pub(crate) fn per_size(&mut self, place: [&str; 3], value: &Value, kind: As) {
        for (size, value) in self.by_size(value) {
            let [table, row, number] = place;
            self.add([table, row, number, &size], &value, kind);
        }
    }

    pub(crate) fn words(&mut self, table: &str, row: &str, from: &Value, words: &[(&str, &str, As)]) {
        for (word, number, kind) in words {
            self.add([table, row, number, ""], &from[*word], *kind);
        }
    }

    /// What stands under "For all sizes": each by its own name.
    fn once(&mut self, from: &Value, words: &[(&str, &str, As)]) {
        for (word, row, kind) in words {
            self.add(["For all sizes", row, "it is", ""], &from[*word], *kind);
        }
    }
}

/// Everything that the tables of a manuscript should hold.
pub(crate) fn facts(text: &str) -> BTreeSet<Fact> {
    let whole = parsed(text);
    let mut stated = Stated::new(&whole);
    for (size, entry) in named(&whole["sizes"]) {
        let finished = "Finished sizes";
        stated.add([finished, "width x length", "", &size], &entry["finished"], As::Size);
        stated.add([finished, "for", "", &size], &entry["for"], As::Keyword);
        stated.add([finished, "drop", "", &size], &entry["drop"], As::Length);
        stated.add([finished, "tucked under the pillows", "", &size], &entry["tuck"], As::Length);
        outline(&mut stated, &size, &entry["outline"]);
    }
    let words = [
        ("usable_width", "usable width of fabric", As::Length),
        ("seam", "piecing seam", As::Length),
        ("measured", "finished sizes are measured", As::Keyword),
        ("sold_by", "fabric is sold in steps of", As::Length),
    ];
    stated.once(&whole["assumes"], &words);
    for (name, fabric) in named(&whole["fabrics"]) {
        of_fabric(&mut stated, &name, &fabric);
    }
    about(&mut stated, &whole);
    extras(&mut stated, &whole);
    binding(&mut stated, &whole["binding"]);
    layers(&mut stated, &whole);
    super::stated_design::design(&mut stated, &whole);
    stated.facts
}

fn outline(stated: &mut Stated, size: &str, outline: &Value) {
    let of = |word: &str| plain(&scalar(&outline[word]));
    let marked = |word: &str| stated.marked(&of(word));
    let words = match outline {
        Value::Null => return,
        Value::String(word) if word == "rectangle" => return,
        Value::String(word) => word.clone(),
        _ if !outline["clipped"].is_null() => format!("corners clipped by {}", marked("clipped")),
        _ if !outline["sides"].is_null() => format!("{} sides, each {}", of("sides"), marked("side")),
        _ if !outline["depth"].is_null() => format!(
            "{} scallops across, {} scallops down, {} deep",
            of("scallops_across"),
            of("scallops_down"),
            marked("depth")
        ),
        _ => {
            let points =
                outline["points"].as_sequence().unwrap().iter().map(|point| stated.marked(&plain(&scalar(point))));
            format!("corners at {}", points.collect::<Vec<_>>().join(", "))
        }
    };
    stated.facts.insert(["Finished sizes".into(), "outline".into(), String::new(), plain(size), words]);
}

fn way_up(stated: &mut Stated, row: &str, directional: &Value) {
    let words = match directional.as_str() {
        Some("yes") => "directional",
        Some("no") => "not directional",
        _ => return,
    };
    stated.add(["What to buy", row, "print", ""], &words.into(), As::Text);
}

fn of_fabric(stated: &mut Stated, name: &str, fabric: &Value) {
    let words = [
        ("role", "for", As::Text),
        ("color", "color", As::Text),
        ("item", "item", As::Text),
        ("notes", "notes", As::Text),
        ("precut", "precut size", As::Length),
        ("pack", "in a pack", As::Count),
        ("shrinks", "shrinks by", As::Text),
        ("usable_width", "usable width of fabric", As::Length),
    ];
    stated.words("What to buy", name, fabric, &words);
    way_up(stated, name, &fabric["directional"]);
    let sold_as = fabric["sold_as"].as_str();
    let words = match sold_as {
        Some("yardage") => Some("from the bolt"),
        Some("fat_quarters") => Some("fat quarters"),
        Some("fat_eighths") => Some("fat eighths"),
        Some("strips") => Some("precut strips"),
        Some("squares") => Some("precut squares"),
        Some("scraps") => Some("scraps"),
        _ => None,
    };
    if let Some(words) = words {
        stated.add(["What to buy", name, "sold as", ""], &words.into(), As::Text);
    }
    let kind = if matches!(sold_as, None | Some("yardage")) { As::Amount } else { As::Count };
    stated.per_size(["What to buy", name, ""], &fabric["requires"], kind);
    stated.per_size(["What to buy", name, "different fabrics"], &fabric["different"], As::Count);
    match fabric["from_each"].as_str() {
        Some("yes") => stated.add(["What to buy", name, "each gives", ""], &"the same pieces".into(), As::Text),
        Some(_) => stated.add(["What to buy", name, "each gives", ""], &"what it holds".into(), As::Text),
        None => {}
    }
    for cut in fabric["cut"].as_sequence().into_iter().flatten() {
        let table = format!("Cut from {name}");
        let members = cut["subcut"].as_sequence().cloned().unwrap_or_default();
        let names: Vec<String> = members.iter().map(|member| scalar(&member["piece"])).collect();
        let piece = if members.is_empty() { scalar(&cut["piece"]) } else { names.join(" and ") };
        of_piece(stated, &table, &piece, cut);
        for (member, name) in members.iter().zip(&names) {
            of_piece(stated, &table, name, member);
            let place = [table.as_str(), name.as_str(), "cut strips"];
            stated.one_or_each(place, place, &cut["strip_width"], As::Length);
        }
    }
}

fn of_piece(stated: &mut Stated, table: &str, piece: &str, cut: &Value) {
    // The size of a shape is its finished one, and that of a template is the box that holds it.
    let is_shape = cut["shape"].as_str().is_some_and(|shape| shape != "template");
    let size = if is_shape { "finished" } else { "cut size" };
    for (word, number) in [("size", size), ("strip_width", "cut strips")] {
        let place = [table, piece, number];
        stated.one_or_each(place, place, &cut[word], As::Length);
    }
    let words = [
        ("shape", "shape", As::Keyword),
        ("grain", "grain", As::Keyword),
        ("joined", "joined", As::Keyword),
        ("cut_again", "cut diagonally", As::Keyword),
        ("for", "for", As::Text),
    ];
    stated.words(table, piece, cut, &words);
    if let Some(beside) = cut["beside"].as_str() {
        stated.add([table, piece, "cut from", ""], &format!("beside {beside}").into(), As::Text);
    }
    if cut["from"].as_str().is_some() {
        stated.add([table, piece, "cut from", ""], &"what is left".into(), As::Text);
    }
    stated.per_size([table, piece, "strips"], &cut["strips"], As::Count);
    stated.per_size([table, piece, "pieces"], &cut["pieces"], As::Count);
    stated.per_size([table, piece, "pieces from each"], &cut["pieces_from_each"], As::Count);
}

fn binding(stated: &mut Stated, binding: &Value) {
    let words = [
        ("from", "binding: cut from", As::Text),
        ("usable_width", "binding: usable width of its fabric", As::Length),
        ("flange", "binding: width of the flange's strips", As::Length),
        ("strip_length", "binding: strip length", As::Length),
        ("grain", "binding: grain", As::Keyword),
        ("fold", "binding: fold", As::Keyword),
        ("join", "binding: joins", As::Keyword),
        ("ends", "binding: how the ends meet", As::Keyword),
        ("seam", "binding: seam", As::Length),
        ("sewn_first_to", "binding: sewn first to the", As::Keyword),
        ("finish", "binding: stitched down by", As::Keyword),
        ("opening", "binding: opening", As::Length),
        ("extra_length", "binding: longer than the edge by", As::Length),
        ("loft", "binding: thickness of the edge", As::Length),
    ];
    stated.once(binding, &words);
    let (one, each) = (["For all sizes", "binding: strip width", "it is"], ["Binding", "strip width", ""]);
    stated.one_or_each(one, each, &binding["strip_width"], As::Length);
    let tails = &binding["tails"];
    let each = if tails.is_mapping() { [&tails["start"], &tails["end"]] } else { [tails, tails] };
    for (row, tail) in ["binding: tail at the start", "binding: tail at the end"].into_iter().zip(each) {
        stated.add(["For all sizes", row, "it is", ""], tail, As::Length);
    }
    for (size, required) in stated.by_size(&binding["requires"]) {
        stated.add(["Binding", "length of bias", "", &size], &required["length"], As::Length);
        stated.add(["What to buy", "flange of the binding", "", &size], &required["flange"], As::Amount);
        stated.add(["Binding", "strips", "", &size], &required["strips"], As::Count);
        stated.add(["Binding", "length of each strip", "", &size], &required["strip_length"], As::Length);
        stated.add(["Binding", "side of the square", "", &size], &required["square"], As::Length);
        stated.add(["What to buy", "binding", "", &size], &required["fabric"], As::Amount);
    }
    if !binding["from"].is_null() {
        binding_in_its_fabric(stated, binding);
    }
}

/// The binding stands in the cutting table of the fabric that it is cut from.
fn binding_in_its_fabric(stated: &mut Stated, binding: &Value) {
    let table = format!("Cut from {}", scalar(&binding["from"]));
    let (one, each) = ([table.as_str(), "binding", "cut strips"], [table.as_str(), "binding", "width of each strip"]);
    stated.one_or_each(one, each, &binding["strip_width"], As::Length);
    stated.words(&table, "binding", binding, &[("grain", "grain", As::Keyword)]);
    for (size, required) in stated.by_size(&binding["requires"]) {
        stated.add([&table, "binding", "strips", &size], &required["strips"], As::Count);
        stated.add([&table, "binding", "length of each strip", &size], &required["strip_length"], As::Length);
        stated.add([&table, "binding", "side of the square", &size], &required["square"], As::Length);
    }
}

fn layers(stated: &mut Stated, whole: &Value) {
    let (backing, batting) = (&whole["backing"], &whole["batting"]);
    let words = [
        ("from", "backing: cut from", As::Text),
        ("seam", "backing: seam between panels", As::Length),
        ("insert", "backing: strip sewn in between the panels", As::Length),
    ];
    stated.once(backing, &words);
    for (layer, row) in [(backing, "backing"), (batting, "batting")] {
        overhang(stated, &format!("{row}: beyond the quilt at each side"), &layer["overhang"]);
    }
    stated.add(["What to buy", "backing", "usable width of fabric", ""], &backing["usable_width"], As::Length);
    way_up(stated, "backing", &backing["directional"]);
    for (size, required) in stated.by_size(&backing["requires"]) {
        stated.add(["Backing", "size", "", &size], &required["size"], As::Length);
        let fabric = if required.is_mapping() { &required["fabric"] } else { &required };
        stated.add(["What to buy", "backing", "", &size], fabric, As::Amount);
        stated.add(["Backing", "panels", "", &size], &required["panels"], As::Count);
        let run = match required["panels_run"].as_str() {
            Some("along") => "along the length",
            Some("across") => "across the width",
            _ => continue,
        };
        stated.add(["Backing", "panels run", "", &size], &run.into(), As::Text);
    }
    stated.per_size(["What to buy", "batting", ""], &batting["requires"], As::Length);
}

/// How far a layer reaches: one length, or two.
fn overhang(stated: &mut Stated, row: &str, overhang: &Value) {
    let value = if overhang["across"].is_null() {
        overhang.clone()
    } else {
        let side = |word: &str| stated.marked(&plain(&scalar(&overhang[word])));
        format!("{}, {} at top and bottom", side("across"), side("down")).into()
    };
    stated.add(["For all sizes", row, "it is", ""], &value, As::Length);
}

/// What the pattern says of itself, and asks for besides fabric.
fn about(stated: &mut Stated, whole: &Value) {
    for word in ["designer", "skill", "notes"] {
        stated.add(["About the pattern", word, "it is", ""], &whole[word], As::Text);
    }
    let mut uncounted = Vec::new();
    for notion in whole["notions"].as_sequence().into_iter().flatten() {
        if notion["count"].is_null() {
            uncounted.push(plain(&scalar(if notion.is_mapping() { &notion["notion"] } else { notion })));
        } else {
            stated.per_size(["Notions", &scalar(&notion["notion"]), ""], &notion["count"], As::Count);
        }
    }
    if !uncounted.is_empty() {
        stated.add(["About the pattern", "notions", "it is", ""], &uncounted.join("; ").into(), As::Text);
    }
    for (name, colorway) in named(&whole["colorways"]) {
        for (fabric, is) in named(&colorway) {
            stated.add(["Colorways", &fabric, &name, ""], &is, As::Text);
        }
    }
    for (name, fabric) in named(&whole["fabrics"]).into_iter().filter(|_| !whole["colorways"].is_null()) {
        stated.add(["Colorways", &name, "as shown", ""], &fabric["color"], As::Text);
    }
}

/// What is made besides the quilt.
fn extras(stated: &mut Stated, whole: &Value) {
    let table = "Besides the quilt";
    let (sleeve, points, back) = (&whole["sleeve"], &whole["prairie_points"], &whole["pillow_back"]);
    stated.once(sleeve, &[("depth", "sleeve: depth", As::Length), ("hem", "sleeve: hem at each end", As::Length)]);
    stated.per_size([table, "hanging sleeve, cut", ""], &sleeve["requires"], As::Length);
    let words = [("square", "prairie points: square", As::Length), ("overlap", "prairie points: overlap", As::Length)];
    stated.once(points, &words);
    stated.per_size([table, "prairie points", ""], &points["requires"], As::Count);
    let words =
        [("hem", "pillow back: hem of each piece", As::Length), ("overlap", "pillow back: overlap", As::Length)];
    stated.once(back, &words);
    for (size, pieces) in stated.by_size(&back["requires"]) {
        for word in ["first", "second"] {
            stated.add([table, &format!("pillow back, {word} piece"), "", &size], &pieces[word], As::Length);
        }
    }
}
