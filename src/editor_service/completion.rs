//! What may be typed at a place: words of the section, names, and the choices of a word.
//!
//! Each is tried before it is offered: the text is read with it, and what the reader would report there is left out. So a
//! word that goes with another make of unit, or a block within itself, is not offered.

use std::collections::{BTreeMap, BTreeSet};

use gen_lsp_types::{CompletionItem, CompletionItemKind, TextEdit};

use super::Service;
use super::completion_place::{MARK, Place, places};
use super::document::{Asked, Document, FileKind, range_in};
use super::names::{NameKind, Names, fabric_of, kind_of_text};
use super::outline::{Outline, Spot, row_of, with_outline};
use crate::manuscript::section::{Row, Shape};
use crate::manuscript::{EVERY_SIZE, Manuscript, Mistake, MistakeKind, Source, name_in_place, read};
use crate::report::{goes_with, left_out_in_force, sanitize_line};
use crate::requirement::batting::package_words;
use crate::rule_book::{Settings, book, read_house_rules};

/// How many bytes are read, in all, to try what is offered. Beyond that nothing is tried: somebody waits.
const MAX_TRIED: usize = 16 * 1024 * 1024;

/// Something that may be typed.
#[derive(Debug)]
struct Offer {
    /// It.
    text: String,
    kind: CompletionItemKind,
    /// What it is, in a few words.
    detail: String,
    /// What else is to be said of it.
    more: String,
    /// What follows it, where it stands before a colon.
    after: &'static str,
}

impl Offer {
    fn new(text: impl Into<String>, kind: CompletionItemKind, detail: impl Into<String>) -> Offer {
        Offer { text: text.into(), kind, detail: detail.into(), more: String::new(), after: ": " }
    }

    fn of_row(row: &Row, settings: &Settings) -> Offer {
        let more = format!(
            "{}{}. Where it is left out: {}. Example: {}",
            row.says,
            goes_with(row),
            left_out_in_force(row, settings),
            row.entry()
        );
        let after = if matches!(row.shape, Shape::Table(_)) { ":" } else { ": " };
        Offer {
            more: more.replace('`', ""),
            after,
            ..Offer::new(row.word, CompletionItemKind::Property, row.says.replace('`', ""))
        }
    }

    fn of_name(name: &str, kind: NameKind) -> Offer {
        Offer::new(name, CompletionItemKind::Reference, kind.word())
    }
}

/// What may be typed at a place in a text.
pub(super) fn items(service: &Service, asked: Asked<'_>) -> Vec<CompletionItem> {
    let Asked { document, byte } = asked;
    let settings = service.surroundings.settings(document.folder());
    for place in places(&document.source.text, byte) {
        let offers = offers(document, &place, &settings);
        let is_tried = document.source.text.len() * offers.len() <= MAX_TRIED;
        let fits = |offer: &Offer| !is_tried || is_read(document, &place, &offer.text);
        let offers: Vec<Offer> = offers.into_iter().filter(fits).collect();
        if !offers.is_empty() {
            let items = offers.into_iter().enumerate();
            return items.map(|(index, offer)| item(service, document, &place, index, &offer)).collect();
        }
    }
    Vec::new()
}

fn item(service: &Service, document: &Document, place: &Place, index: usize, offer: &Offer) -> CompletionItem {
    let after = if place.is_key && !place.has_colon { offer.after } else { "" };
    let range = range_in(&document.source, place.at, service.client.encoding);
    CompletionItem {
        label: sanitize_line(&offer.text),
        kind: Some(offer.kind),
        detail: Some(sanitize_line(&offer.detail)),
        documentation: (!offer.more.is_empty()).then(|| sanitize_line(&offer.more).into()),
        // In the order of the format.
        sort_text: Some(format!("{index:04}")),
        filter_text: Some(offer.text.clone()),
        text_edit: Some(TextEdit { range, new_text: format!("{}{after}", name_in_place(&offer.text, "")) }.into()),
        ..CompletionItem::default()
    }
}

