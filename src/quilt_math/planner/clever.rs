//! Clever plans: rows in sections in strips, and unlike pieces in the room beside lengthwise ones. They are cut from
//! edge to edge as plain ones are, in more steps.

use super::few;
use super::fill::Fill;
use super::items::List;
use super::layout::{From, Grid, Strip, columns, length, trim};
use super::linear::PRICE;
use super::plain::{Plain, offcut_strips, plain_strips, plain_work};
use super::sections::Sections;
use super::whole::{Effort, Source, strips};

/// The effort for the rows in sections of one list.
const SECTIONS: Effort = Effort { steps: 120, nodes: 1500, work: 25_000_000 };
/// The effort for one way of laying lengthwise pieces.
const BESIDE: Effort = Effort { steps: 150, nodes: 300, work: 3_000_000 };
/// How many ways of laying lengthwise pieces are tried.
const MAX_LENGTHWISE: usize = 9;
/// The most lengthwise pieces that are laid in rows.
const MAX_LONG_PIECES: i64 = 40;
/// How many times some strips are laid again.
const MAX_AGAIN: usize = 60;
/// The most pairs of choices of pieces that are looked at for each time.
const MAX_PAIRS_AGAIN: i64 = 1500;

/// The shortest plan of any kind that is found, where it is shorter than `best`; none shorter than `at_least` is looked
/// for.
pub(super) fn plan(list: &List, best: &[Strip], at_least: i64) -> Option<Vec<Strip>> {
    let mut found = FoundPlan { best: best.to_vec(), at_least, better: false };
    let demand = list.demand();
    if list.offcuts.is_empty()
        && let Some(strips) = few::shortest(&list.kinds, &demand, (list.width, length(best)), few::MAX_PAIRS)
    {
        found.offer(strips);
        return found.taken();
    }
    if !found.is_done() {
        for rows in lengthwise(list) {
            if let Some(strips) = beside(list, &rows, at_least) {
                found.offer(strips);
            }
            if found.is_done() {
                break;
            }
        }
    }
    if !found.is_done() {
        let source = Nested { plain: Plain::new(list) };
        if let Some(strips) = strips(&source, SECTIONS, at_least) {
            found.offer(strips);
        }
    }
    if !found.is_done() {
        again(list, &mut found);
    }
    found.taken()
}

struct FoundPlan {
    best: Vec<Strip>,
    at_least: i64,
    better: bool,
}

impl FoundPlan {
    fn offer(&mut self, strips: Vec<Strip>) {
        if length(&strips) < length(&self.best) {
            self.best = strips;
            self.better = true;
        }
    }

    fn is_done(&self) -> bool {
        length(&self.best) <= self.at_least
    }

    fn taken(self) -> Option<Vec<Strip>> {
        self.better.then_some(self.best)
    }
}

/// Strips with rows in sections, beside the plain ones.
struct Nested<'l> {
    plain: Plain<'l>,
}

impl Source for Nested<'_> {
    fn demand(&self) -> Vec<i64> {
        self.plain.demand()
    }

    fn resources(&self) -> Vec<i64> {
        self.plain.resources()
    }

    fn takes(&self, strip: &Strip) -> Option<(usize, i64)> {
        self.plain.takes(strip)
    }

    fn penalty(&self) -> i64 {
        self.plain.penalty()
    }

    fn work(&self) -> usize {
        Sections::work(self.plain.list, &self.plain.heights)
    }

    fn strips(&self, demand: &[i64], prices: &[i64], resource_prices: &[i64]) -> Vec<Strip> {
        let Plain { list, heights } = &self.plain;
        let plain = plain_strips(list, heights, demand, prices);
        if !plain.is_empty() && resource_prices.is_empty() {
            return plain;
        }
        let tallest = list.offcuts.iter().map(|offcut| offcut.along).max().unwrap_or(0);
        let sections = Sections::new(list, heights, demand, prices, tallest);
        let mut made = plain;
        for height in sections.strip_heights() {
            if let Some((grids, worth)) = sections.strip(list.width, height)
                && worth > height * PRICE + PRICE / 1000
            {
                made.push(Strip { from: From::Fabric, height, grids, times: 1 });
            }
        }
        for (number, (offcut, price)) in list.offcuts.iter().zip(resource_prices).enumerate() {
            if let Some((grids, worth)) = sections.strip(offcut.across, offcut.along)
                && worth > *price + PRICE / 1000
            {
                made.push(Strip { from: From::Offcut(number), height: offcut.along, grids, times: 1 });
            }
        }
        made
    }
}

