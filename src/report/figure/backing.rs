//! The figure of a backing: its panels, the quilt on them, the batting between, and what is trimmed off.

use super::Figure;
use super::callouts::{Callout, DrawnColumn, column};
use super::label_placement::{LabelPlacement, Line, Taken, foot};
use super::scale::Scale;
use super::scene::{Anchor, At, LINE, Scene, UNIT, WIDTH};
use super::words::{self, by, clean, of};
use crate::drawing::backing::{BackingDrawing, Panel};
use crate::quantity::Length;

const AIR: i64 = 24 * UNIT;
const WIDE: i64 = 660 * UNIT;
const HIGH: i64 = 640 * UNIT;

/// The backing on its figure.
struct Layout<'d> {
    drawing: &'d BackingDrawing,
    scale: Scale,
    /// Where the backing's own corner lies.
    corner: At,
    /// How wide and how long the drawing is, panels and batting included.
    right: i64,
    bottom: i64,
    /// Whether panels lie side by side from left to right.
    upright: bool,
    /// How much of the panels is drawn across them.
    drawn: Length,
}

/// The figure of a backing.
pub(super) fn figure(id: String, size: &str, drawing: &BackingDrawing) -> Figure {
    let mut scene = Scene::new(id);
    let layout = Layout::new(drawing);
    facts(&mut scene, drawing, &layout);
    let mut callouts = layout.panels(&mut scene);
    callouts.extend(layout.sheets(&mut scene));
    let DrawnColumn { bottom: ends, leaders } =
        column(&mut scene, &mut callouts, (layout.right + 60 * UNIT, WIDTH), AIR, false);
    layout.labels(&mut scene, &leaders);
    let words = sentence(drawing);
    let caption = format!("{}: the backing, {}. {words}", clean(size), by(&drawing.sheet.width, &drawing.sheet.length));
    let alternative = alternative(size, drawing, &words);
    let title = format!("The panels of the backing for {}", clean(size));
    let svg = scene.svg(ends.max(layout.bottom + AIR), &title, &alternative);
    Figure {
        id: scene.id,
        size: Some(size.to_string()),
        section: "backing".to_string(),
        narrow: false,
        caption,
        alternative,
        svg,
    }
}

fn facts(scene: &mut Scene, drawing: &BackingDrawing, layout: &Layout<'_>) {
    scene.data("drawing", "backing");
    scene.data("unit", layout.scale.label());
    scene.data("run", drawing.run);
    scene.data("panels", drawing.count);
    for (name, told) in [
        ("width", Some(&drawing.sheet.width)),
        ("length", Some(&drawing.sheet.length)),
        ("sewn", Some(&drawing.sewn)),
        ("across", Some(&drawing.across)),
        ("each", Some(&drawing.each)),
        ("fabric", Some(&drawing.fabric)),
        ("trimmed", drawing.trimmed.as_ref()),
        ("short", drawing.short.as_ref()),
    ] {
        if let Some(told) = told {
            scene.data(name, &told.shown);
        }
    }
}

