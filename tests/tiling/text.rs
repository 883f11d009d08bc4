//! A design as a manuscript.

use super::design::{Beside, Block, Border, Corners, Design, Edge, INCH, Make, Part, Rows, Sewn, Top, Unit};

/// `12 1/2`.
pub(super) fn inches(eighths: i64) -> String {
    let (whole, rest) = (eighths / INCH, eighths % INCH);
    match (whole, rest) {
        (whole, 0) => whole.to_string(),
        (0, rest) => format!("{rest}/8"),
        (whole, rest) => format!("{whole} {rest}/8"),
    }
}

fn size(width: i64, height: i64) -> String {
    format!("{} x {}", inches(width), inches(height))
}

fn list(lengths: &[i64]) -> String {
    format!("[{}]", lengths.iter().map(|length| inches(*length)).collect::<Vec<_>>().join(", "))
}

/// The seam that strips are cut with.
pub(super) const SEAM: i64 = 2;

pub(super) fn unit_name(number: usize) -> String {
    format!("u{number}")
}

pub(super) fn block_name(number: usize) -> String {
    format!("b{number}")
}

fn unit(number: usize, unit: &Unit) -> String {
    let more = match &unit.make {
        Make::Patch => "make: patch".to_string(),
        Make::HalfSquare => "make: half_square_triangle".to_string(),
        Make::QuarterSquare { four_fabrics: true } => "make: quarter_square_triangle, method: pieced".to_string(),
        Make::QuarterSquare { four_fabrics: false } => "make: quarter_square_triangle".to_string(),
        Make::Split => "make: split_quarter_square_triangle".to_string(),
        Make::Geese => "make: flying_geese".to_string(),
        Make::SquareInSquare => "make: square_in_a_square".to_string(),
        Make::HalfRectangle => "make: half_rectangle_triangle".to_string(),
        Make::Snowball { corners, alike } => {
            let corner = if let [one] = corners[..] { inches(one) } else { list(corners) };
            let count = alike.map_or_else(String::new, |count| format!(", corners: {count}"));
            format!("make: snowball, corner: {corner}{count}")
        }
        Make::LogCabin { center, logs, order } => {
            format!("make: log_cabin, center: {}, logs: {}, order: {order}", size(center.0, center.1), list(logs))
        }
        Make::Strips(strips) => {
            let strip = |(number, width): (usize, &i64)| format!("s{number}: {} x 40", inches(width + 2 * SEAM));
            let cut: Vec<String> = strips.iter().enumerate().map(strip).collect();
            format!("make: strip_set, cut: {{ {} }}", cut.join(", "))
        }
        Make::Other => "make: other".to_string(),
    };
    format!("  {}: {{ finished: {}, {more} }}\n", unit_name(number), size(unit.width, unit.height))
}

fn name(sewn: Sewn) -> String {
    match sewn {
        Sewn::Unit(unit) => unit_name(unit),
        Sewn::Block(block) => block_name(block),
    }
}

fn block(number: usize, block: &Block) -> String {
    let part = |part: &Part| {
        let name = name(part.sewn);
        if part.turned { format!("{name} turned") } else { name }
    };
    let row = |row: &Vec<Part>| format!("[{}]", row.iter().map(part).collect::<Vec<_>>().join(", "));
    let rows: Vec<String> = block.rows.iter().map(row).collect();
    let size = size(block.width, block.height);
    format!("  {}: {{ finished: {size}, rows: [{}] }}\n", block_name(number), rows.join(", "))
}

fn border(border: &Border) -> String {
    let corners = match border.corners {
        Corners::Butted => "butted",
        Corners::Mitered => "mitered",
        Corners::Cornerstones => "cornerstones",
    };
    let named =
        |word: &str, sewn: Option<Sewn>| sewn.map_or_else(String::new, |sewn| format!(", {word}: {}", name(sewn)));
    let (of, corner_of) = (named("of", border.of), named("corner_of", border.corner_of));
    let width = if (border.top, border.bottom) == (border.sides, border.sides) {
        inches(border.sides)
    } else {
        let [sides, top, bottom] = [border.sides, border.top, border.bottom].map(inches);
        format!("{{ sides: {sides}, top: {top}, bottom: {bottom} }}")
    };
    format!("{{ width: {width}, corners: {corners}{of}{corner_of} }}")
}

fn layout(top: &Top) -> String {
    let set = if top.on_point { "set: on_point, " } else { "" };
    let yes = |is: bool, word: &str| if is { format!(", {word}: yes") } else { String::new() };
    let sashing = if top.sashing > 0 {
        let edge = if top.edge == Edge::Whole { "whole" } else { "halves" };
        let edge = if top.on_point { format!(", edge_squares: {edge}") } else { String::new() };
        let sash_of = top.sash_of.map_or_else(String::new, |unit| format!(", sash_of: {}", unit_name(unit)));
        let more = yes(top.round, "sashing_round") + &yes(top.cornerstones, "cornerstones");
        format!(", sashing: {}{more}{edge}{sash_of}", inches(top.sashing))
    } else {
        String::new()
    };
    let borders: Vec<String> = top.borders.iter().map(border).collect();
    let blocks = match &top.rows {
        Some(rows) => in_rows(rows),
        None => format!("across: {}, down: {}, blocks: {}", top.across, top.down, block_name(top.block)),
    };
    format!("  one: {{ {set}{blocks}{sashing}, borders: [{}] }}\n", borders.join(", "))
}

/// `rows: [[2 b0, b1 turned]], times: 3`.
fn in_rows(rows: &Rows) -> String {
    let item = |beside: &Beside| {
        let count = if beside.count == 1 { String::new() } else { format!("{} ", beside.count) };
        format!("{count}{}{}", block_name(beside.block), if beside.turned { " turned" } else { "" })
    };
    let row = |row: &Vec<Beside>| format!("[{}]", row.iter().map(item).collect::<Vec<_>>().join(", "));
    let list: Vec<String> = rows.each.iter().map(row).collect();
    let times = if rows.times == 1 { String::new() } else { format!(", times: {}", rows.times) };
    format!("{}: [{}]{times}", if rows.are_columns { "columns" } else { "rows" }, list.join(", "))
}

impl Design {
    pub(super) fn text(&self) -> String {
        let units: String = self.units.iter().enumerate().map(|(number, one)| unit(number, one)).collect();
        let blocks: String = self.blocks.iter().enumerate().map(|(number, one)| block(number, one)).collect();
        format!(
            "pattern: Drift Line\nmeasure: inch\nassumes: {{ usable_width: 40, seam: 1/4 }}\nsizes:\n  one: {{ finished: {} }}\n\
             units:\n{units}blocks:\n{blocks}layout:\n{}",
            size(self.top.width, self.top.height),
            layout(&self.top)
        )
    }
}