/// One row of lengthwise pieces side by side, with the room beside and above them.
#[derive(Clone)]
struct Row {
    height: i64,
    grids: Vec<Grid>,
    used: i64,
    rooms: Vec<Room>,
}

/// Room in a row: where it begins, how wide and how long it is.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Room {
    from: i64,
    above: i64,
    across: i64,
    along: i64,
}

impl Row {
    /// The room beside all pieces, and above each that is shorter than the row.
    fn in_columns(&self, width: i64) -> Vec<Room> {
        let beside = Room { from: self.used, above: 0, across: width - self.used, along: self.height };
        let above = |grid: &Grid| Room {
            from: grid.from,
            above: grid.along,
            across: grid.across * grid.count,
            along: self.height - grid.along,
        };
        std::iter::once(beside).chain(self.grids.iter().map(above)).collect()
    }

    /// The room beside the shorter pieces, and that above them and above that room.
    fn in_levels(&self, width: i64) -> Vec<Room> {
        let shorter = self.grids.iter().find(|grid| grid.along < self.height);
        let Some((from, along)) = shorter.map(|grid| (grid.from, grid.along)) else { return Vec::new() };
        let beside = Room { from: self.used, above: 0, across: width - self.used, along };
        vec![beside, Room { from, above: along, across: width - from, along: self.height - along }]
    }
}

/// Rows with the room that they leave, where there is any.
fn with_rooms(rows: &[Row], rooms: impl Fn(&Row) -> Vec<Room>) -> Vec<Row> {
    let with = |row: &Row| {
        let mut rooms = rooms(row);
        rooms.retain(|room| room.across > 0 && room.along > 0);
        Row { rooms, ..row.clone() }
    };
    rows.iter().map(with).collect()
}

/// Ways of laying the pieces that are long along the fabric in rows.
fn lengthwise(list: &List) -> Vec<Vec<Row>> {
    let mut long: Vec<(i64, i64, usize, i64)> = Vec::new();
    for (number, kind) in list.kinds.iter().enumerate() {
        if let Some(way) = kind.ways.iter().filter(|way| way.along > way.across).max_by_key(|way| way.along) {
            long.push((way.along, way.across, number, kind.count));
        }
    }
    long.sort_unstable_by(|one, other| other.cmp(one));
    let mut ways = Vec::new();
    // As many in a row as fit, and fewer; the longest kind alone, then the two longest, and so on.
    for fewer in 0..3 {
        for kinds in 1..=long.len().min(3) {
            let chosen = &long[..kinds];
            let pieces: i64 = chosen.iter().map(|(_, _, _, count)| count).sum();
            let Some(rows) = rows_of(chosen, list.width, fewer).filter(|_| pieces <= MAX_LONG_PIECES) else { continue };
            for rows in [
                with_rooms(&rows, |row| row.in_columns(list.width)),
                with_rooms(&rows, |row| row.in_levels(list.width)),
            ] {
                let leaves_room = rows.iter().any(|row| !row.rooms.is_empty());
                if leaves_room && !ways.iter().any(|way: &Vec<Row>| same(way, &rows)) {
                    ways.push(rows);
                }
            }
        }
    }
    ways.truncate(MAX_LENGTHWISE);
    ways
}

