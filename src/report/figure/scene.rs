//! The shapes of a figure, and the figure as SVG. The template escapes every value that it is given.
//!
//! A figure is laid out in whole numbers, in thousandths of a tenth of a millimeter.

use std::fmt::Display;

use minijinja::value::Serde;
use minijinja::{Environment, Value, context};
use serde::Serialize;

use super::scale::decimal;
use super::words::clean;

pub(super) use super::grid::{At, LETTER, LINE, UNIT, WIDTH};

/// Where a text is fastened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

#[derive(Debug, Serialize)]
pub(super) struct Shape {
    tag: &'static str,
    attributes: Vec<(String, String)>,
    text: Option<String>,
}

impl Shape {
    fn new(tag: &'static str, class: &str) -> Shape {
        Shape { tag, attributes: vec![("class".to_string(), class.to_string())], text: None }
    }

    fn set(mut self, name: &str, value: impl Into<String>) -> Shape {
        self.attributes.push((name.to_string(), value.into()));
        self
    }

    /// A number or a name of the JSON, for programs that compare.
    pub(super) fn data(&mut self, name: &str, value: impl Display) -> &mut Shape {
        self.attributes.push((format!("data-{name}"), clean(&value.to_string())));
        self
    }

    /// Fills it, or draws its line, with one of the figure's patterns.
    pub(super) fn patterned(&mut self, property: &str, id: &str, pattern: &str) -> &mut Shape {
        self.attributes.push((property.to_string(), format!("url(#{id}-{pattern})")));
        self
    }
}

/// A figure in the making.
#[derive(Debug, Default)]
pub(super) struct Scene {
    pub(super) id: String,
    shapes: Vec<Shape>,
    data: Vec<(String, String)>,
    /// The class and the width of a figure that is not as wide as the others.
    narrow: Option<(&'static str, i64)>,
    symbols: Vec<Symbol>,
}

/// Shapes that are drawn once and used at several places.
#[derive(Debug, Serialize)]
struct Symbol {
    id: String,
    shapes: Vec<Shape>,
}

impl Scene {
    pub(super) fn new(id: String) -> Scene {
        Scene { id, ..Scene::default() }
    }

    /// A figure that is narrower than the others, with a class of its own. It has more patterns to fill shapes with.
    pub(super) fn narrow(id: String, class: &'static str, width: i64) -> Scene {
        Scene { id, narrow: Some((class, width)), ..Scene::default() }
    }

    /// Draws shapes from a corner of their own, to be used by their name.
    pub(super) fn symbol(&mut self, id: &str, draw: impl FnOnce(&mut Scene)) {
        let mut scene = Scene::new(self.id.clone());
        draw(&mut scene);
        self.symbols.push(Symbol { id: id.to_string(), shapes: scene.shapes });
    }

    /// Uses a symbol, its own corner at a place, turned clockwise about it.
    pub(super) fn use_symbol(&mut self, id: &str, at: At, degrees: u16) -> &mut Shape {
        let place = format!("translate({} {})", decimal(at.x), decimal(at.y));
        let turn = if degrees == 0 { String::new() } else { format!(" rotate({degrees})") };
        let shape = Shape { tag: "use", attributes: Vec::new(), text: None };
        self.add(shape.set("href", format!("#{id}")).set("transform", place + &turn))
    }

    /// Something that holds of the whole figure.
    pub(super) fn data(&mut self, name: &str, value: impl Display) {
        self.data.push((name.to_string(), clean(&value.to_string())));
    }

    fn add(&mut self, shape: Shape) -> &mut Shape {
        self.shapes.push(shape);
        let last = self.shapes.len() - 1;
        &mut self.shapes[last]
    }

    /// A line through places, closed to a face or open.
    pub(super) fn path(&mut self, class: &str, places: &[At], closed: bool) -> &mut Shape {
        let mut steps = String::new();
        for (index, at) in places.iter().enumerate() {
            steps.push_str(if index == 0 { "M" } else { "L" });
            steps.push_str(&format!("{} {}", decimal(at.x), decimal(at.y)));
        }
        if closed {
            steps.push('Z');
        }
        self.add(Shape::new("path", class).set("d", steps))
    }

    /// Many short lines as one shape.
    pub(super) fn lines(&mut self, class: &str, lines: &[(At, At)]) -> &mut Shape {
        let line = |(from, to): &(At, At)| {
            format!("M{} {}L{} {}", decimal(from.x), decimal(from.y), decimal(to.x), decimal(to.y))
        };
        let steps: String = lines.iter().map(line).collect();
        self.add(Shape::new("path", class).set("d", steps))
    }

    /// A rectangle from its corner at the top left.
    pub(super) fn rectangle(&mut self, class: &str, at: At, width: i64, height: i64) -> &mut Shape {
        let shape = Shape::new("rect", class).set("x", decimal(at.x)).set("y", decimal(at.y));
        self.add(shape.set("width", decimal(width.max(0))).set("height", decimal(height.max(0))))
    }

    /// A rectangle with round ends, about its middle.
    pub(super) fn pill(&mut self, class: &str, middle: At, width: i64, height: i64) -> &mut Shape {
        let corner = At { x: middle.x - width / 2, y: middle.y - height / 2 };
        let shape = self.rectangle(class, corner, width, height);
        shape.attributes.push(("rx".to_string(), decimal(height / 2)));
        shape
    }

    /// A line of text on its foot.
    pub(super) fn text(&mut self, class: &str, at: At, anchor: Anchor, text: &str) -> &mut Shape {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let shape = Shape::new("text", class).set("x", decimal(at.x)).set("y", decimal(at.y));
        let shape = self.add(shape.set("text-anchor", anchor));
        shape.text = Some(clean(text));
        shape
    }

    /// A small triangle that points from one place to another and ends there.
    pub(super) fn arrowhead(&mut self, from: At, tip: At) {
        let long = 24 * UNIT;
        let (dx, dy) = super::scale::toward(from, tip, long);
        let foot = At { x: tip.x - dx, y: tip.y - dy };
        let side = |turn: i64| At { x: foot.x - turn * dy * 2 / 5, y: foot.y + turn * dx * 2 / 5 };
        self.path("fig-arrow", &[tip, side(1), side(-1)], true);
    }

    /// The whole figure.
    pub(super) fn svg(&self, height: i64, title: &str, desc: &str) -> String {
        let mut environment = Environment::new();
        let template = include_str!("figure.svg.html");
        let rendered = environment.add_template("figure.svg.html", template).and_then(|()| {
            environment.get_template("figure.svg.html")?.render(context! {
                id => self.id.as_str(), class => self.narrow.map(|(class, _)| class),
                width => decimal(self.narrow.map_or(WIDTH, |(_, width)| width)),
                symbols => Value::from(Serde(&self.symbols)), height => decimal(height), data => Value::from(Serde(&self.data)),
                title => clean(title), desc => clean(desc), shapes => Value::from(Serde(&self.shapes)),
            })
        });
        debug_assert!(rendered.is_ok(), "{rendered:?}");
        rendered.unwrap_or_default()
    }
}