impl<'d> Layout<'d> {
    fn new(drawing: &'d BackingDrawing) -> Layout<'d> {
        let upright = drawing.run == "along";
        let across = drawing.across.length;
        // Of panels far too many, a part is drawn.
        let drawn = drawing.sewn.length.min(across * 2);
        let (width, length) = (drawing.sheet.width.length, drawing.sheet.length.length);
        let (wide, long) = if upright { (width.max(drawn), length) } else { (width, length.max(drawn)) };
        let (before_across, before_down) = drawing.batting.as_ref().map_or((Length::ZERO, Length::ZERO), |batting| {
            let beyond = |batting: Length, sheet: Length| (batting - sheet).half().max(Length::ZERO);
            (beyond(batting.width.length, width), beyond(batting.length.length, length))
        });
        let (all_wide, all_long) =
            (wide.max(width + before_across) + before_across, long.max(length + before_down) + before_down);
        let scale = Scale::fit((all_wide, all_long), (WIDE, HIGH));
        let corner = At { x: AIR + scale.of(before_across), y: AIR + scale.of(before_down) };
        let (right, bottom) = (AIR + scale.of(all_wide), AIR + scale.of(all_long));
        Layout { drawing, scale, corner, right, bottom, upright, drawn }
    }

    /// A place so far across the panels and along them.
    fn at(&self, across: Length, along: Length) -> At {
        let (across, along) = (self.scale.of(across), self.scale.of(along));
        let (x, y) = if self.upright { (across, along) } else { (along, across) };
        At { x: self.corner.x + x, y: self.corner.y + y }
    }

    fn face(&self, scene: &mut Scene, class: &str, from: Length, to: Length) {
        let each = self.drawing.each.length;
        let none = Length::ZERO;
        scene.path(class, &[self.at(from, none), self.at(to, none), self.at(to, each), self.at(from, each)], true);
    }

    fn panels(&self, scene: &mut Scene) -> Vec<Callout> {
        let drawing = self.drawing;
        let shown = |panel: &&Panel| panel.begins.length < self.drawn;
        for panel in drawing.panels.iter().filter(shown) {
            let class = if panel.panel % 2 == 0 { "fig-strip-even" } else { "fig-strip-odd" };
            let to = panel.ends.length.min(self.drawn);
            let each = drawing.each.length;
            let none = Length::ZERO;
            let from = panel.begins.length;
            let places = [self.at(from, none), self.at(to, none), self.at(to, each), self.at(from, each)];
            let shape = scene.path(class, &places, true);
            shape.data("panel", panel.panel).data("begins", &panel.begins.shown).data("ends", &panel.ends.shown);
        }
        let mut callouts = Vec::new();
        let (across, each) = (drawing.across.length, drawing.each.length);
        if let Some(trimmed) = &drawing.trimmed {
            let id = scene.id.clone();
            let none = Length::ZERO;
            let places =
                [self.at(across, none), self.at(self.drawn, none), self.at(self.drawn, each), self.at(across, each)];
            scene.path("fig-left", &places, true).patterned("fill", &id, "dots").data("trimmed", &trimmed.shown);
            let cut = if self.drawn < drawing.sewn.length { ", drawn cut short" } else { "" };
            let at = self.beside(across + (self.drawn - across).half());
            callouts.push(Callout { at, text: format!("{} trimmed off{cut}", trimmed.shown) });
        }
        if let Some(short) = &drawing.short {
            self.face(scene, "fig-end", drawing.sewn.length, across);
            let at = self.beside(drawing.sewn.length + (across - drawing.sewn.length).half());
            callouts.push(Callout { at, text: format!("{} missing", short.shown) });
        }
        callouts
    }

    /// A place at the side where words stand, so far across the panels.
    fn beside(&self, across: Length) -> At {
        let each = self.drawing.each.length;
        let near = Length::from_ticks(each.ticks() / 16);
        if self.upright { self.at(across, near) } else { self.at(across, each) }
    }

    /// The backing, the batting and the quilt.
    fn sheets(&self, scene: &mut Scene) -> Vec<Callout> {
        let drawing = self.drawing;
        let (width, length) = (drawing.sheet.width.length, drawing.sheet.length.length);
        let centred = |inner: Length, outer: Length| self.scale.of((outer - inner).half());
        let mut callouts = Vec::new();
        let mut sheet = |scene: &mut Scene, class: &str, (wide, long): (Length, Length), share: i64, text: String| {
            let at = At { x: self.corner.x + centred(wide, width), y: self.corner.y + centred(long, length) };
            scene.rectangle(class, at, self.scale.of(wide), self.scale.of(long));
            let right = At { x: at.x + self.scale.of(wide), y: at.y + self.scale.of(long) * share / 8 };
            callouts.push(Callout { at: right, text });
        };
        let top = (drawing.top.width.length, drawing.top.length.length);
        sheet(
            scene,
            "fig-sheet",
            (width, length),
            2,
            format!("backing {}", by(&drawing.sheet.width, &drawing.sheet.length)),
        );
        if let Some(batting) = &drawing.batting {
            let size = (batting.width.length, batting.length.length);
            sheet(scene, "fig-batting", size, 6, format!("batting {}", by(&batting.width, &batting.length)));
        }
        sheet(scene, "fig-top", top, 4, format!("quilt {}", by(&drawing.top.width, &drawing.top.length)));
        callouts
    }

    /// The numbers of the panels and the way that they run.
    fn labels(&self, scene: &mut Scene, leaders: &[Line]) {
        let drawing = self.drawing;
        let mut room = LabelPlacement::new(Taken { left: 0, top: 0, right: self.right, bottom: self.bottom });
        for leader in leaders {
            room.take_line(*leader);
        }
        let each = drawing.each.length;
        for panel in drawing.panels.iter().filter(|panel| panel.begins.length < self.drawn) {
            let text = format!("panel {}", panel.panel);
            let seen_to = |end: Length| panel.ends.length.min(end) - panel.begins.length;
            // On the backing itself, where there is room.
            let on_sheet = seen_to(drawing.across.length);
            let needed = if self.upright { words::wide(&text) } else { LINE };
            let seen = if self.scale.of(on_sheet) > needed { on_sheet } else { seen_to(self.drawn) };
            let middle = panel.begins.length + seen.half();
            let (wide, high) = if self.upright { (seen, each) } else { (each, seen) };
            let fits = words::wide(&text) < self.scale.of(wide) && LINE < self.scale.of(high);
            // Beside the arrow, wherever no line leads to the words.
            let places =
                [6, 5, 4, 7, 3, 8, 2].map(|share| self.at(middle, Length::from_ticks(each.ticks() * share / 20)));
            let place = places.into_iter().find(|at| fits && room.try_take(Taken::of_text(&text, *at)));
            if let Some(at) = place {
                scene.text("fig-text fig-bold fig-halo", foot(at), Anchor::Middle, &text);
                self.arrow(scene, middle, words::wide(&text));
            }
        }
    }

    /// A double arrow along a panel, where there is room beside its number.
    fn arrow(&self, scene: &mut Scene, middle: Length, number: i64) {
        let each = self.drawing.each.length;
        let part = |share: i128| self.at(middle, Length::from_ticks(each.ticks() * share / 20));
        let (from, to) = if self.upright { (part(8), part(14)) } else { (part(10), part(15)) };
        let apart = self.scale.of(each) / 5;
        let needed = if self.upright { LINE } else { number / 2 + 20 * UNIT };
        if apart > needed {
            scene.path("fig-tick", &[from, to], false);
            scene.arrowhead(from, to);
            scene.arrowhead(to, from);
        }
    }
}

fn sentence(drawing: &BackingDrawing) -> String {
    let way = if drawing.run == "along" { "along the quilt" } else { "across the quilt" };
    let stands = match (&drawing.trimmed, &drawing.short) {
        (_, Some(short)) => format!("{} is missing", short.shown),
        (Some(trimmed), _) => format!("{} is trimmed off", trimmed.shown),
        (None, None) => "nothing is trimmed off".to_string(),
    };
    let take = if drawing.count == 1 { "It takes" } else { "They take" };
    let bought = match &drawing.fabric_stated {
        Some(stated) => {
            let little = if stated.length < drawing.fabric.length { ", which is too little" } else { "" };
            format!(" {take} {}; {} stated{little}.", drawing.fabric.shown, stated.shown)
        }
        None => format!(" {take} {}.", drawing.fabric.shown),
    };
    format!(
        "{} of {}, {} wide, {} {way}; sewn together {} for {}: {stands}.{bought}",
        of(drawing.count, "panel"),
        drawing.each.shown,
        drawing.usable_width.shown,
        if drawing.count == 1 { "running" } else { "run" },
        drawing.sewn.shown,
        drawing.across.shown,
    )
}

fn alternative(size: &str, drawing: &BackingDrawing, words: &str) -> String {
    let batting = match &drawing.batting {
        Some(batting) => format!(" The batting is {}.", by(&batting.width, &batting.length)),
        None => String::new(),
    };
    format!(
        "The backing for {}, {}, with the quilt, {}, in its middle and {} beyond it at each side{}. {words} Seams of {}.{batting}",
        clean(size),
        by(&drawing.sheet.width, &drawing.sheet.length),
        by(&drawing.top.width, &drawing.top.length),
        drawing.overhang.shown,
        drawing.overhang_down.as_ref().map_or_else(String::new, |down| format!(", {} at top and bottom", down.shown)),
        drawing.seam.shown,
    )
}