fn same(one: &[Row], other: &[Row]) -> bool {
    let alike = |(one, other): (&Row, &Row)| one.grids == other.grids && one.rooms == other.rooms;
    one.len() == other.len() && one.iter().zip(other).all(alike)
}

/// Rows of long pieces, the longest first, with so many fewer in each row than fit.
fn rows_of(long: &[(i64, i64, usize, i64)], width: i64, fewer: i64) -> Option<Vec<Row>> {
    let mut rows: Vec<Row> = Vec::new();
    let mut in_row = 0;
    for (along, across, kind, count) in long.iter().copied() {
        let most = (width / across - fewer).max(1);
        for _ in 0..count {
            let room = rows.last().is_some_and(|row| row.used + across <= width && in_row < most);
            if !room {
                rows.push(Row { height: along, grids: Vec::new(), used: 0, rooms: Vec::new() });
                in_row = 0;
            }
            let row = rows.last_mut()?;
            match row.grids.last_mut() {
                Some(grid) if grid.kind == kind => grid.count += 1,
                _ => row.grids.push(Grid { kind, from: row.used, above: 0, across, along, rows: 1, count: 1 }),
            }
            row.used += across;
            in_row += 1;
        }
    }
    (rows.len() <= 8).then_some(rows)
}

/// The rest of the pieces laid beside rows of lengthwise pieces and in plain strips.
struct Beside<'l> {
    list: &'l List,
    heights: Vec<i64>,
    demand: Vec<i64>,
    rooms: Vec<Room>,
}

impl Source for Beside<'_> {
    fn demand(&self) -> Vec<i64> {
        self.demand.clone()
    }

    fn resources(&self) -> Vec<i64> {
        let offcuts = self.list.offcuts.iter().map(|offcut| offcut.count);
        offcuts.chain(self.rooms.iter().map(|room| room.along)).collect()
    }

    fn takes(&self, strip: &Strip) -> Option<(usize, i64)> {
        match strip.from {
            From::Offcut(offcut) => Some((offcut, 1)),
            From::Beside(room) => Some((self.list.offcuts.len() + room, strip.height)),
            From::Fabric | From::Small => None,
        }
    }

    fn penalty(&self) -> i64 {
        2 * self.heights.last().copied().unwrap_or(1)
    }

    fn work(&self) -> usize {
        plain_work(self.list, &self.heights) * (1 + self.rooms.len())
    }

    fn strips(&self, demand: &[i64], prices: &[i64], resource_prices: &[i64]) -> Vec<Strip> {
        let mut made = plain_strips(self.list, &self.heights, demand, prices);
        let (offcut_prices, room_prices) = resource_prices.split_at(self.list.offcuts.len());
        made.extend(offcut_strips(self.list, demand, prices, offcut_prices));
        for (number, (room, price)) in self.rooms.iter().zip(room_prices).enumerate() {
            for height in self.heights.iter().filter(|height| **height <= room.along) {
                let fill = Fill::new(&self.list.kinds, demand, prices, room.across, *height);
                if fill.value(room.across) > height * price + PRICE / 1000 {
                    let grids = fill.grids(room.across);
                    made.push(Strip { from: From::Beside(number), height: *height, grids, times: 1 });
                }
            }
        }
        made
    }
}

fn beside(list: &List, rows: &[Row], at_least: i64) -> Option<Vec<Strip>> {
    let mut demand = list.demand();
    for grid in rows.iter().flat_map(|row| &row.grids) {
        demand[grid.kind] -= grid.count;
    }
    let fixed: i64 = rows.iter().map(|row| row.height).sum();
    let places: Vec<(usize, Room)> =
        rows.iter().enumerate().flat_map(|(number, row)| row.rooms.iter().map(move |room| (number, *room))).collect();
    let rooms = places.iter().map(|(_, room)| *room).collect();
    let source = Beside { list, heights: list.heights(), demand, rooms };
    let laid = strips(&source, BESIDE, at_least - fixed)?;
    let mut whole: Vec<Strip> = rows
        .iter()
        .map(|row| Strip { from: From::Fabric, height: row.height, grids: row.grids.clone(), times: 1 })
        .collect();
    let mut above: Vec<i64> = places.iter().map(|(_, room)| room.above).collect();
    for strip in laid {
        let From::Beside(room) = strip.from else {
            whole.push(strip);
            continue;
        };
        let (row, Room { from, .. }) = places[room];
        stack(&strip, from, &mut above[room], &mut whole[row].grids);
    }
    Some(whole)
}