/// Whether the text is read with this in the place, and nothing reported there.
fn is_read(document: &Document, place: &Place, typed: &str) -> bool {
    let (text, at) = place.with(&name_in_place(typed, ""));
    let source = Source::from_text(&document.source.path, text);
    let mistakes = match document.kind {
        FileKind::Manuscript => read(&source).mistakes,
        FileKind::HouseRules => read_house_rules(&source).mistakes,
    };
    // What follows the word is not there yet.
    let is_about_word = |mistake: &Mistake| {
        let is_about_value = matches!(
            mistake.what,
            MistakeKind::MissingEntry { .. } | MistakeKind::WrongShape { .. } | MistakeKind::UnreadableQuantity { .. }
        );
        !(place.is_key && is_about_value)
    };
    !mistakes.iter().any(|mistake| mistake.at.overlaps(at) && is_about_word(mistake))
}

/// What may stand in a place, as the format has it.
fn offers(document: &Document, place: &Place, settings: &Settings) -> Vec<Offer> {
    let source = Source::from_text(&document.source.path, place.with(MARK).0);
    let offers = with_outline(&source, document.kind.format(), |outline| {
        let is_key = |spot: &Spot<'_>| spot.key().is_some_and(|(key, _)| key == MARK);
        let is_value = |spot: &Spot<'_>| spot.text().is_some_and(|text| text.ends_with(MARK));
        let is_here = |spot: &&Spot<'_>| if place.is_key { is_key(spot) } else { is_value(spot) };
        let spot = outline.spots.iter().find(is_here)?;
        let names = Names::of(outline);
        let context = Context { source: &source, outline, names: &names, settings };
        Some(if place.is_key { context.keys(spot) } else { context.values(spot) })
    });
    offers.flatten().unwrap_or_default()
}

/// What is known where something is typed.
struct Context<'c, 'n> {
    source: &'c Source,
    outline: &'c Outline<'n>,
    names: &'c Names,
    settings: &'c Settings,
}

