//! Numbers of a text that are none of a manuscript's: neither matched nor blamed.

use std::path::PathBuf;

use sparestrip::manuscript::Source;
use sparestrip::rule_book::Settings;
use sparestrip::text::{State, TextFile, match_text};

use super::{example, matched_by};

/// Sentences without a number that a manuscript states.
const TRAPS: &[&str] = &[
    "See step 3 before you go on.",
    "Steps 4 and 5 are repeated.",
    "Refer to Figure 12.",
    "Repeat steps 2-6 for the other half.",
    "Diagram 7 shows the seams.",
    "(See page 14, photo 3.)",
    "Row 2 begins with a dark square.",
    "Copyright 2026 by Ada Finch.",
    "First printed in March 2019.",
    "This pattern was written on 12 May 2024.",
    "The pattern costs $12.50.",
    "A yard was about 9 euros then.",
    "ISBN 978-1-4028-9462-6",
    "Write to 14 Skerry Lane, Ostwick.",
    "Use a size 80/12 needle and 50 wt thread.",
    "A 90/14 needle is best for thick layers.",
    "Set your machine to a stitch length of 2.0.",
    "Sew with 12 stitches per inch.",
    "A 2.5 mm stitch holds well.",
    "Draw the line at 45 degrees.",
    "Use the 60° line of your ruler.",
    "You need a 6 1/2\" x 24\" ruler and an 18\" x 24\" mat.",
    "A 45 mm rotary cutter is handy.",
    "The bolts are 44/45\" wide.",
    "Use 100% cotton; it may shrink by 3 %.",
    "Sew the four-patch units with care.",
    "A Nine Patch is the simplest of blocks.",
    "Sew the half-square triangles two at a time.",
    "Take one of them and turn it.",
    "Quilt lines 8 to 10 in apart.",
    "Quilt every 4 inches.",
    "Press for 10 seconds with a hot iron.",
    "It takes 3 hours to sew and 2 days to quilt.",
    "Keep out of the reach of children under 3 years.",
    "Call 555-014-2277 for help.",
    "Visit www.example.com/patterns/4417 for colors.",
    "Skill level: 2 of 5.",
    "Edition 2, version 1.4",
    "Photo 6: the finished row.",
    "The first 2 rows are the hardest.",
    "Lesson 4: pressing",
    "Fabric 3 is the darkest.",
    "Thread: 40 wt or 50 wt.",
    "Work from the center out, in 3 steps.",
    "The iron is at 180 degrees.",
    "Week 5",
    "Page 3 of 12",
    "Sew at a speed of 800 stitches a minute.",
    "Wash at 30 °C.",
    "Turn the page 90 degrees.",
];

#[test]
fn what_is_no_requirement_is_neither_matched_nor_blamed() {
    let mut wrong = Vec::new();
    for manuscript in ["tide-pools", "cormorant-stair", "curlew-flat", "tern-colony", "plover-strand"] {
        let (mut notes, mut lines) = (String::new(), String::new());
        for trap in TRAPS {
            notes.push_str(&format!("{trap}\n\n"));
            lines.push_str(&format!("- {trap}\n"));
        }
        let text = format!("# Notes\n\n{notes}## Cutting\n\n{lines}");
        for number in matched_by(manuscript, "traps.md", &text).numbers {
            if !matches!(number.state, State::NotRequired(_) | State::Unclear(_)) {
                let line = text[..number.at.start].matches('\n').count();
                let line = text.lines().nth(line).unwrap_or_default();
                wrong.push(format!(
                    "{manuscript}: {line}: {} is {:?} {:?}",
                    number.quoted, number.state, number.matched
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn the_numbers_of_another_pattern_are_hardly_blamed() {
    // A text that is checked against a manuscript with other names: what differs must be named there too.
    let text = include_str!("printed/gull-mat.md");
    let source = Source::from_text(PathBuf::from("other.pattern.yaml"), example("curlew-flat"));
    let file = TextFile::new(PathBuf::from("gull-mat.md"), text.as_bytes().to_vec());
    let matched = match_text(&file, &source, &Settings::default());
    assert!(matched.share.differ <= 4, "{:?}", matched.share);
}
