//! Backing and batting: random manuscripts of each kind, against every arrangement of panels tried in
//! turn.

use std::collections::BTreeSet;

use super::{MANUSCRIPTS, checked, corrections_mend, found, rng};
use crate::independent::amounts::{INCH, Mark, Stated};
use crate::independent::backing_generate::{a_package, cut_batting, exact};
use crate::independent::backing_manuscript::Manuscript;
use crate::independent::backing_verdict::verdict;
use crate::independent::generate::amount_in;
use crate::independent::verdict::Expected;
use crate::support::rng::Rng;

fn agree(manuscript: &Manuscript, index: u64) -> (String, sparestrip::check::Outcome, Vec<Expected>) {
    let (text, places) = manuscript.text();
    let outcome = checked(&text);
    let expected = verdict(manuscript, &places);
    assert_eq!(found(&outcome, &expected), expected, "manuscript {index} (found, then expected):\n{text}");
    (text, outcome, expected)
}

#[test]
fn an_exact_backing_and_batting_are_never_blamed() {
    let (mut fabrics, mut battings) = (0, 0);
    for index in 0..MANUSCRIPTS {
        let manuscript = exact(&mut rng(11, index));
        let (text, outcome, _) = agree(&manuscript, index);
        assert!(outcome.findings.is_empty(), "manuscript {index}:\n{text}");
        fabrics += manuscript.sizes.iter().filter(|size| size.fabric.is_some()).count();
        battings += manuscript.sizes.iter().filter(|size| size.batting.is_some()).count();
    }
    let most = usize::try_from(MANUSCRIPTS).unwrap();
    assert!(fabrics > most && battings > most / 2, "{fabrics} fabrics and {battings} battings were looked at");
}

/// Lowers one number, and says which rule must tell it and where its place begins and ends in the text.
fn lower(rng: &mut Rng, manuscript: &mut Manuscript) -> Option<(&'static str, usize)> {
    let index = usize::try_from(rng.below(i64::try_from(manuscript.sizes.len()).unwrap())).unwrap();
    let size = &manuscript.sizes[index];
    let needed = manuscript.laid(size, manuscript.sheet(size)).fabric;
    let less = |rng: &mut Rng, mark: Mark, metric: bool| {
        let mark = if mark == Mark::Yard { Mark::Inch } else { mark };
        let grid = mark.grid();
        let value = rng.between(1, (needed - 1) / grid) * grid;
        amount_in(rng, value, mark, metric)
    };
    let (fixed, metric) = (manuscript.way(size).is_some(), manuscript.metric);
    let (panels, needs) = (size.panels, manuscript.batting(size));
    let size = &mut manuscript.sizes[index];
    match rng.below(3) {
        0 => {
            let (one, other) = size.fabric.as_mut()?;
            *one = less(rng, one.mark, metric);
            Some((if other.is_some() { "pair-disagrees" } else { "backing-short" }, index))
        }
        1 => {
            let panels = panels.filter(|panels| *panels > 1 && fixed)?;
            size.panels = Some(rng.between(0, panels - 1));
            Some(("backing-panels", index))
        }
        _ => {
            size.batting.as_ref()?;
            let by = Mark::bare(metric).grid() * rng.between(1, 1000);
            let lowered = if rng.one_in(2) { (needs.0 - by, needs.1) } else { (needs.0, needs.1 - by) };
            size.batting = Some(cut_batting(rng, lowered, metric));
            Some(("batting-short", index))
        }
    }
}

#[test]
fn one_number_too_low_is_caught_at_its_place() {
    let (mut rules, mut told) = (BTreeSet::new(), 0);
    for index in 0..MANUSCRIPTS {
        let rng = &mut rng(12, index);
        let mut manuscript = exact(rng);
        let Some((rule, lowered)) = lower(rng, &mut manuscript) else { continue };
        let (text, outcome, _) = agree(&manuscript, index);
        let (_, places) = manuscript.text();
        let at = match rule {
            "pair-disagrees" => &places[lowered].halves[0],
            "backing-short" => &places[lowered].fabric,
            "backing-panels" => &places[lowered].panels,
            _ => &places[lowered].batting,
        };
        let blamed: Vec<_> = outcome
            .findings
            .iter()
            .map(|finding| (finding.rule, finding.size.as_deref(), finding.at.at.start..finding.at.at.end))
            .collect();
        assert_eq!(blamed, [(rule, Some(manuscript.sizes[lowered].name), at.clone())], "manuscript {index}:\n{text}");
        told += 1;
        rules.insert(rule);
        if index % 5 == 0 {
            corrections_mend(&text, &outcome, index);
        }
    }
    assert!(rules.len() == 4 && told > MANUSCRIPTS / 3, "{told} were lowered, and told by {rules:?}");
}

/// Changes about half of the numbers.
fn anything(rng: &mut Rng) -> Manuscript {
    let mut manuscript = exact(rng);
    let metric = manuscript.metric;
    if rng.one_in(3) {
        let (mark, grid) = (Mark::bare(metric), Mark::bare(metric).grid());
        let value = rng.between(0, 8 * INCH / grid) * grid;
        manuscript.batting_overhang = Some(Stated::new(rng, value, mark, metric));
    }
    for index in 0..manuscript.sizes.len() {
        let needs = manuscript.batting(&manuscript.sizes[index]);
        let size = &mut manuscript.sizes[index];
        if let Some((one, other)) = &mut size.fabric {
            for half in std::iter::once(one).chain(other) {
                let mark = if half.mark == Mark::Yard { Mark::Inch } else { half.mark };
                if rng.one_in(2) {
                    let share = rng.between(6, 15);
                    let value = (half.value * share / 10 / mark.grid()).max(1) * mark.grid();
                    *half = amount_in(rng, value, mark, metric);
                }
            }
        }
        if let Some(panels) = size.panels.filter(|_| rng.one_in(3)) {
            size.panels = Some((panels + rng.between(-1, 1)).max(0));
        }
        if size.batting.is_some() && rng.one_in(2) {
            let by = |rng: &mut Rng| rng.between(-3, 12) * INCH;
            let grid = Mark::bare(metric).grid();
            let sheet = ((needs.0 + by(rng)) / grid * grid, (needs.1 + by(rng)) / grid * grid);
            size.batting = Some(if rng.one_in(4) { a_package(rng) } else { cut_batting(rng, sheet, metric) });
        }
    }
    manuscript
}

#[test]
fn on_any_backing_both_computations_say_the_same() {
    let mut rules = BTreeSet::new();
    for index in 0..MANUSCRIPTS {
        let manuscript = anything(&mut rng(13, index));
        let (text, outcome, expected) = agree(&manuscript, index);
        rules.extend(expected.iter().map(|told| told.rule));
        if index % 10 == 0 {
            corrections_mend(&text, &outcome, index);
        }
    }
    let all = [
        "backing-generous",
        "backing-panels",
        "backing-short",
        "backing-smaller-than-batting",
        "batting-short",
        "pair-disagrees",
        "sizes-out-of-order",
    ];
    assert_eq!(rules, BTreeSet::from(all));
}