/// Puts strips one above another beside what lies in a row.
fn stack(strip: &Strip, from: i64, above: &mut i64, grids: &mut Vec<Grid>) {
    if let [grid] = strip.grids.as_slice()
        && columns(grid.count, grid.rows) * grid.rows == grid.count
        && grid.top() == strip.height
    {
        let (rows, count) = (grid.rows * strip.times, grid.count * strip.times);
        grids.push(Grid { from: from + grid.from, above: *above + grid.above, rows, count, ..*grid });
        *above += strip.height * strip.times;
        return;
    }
    for _ in 0..strip.times {
        grids.extend(strip.grids.iter().map(|grid| Grid {
            from: from + grid.from,
            above: *above + grid.above,
            ..*grid
        }));
        *above += strip.height;
    }
}

/// Lays the pieces of two or three strips again, exactly, where they are few.
fn again(list: &List, found: &mut FoundPlan) {
    let mut left = MAX_AGAIN;
    loop {
        let strips: Vec<Strip> = one_by_one(&found.best);
        let shorter = sets(strips.len()).into_iter().find_map(|set| {
            left = left.checked_sub(1)?;
            let mut demand = vec![0; list.kinds.len()];
            for (kind, pieces) in
                set.iter().flat_map(|strip| strips[*strip].pieces(list.kinds.len()).into_iter().enumerate())
            {
                demand[kind] += pieces;
            }
            let before: i64 = set.iter().map(|strip| strips[*strip].height).sum();
            let laid = few::shortest(&list.kinds, &demand, (list.width, before), MAX_PAIRS_AGAIN)?;
            let kept =
                strips.iter().enumerate().filter(|(number, _)| !set.contains(number)).map(|(_, strip)| strip.clone());
            Some(kept.chain(laid).collect::<Vec<Strip>>())
        });
        let Some(shorter) = shorter else { return };
        found.offer(trim(join(shorter), &list.demand()));
        if found.is_done() || left == 0 {
            return;
        }
    }
}

/// One strip of each that is cut from the fabric and holds few pieces, two where there are more.
fn one_by_one(strips: &[Strip]) -> Vec<Strip> {
    let mut apart = Vec::new();
    for strip in strips {
        let single = i64::min(strip.times, 2);
        apart.extend((0..single).map(|_| Strip { times: 1, ..strip.clone() }));
        if strip.times > single {
            apart.push(Strip { times: strip.times - single, ..strip.clone() });
        }
    }
    // What must not be laid again stands last.
    apart.sort_by_key(|strip| (strip.from != From::Fabric || strip.times > 1, strip.pieces_in_all()));
    apart
}

/// Pairs and triples of the first few strips.
fn sets(strips: usize) -> Vec<Vec<usize>> {
    let first = strips.min(8);
    let mut sets = Vec::new();
    for one in 0..first {
        for other in one + 1..first {
            sets.push(vec![one, other]);
            sets.extend((other + 1..first).map(|third| vec![one, other, third]));
        }
    }
    sets
}

fn join(mut strips: Vec<Strip>) -> Vec<Strip> {
    strips.sort();
    let mut joined: Vec<Strip> = Vec::new();
    for strip in strips {
        match joined.last_mut() {
            Some(last) if (last.from, last.height, &last.grids) == (strip.from, strip.height, &strip.grids) => {
                last.times += strip.times;
            }
            _ => joined.push(strip),
        }
    }
    joined
}
