//! A manuscript as this crate makes it up, and its text with the place of every number.

use std::fmt::Write as _;
use std::ops::Range;

use crate::independent::amounts::Stated;

/// What the two ends of the binding take.
#[derive(Clone, Debug)]
pub(crate) enum Ends {
    Unstated,
    Both(Stated),
    Each(Stated, Stated),
    Extra(Stated),
}

/// Loft, in a word or measured.
#[derive(Clone, Debug)]
pub(crate) enum Loft {
    Low,
    Medium,
    High,
    Measured(Stated),
}

/// One size, and what is printed for it.
#[derive(Clone, Debug)]
pub(crate) struct Size {
    pub(crate) name: &'static str,
    pub(crate) width: i64,
    pub(crate) length: i64,
    pub(crate) finished: String,
    pub(crate) strips: Option<i64>,
    pub(crate) fabric: Option<Fabric>,
    pub(crate) strip_length: Option<Stated>,
}

/// An amount of fabric, or a pair.
#[derive(Clone, Debug)]
pub(crate) struct Fabric {
    pub(crate) first: Stated,
    pub(crate) second: Option<Stated>,
    pub(crate) quoted: bool,
}

/// The whole manuscript. What is `None` is left out of the text.
#[derive(Clone, Debug)]
pub(crate) struct Manuscript {
    pub(crate) metric: bool,
    pub(crate) usable_in_assumes: Option<Stated>,
    pub(crate) usable_in_binding: Option<Stated>,
    pub(crate) sold_by: Option<Stated>,
    pub(crate) width: Stated,
    pub(crate) fold: Option<&'static str>,
    pub(crate) join: Option<&'static str>,
    pub(crate) grain: Option<&'static str>,
    pub(crate) finish: Option<&'static str>,
    pub(crate) seam: Option<Stated>,
    pub(crate) loft: Option<Loft>,
    pub(crate) ends: Ends,
    pub(crate) opening: Option<Stated>,
    pub(crate) strip_length: Option<Stated>,
    pub(crate) sizes: Vec<Size>,
}

/// Where the numbers stand in the text.
#[derive(Clone, Debug, Default)]
pub(crate) struct Places {
    pub(crate) binding: Range<usize>,
    pub(crate) width: Range<usize>,
    pub(crate) tails: Option<Range<usize>>,
    pub(crate) opening: Option<Range<usize>>,
    pub(crate) sizes: Vec<SizePlaces>,
}

#[derive(Clone, Debug, Default)]
pub(crate) struct SizePlaces {
    pub(crate) finished: Range<usize>,
    pub(crate) strips: Range<usize>,
    pub(crate) fabric: Range<usize>,
    pub(crate) first: Range<usize>,
    pub(crate) second: Range<usize>,
}

impl Manuscript {
    /// The text, and where each number stands in it.
    pub(crate) fn text(&self) -> (String, Places) {
        let (mut text, mut places) = (String::new(), Places::default());
        let measure = if self.metric { "cm" } else { "inch" };
        let _ = write!(text, "# Nähte stay ¼\npattern: Lighthouse Row\nmeasure: {measure}\n");
        if self.usable_in_assumes.is_some() || self.sold_by.is_some() {
            text += "assumes:\n";
            line(&mut text, "usable_width", self.usable_in_assumes.as_ref());
            line(&mut text, "sold_by", self.sold_by.as_ref());
        }
        text += "sizes:\n";
        for size in &self.sizes {
            let _ = write!(text, "  {}: {{ finished: ", size.name);
            let finished = put(&mut text, &size.finished);
            places.sizes.push(SizePlaces { finished, ..SizePlaces::default() });
            text += " }\n";
        }
        places.binding = put(&mut text, "binding");
        text += ":\n";
        self.write_method(&mut text, &mut places);
        text += "  requires:\n";
        for (size, places) in self.sizes.iter().zip(&mut places.sizes) {
            write_size(&mut text, size, places);
        }
        (text, places)
    }

    fn write_method(&self, text: &mut String, places: &mut Places) {
        places.width = line(text, "strip_width", Some(&self.width)).unwrap();
        for (key, word) in [("fold", self.fold), ("join", self.join), ("grain", self.grain), ("finish", self.finish)] {
            if let Some(word) = word {
                let _ = writeln!(text, "  {key}: {word}");
            }
        }
        line(text, "seam", self.seam.as_ref());
        match &self.loft {
            Some(Loft::Low) => text.push_str("  loft: low\n"),
            Some(Loft::Medium) => text.push_str("  loft: medium\n"),
            Some(Loft::High) => text.push_str("  loft: high\n"),
            Some(Loft::Measured(loft)) => drop(line(text, "loft", Some(loft))),
            None => {}
        }
        match &self.ends {
            Ends::Unstated => {}
            Ends::Both(tail) => places.tails = line(text, "tails", Some(tail)),
            Ends::Extra(extra) => drop(line(text, "extra_length", Some(extra))),
            Ends::Each(start, end) => {
                text.push_str("  tails: ");
                places.tails = Some(put(text, &format!("{{ start: {}, end: {} }}", start.text, end.text)));
                text.push('\n');
            }
        }
        places.opening = line(text, "opening", self.opening.as_ref());
        line(text, "strip_length", self.strip_length.as_ref());
        line(text, "usable_width", self.usable_in_binding.as_ref());
    }
}

fn write_size(text: &mut String, size: &Size, places: &mut SizePlaces) {
    let _ = writeln!(text, "    {}:", size.name);
    if let Some(strips) = size.strips {
        text.push_str("      strips: ");
        places.strips = put(text, &strips.to_string());
        text.push('\n');
    }
    if let Some(fabric) = &size.fabric {
        text.push_str("      fabric: ");
        let start = text.len();
        text.push_str(if fabric.quoted { "'" } else { "" });
        places.first = put(text, &fabric.first.text);
        if let Some(second) = &fabric.second {
            text.push_str(" (");
            places.second = put(text, &second.text);
            text.push(')');
        }
        text.push_str(if fabric.quoted { "'" } else { "" });
        places.fabric = start..text.len();
        text.push('\n');
    }
    if let Some(strip_length) = &size.strip_length {
        let _ = writeln!(text, "      strip_length: {}", strip_length.text);
    }
}

/// Adds a piece of text and tells where it stands.
fn put(text: &mut String, piece: &str) -> Range<usize> {
    let start = text.len();
    text.push_str(piece);
    start..text.len()
}

/// Adds an indented entry, if it is stated.
fn line(text: &mut String, key: &str, stated: Option<&Stated>) -> Option<Range<usize>> {
    let stated = stated?;
    let _ = write!(text, "  {key}: ");
    let place = put(text, &stated.text);
    text.push('\n');
    Some(place)
}
