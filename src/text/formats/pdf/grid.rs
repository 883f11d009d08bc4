//! Tables that are drawn with lines round their cells.

use super::fixed::ONE;
use super::lines::{Lines, Rule, Upright};
use super::rows::Segment;
use super::table::Table;

/// How far lines may be apart that meet, or that are one.
const SLACK: i64 = 3 * ONE;

/// The lines of one table.
pub(super) struct Grid {
    /// Where its upright lines stand, from left to right.
    xs: Vec<i64>,
    /// Where its level lines stand, from the top down.
    ys: Vec<i64>,
}

/// The grids among the lines of a page.
pub(super) fn grids(lines: &Lines) -> Vec<Grid> {
    let mut group_of_rule: Vec<Option<usize>> = vec![None; lines.rules.len()];
    let mut group_of_wall: Vec<Option<usize>> = vec![None; lines.walls.len()];
    let mut groups = 0;
    for first in 0..lines.walls.len() {
        if group_of_wall[first].is_some() {
            continue;
        }
        group_of_wall[first] = Some(groups);
        let mut walls = vec![first];
        while let Some(wall) = walls.pop() {
            for (rule, group) in group_of_rule.iter_mut().enumerate() {
                if group.is_some() || !meet(lines.rules[rule], lines.walls[wall]) {
                    continue;
                }
                *group = Some(groups);
                for (other, group) in group_of_wall.iter_mut().enumerate() {
                    if group.is_none() && meet(lines.rules[rule], lines.walls[other]) {
                        *group = Some(groups);
                        walls.push(other);
                    }
                }
            }
        }
        groups += 1;
    }
    let of = |group: usize| {
        let walls =
            || lines.walls.iter().zip(&group_of_wall).filter(|(_, own)| **own == Some(group)).map(|(wall, _)| wall);
        let rules =
            lines.rules.iter().zip(&group_of_rule).filter(|(_, own)| **own == Some(group)).map(|(rule, _)| rule.y);
        // A row that a page break parts has no line there, but its upright lines reach so far.
        let ends = walls().map(|wall| wall.y0).min().into_iter().chain(walls().map(|wall| wall.y1).max());
        let mut ys = distinct(rules.chain(ends).collect());
        ys.reverse();
        Grid { xs: distinct(walls().map(|wall| wall.x).collect()), ys }
    };
    (0..groups).map(of).filter(|grid| grid.xs.len() >= 3 && grid.ys.len() >= 3).collect()
}

const fn meet(rule: Rule, wall: Upright) -> bool {
    rule.x0 - SLACK <= wall.x && wall.x <= rule.x1 + SLACK && wall.y0 - SLACK <= rule.y && rule.y <= wall.y1 + SLACK
}

fn distinct(mut places: Vec<i64>) -> Vec<i64> {
    places.sort_unstable();
    places.dedup_by(|next, before| *next - *before <= SLACK);
    places
}

impl Grid {
    /// How high its upper edge is.
    pub(super) fn top(&self) -> i64 {
        self.ys.first().copied().unwrap_or(0)
    }

    /// Takes the segments that stand in it as a table; gives those that do not.
    pub(super) fn take(&self, segments: Vec<Segment>) -> (Option<Table>, Vec<Segment>) {
        let (inner, outer): (Vec<Segment>, Vec<Segment>) =
            segments.into_iter().partition(|segment| self.cell_of(segment).is_some());
        let mut rows = vec![vec![Vec::<Segment>::new(); self.xs.len() - 1]; self.ys.len() - 1];
        for segment in inner {
            let Some((row, column)) = self.cell_of(&segment) else { continue };
            let cell: &mut Vec<Segment> = &mut rows[row][column];
            match cell.last_mut() {
                Some(last) if (last.base - segment.base).abs() <= segment.size / 3 => last.join(segment),
                _ => cell.push(segment),
            }
        }
        rows.retain(|row| row.iter().any(|cell| !cell.is_empty()));
        let gutters = self.xs[1..self.xs.len() - 1].iter().map(|x| (*x, *x)).collect();
        ((!rows.is_empty()).then_some(Table { rows, gutters }), outer)
    }

    fn cell_of(&self, segment: &Segment) -> Option<(usize, usize)> {
        let x = segment.x0 + segment.size / 4;
        let y = segment.base + segment.size / 4;
        let column =
            self.xs.partition_point(|line| *line <= x).checked_sub(1).filter(|column| column + 1 < self.xs.len())?;
        let row = self.ys.partition_point(|line| *line >= y).checked_sub(1).filter(|row| row + 1 < self.ys.len())?;
        Some((row, column))
    }
}