impl<'n> Context<'_, 'n> {
    /// What may stand before a colon.
    fn keys(&self, spot: &Spot<'n>) -> Vec<Offer> {
        let Some((place, above)) = spot.parent.and_then(|place| Some((place, self.outline.spots.get(place)?))) else {
            return Vec::new();
        };
        let others: Vec<&str> =
            self.outline.within(place).filter_map(|(_, spot)| spot.key()).map(|(key, _)| key).collect();
        let Some(shape) = above.shape.map(|shape| self.outline.table_shape(shape, others.iter().copied())) else {
            return Vec::new();
        };
        let new = |offer: &Offer| !others.contains(&offer.text.as_str());
        self.keys_of(shape, above, &others).into_iter().filter(new).collect()
    }

    fn keys_of(&self, shape: Shape, above: &Spot<'n>, others: &[&str]) -> Vec<Offer> {
        match shape {
            Shape::Table(section) => {
                let is_stated = |row: &Row| {
                    others.iter().any(|other| row_of(section, other).is_some_and(|stated| stated.word == row.word))
                };
                let stated = || others.iter().filter_map(|other| row_of(section, other));
                let says_the_same = |row: &Row| {
                    stated().any(|other| row.not_beside.contains(&other.word) || other.not_beside.contains(&row.word))
                };
                let rows = section.rows.iter().filter(|row| !is_stated(row) && !says_the_same(row));
                rows.map(|row| Offer::of_row(row, self.settings)).collect()
            }
            // The sizes themselves are named by the writer.
            Shape::BySize(_) if above.own_word().is_some_and(|word| word.is("file", "sizes")) => Vec::new(),
            Shape::BySize(_) => {
                let every = Offer::new(EVERY_SIZE, CompletionItemKind::Keyword, "what is the same for all sizes");
                self.named(NameKind::Size).into_iter().chain([every]).collect()
            }
            Shape::Named(_) => self.named_keys(above),
            Shape::Parts => self.parts(above),
            Shape::Levels => {
                book().iter().map(|page| Offer::new(page.name, CompletionItemKind::Property, page.headline)).collect()
            }
            Shape::BookValues => {
                let values = book().iter().flat_map(|page| page.values);
                values.map(|value| Offer::new(value.name, CompletionItemKind::Property, value.meaning)).collect()
            }
            Shape::Either(shapes) => shapes.iter().flat_map(|shape| self.keys_of(*shape, above, others)).collect(),
            _ => Vec::new(),
        }
    }

    /// The names that entries may have which name something else.
    fn named_keys(&self, above: &Spot<'n>) -> Vec<Offer> {
        match above.word {
            Some(word) if word.is("layout", "blocks") => self.named(NameKind::Block),
            Some(word) if word.is("units", "takes") => self.piece_names(),
            Some(word) if word.is("blocks", "with") => self.named(NameKind::Fabric),
            Some(word) if word.is("file", "colorways") && above.own_word().is_none() => self.named(NameKind::Fabric),
            _ => Vec::new(),
        }
    }

    /// The parts of the unit that a place is in.
    fn parts(&self, above: &Spot<'n>) -> Vec<Offer> {
        let unit = self.outline.parent(above).and_then(Spot::key).map(|(name, _)| name);
        let manuscript: Manuscript = read(self.source);
        let unit = manuscript.units.iter().find(|known| Some(known.name.as_str()) == unit);
        let parts = unit.and_then(crate::manuscript::design::Unit::part_rows).unwrap_or_default();
        let parts = parts
            .iter()
            .map(|part| Offer::new(part.name, CompletionItemKind::Field, format!("cut size: {}", part.formula)));
        parts.collect()
    }

    /// What a value may be.
    fn values(&self, spot: &Spot<'n>) -> Vec<Offer> {
        let Some(shape) = spot.shape else { return Vec::new() };
        let offers = match spot.word {
            Some(word) if word.is("cut", "beside") => {
                let fabric = fabric_of(self.outline, spot).unwrap_or_default();
                let pieces = self.names.pieces.iter().filter(|(of, piece)| of == fabric && !piece.ends_with(MARK));
                pieces.map(|(_, piece)| Offer::of_name(piece, NameKind::Piece)).collect()
            }
            Some(word) if word.is("accepted", "rule") => {
                book().iter().map(|page| Offer::new(page.name, CompletionItemKind::Value, page.headline)).collect()
            }
            Some(word) => kind_of_text(word).map_or_else(|| self.values_of(shape), |kind| self.named(kind)),
            None => Vec::new(),
        };
        let mut seen = BTreeSet::new();
        offers.into_iter().filter(|offer| seen.insert(offer.text.clone())).collect()
    }

    fn values_of(&self, shape: Shape) -> Vec<Offer> {
        match shape {
            Shape::Choice(words) => words.iter().map(|word| Offer::new(*word, CompletionItemKind::Value, "")).collect(),
            Shape::PackageOfHouse => {
                let words = self.settings.packages_of_house().map(|(name, _)| package_words(name));
                words.map(|words| Offer::new(words, CompletionItemKind::Value, "of the house rules")).collect()
            }
            Shape::Parts | Shape::Name("piece") => self.piece_names(),
            Shape::Name("fabric") => self.named(NameKind::Fabric),
            Shape::Name("size") => self.named(NameKind::Size),
            Shape::Name("unit") => self.named(NameKind::Unit),
            Shape::Name(blocks) if blocks.starts_with("block") => self.named(NameKind::Block),
            Shape::Name(_) => [NameKind::Unit, NameKind::Block].into_iter().flat_map(|kind| self.named(kind)).collect(),
            Shape::Either(shapes) => shapes.iter().flat_map(|shape| self.values_of(*shape)).collect(),
            _ => Vec::new(),
        }
    }

    fn named(&self, kind: NameKind) -> Vec<Offer> {
        let names = self.names.of_kind(kind).filter(|name| !name.ends_with(MARK));
        names.map(|name| Offer::of_name(name, kind)).collect()
    }

    /// The pieces by their names, and after the name of their fabric where several fabrics have one of a name.
    fn piece_names(&self) -> Vec<Offer> {
        let mut offers = self.named(NameKind::Piece);
        let mut fabrics: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for (fabric, piece) in &self.names.pieces {
            fabrics.entry(piece).or_default().push(fabric);
        }
        for (piece, fabrics) in fabrics.iter().filter(|(_, fabrics)| fabrics.len() > 1) {
            offers.extend(fabrics.iter().map(|fabric| Offer::of_name(&format!("{fabric} {piece}"), NameKind::Piece)));
        }
        offers
    }
}
