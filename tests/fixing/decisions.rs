//! What is left to an editor, and what she is told of it.

use std::path::Path;

use super::support::fixed::holds;
use super::support::{GOOD, folder_with, run, write};
use super::{NAME, faulty, fix, right, text_of};

/// A number that is too high is no error of the reader's: nothing is lowered.
#[test]
fn no_number_is_lowered() {
    let text = GOOD
        .replace("  tails: 10\n", "  extra_length: 10\n")
        .replace("crib:  { finished: 36 x 48 }", "crib:  { finished: 12 x 14 }");
    let fixed = holds(&text);
    assert_eq!(fixed.source.text, text);
    let (folder, _) = folder_with(NAME, &text);
    let ran = fix(folder.path(), &[NAME]);
    assert_eq!(ran.status, Some(1));
    assert!(ran.out.contains("opening-too-long (crib)") && ran.out.contains("it would lower a number"), "{}", ran.out);
    assert!(ran.out.contains("  choice, line 22: 12 -> 8\n"), "{}", ran.out);
}

/// The spare strip is missing, and there is more fabric than it takes: that stays as it is.
#[test]
fn of_two_numbers_only_the_low_one_is_raised() {
    let fixed = holds(&GOOD.replace("strips: 9, fabric: 3/4 yd", "strips: 7, fabric: 3/4 yd"));
    assert_eq!(fixed.source.text, GOOD.replace("strips: 9, fabric: 3/4 yd", "strips: 8, fabric: 3/4 yd"));
}

/// The finished size or the layout is wrong: the program cannot know which.
#[test]
fn what_can_be_right_at_several_places_is_left_with_the_choices() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: { finished: 13 x 12 }\n\
                units: { u: { make: patch, finished: 12 } }\nblocks: { b: { finished: 12, rows: [[u]] } }\n\
                layout:\n  lap: { across: 1, down: 1, blocks: b }\n";
    let (folder, file) = folder_with(NAME, text);
    let ran = fix(folder.path(), &[NAME]);
    assert_eq!((ran.status, text_of(&file).as_str()), (Some(1), text));
    assert!(ran.out.contains("left to you (error, the design or the method may be meant otherwise)"), "{}", ran.out);
    assert!(ran.out.contains("  choice, line 4: 13 x 12 -> 12 x 12"), "{}", ran.out);
    assert!(ran.out.contains("  or change the layout, the blocks or the borders instead"), "{}", ran.out);
    assert!(ran.out.ends_with("1 manuscript: nothing to fix, 1 left to you\n"), "{}", ran.out);
}

#[test]
fn a_question_is_left_and_counts_as_no_error() {
    let (folder, file) = folder_with(NAME, GOOD.replace("    throw: { strips: 9, fabric: 3/4 yd }\n", ""));
    let before = text_of(&file);
    let ran = fix(folder.path(), &[NAME]);
    assert_eq!((ran.status, text_of(&file)), (Some(0), before));
    assert!(ran.out.contains("left to you (a question for the writer): size-not-stated (throw"), "{}", ran.out);
}

#[test]
fn an_accepted_finding_is_left_as_it_is() {
    let accepted = "accepted:\n  - { rule: spare-strip, size: queen, stated: 11, because: the kit packs one more }\n";
    let text = GOOD.replace("strips: 12", "strips: 11") + accepted;
    let (folder, file) = folder_with(NAME, &text);
    let ran = fix(folder.path(), &[NAME]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(0), "1 manuscript: nothing to fix\n"));
    assert_eq!(text_of(&file), text);
}

/// A slip in the words of an acceptance, or one in each of two of them: whether it is to silence a finding is for an
/// editor to say.
#[test]
fn a_correction_that_accepts_a_finding_is_left() {
    let said = "left to you (error, it decides what is accepted: that is for an editor)";
    for (rule, size, changes) in [("psare-strip", "queen", 0), ("psare-strip", "quen", 1)] {
        let accepted =
            format!("accepted:\n  - {{ rule: {rule}, size: {size}, stated: 11, because: the kit has more }}\n");
        let text = GOOD.replace("strips: 12", "strips: 11") + &accepted;
        let fixed = holds(&text);
        assert_eq!(fixed.changes.len(), changes, "{:?}", fixed.changes);
        let (folder, _) = folder_with(NAME, &text);
        let ran = fix(folder.path(), &[NAME]);
        assert!(ran.status == Some(1) && ran.out.contains(said), "{}", ran.out);
    }
}

/// One line for each change: where, what it is about, the old text and the new, the rule and its words.
#[test]
fn each_change_is_told_on_a_line() {
    let (folder, file) = folder_with(NAME, faulty());
    let ran = fix(folder.path(), &[NAME]);
    let lines: Vec<&str> = ran.out.lines().collect();
    assert_eq!(lines.len(), 3, "{}", ran.out);
    assert!(
        lines[0]
            .starts_with("lanterns.pattern.yaml:24:22: fixed (crib): 4 -> 6 (binding-short: 4 strips stated; 6 needed"),
        "{}",
        lines[0]
    );
    assert!(
        lines[1].starts_with("lanterns.pattern.yaml:26:34: fixed (queen): 5/8 yd -> 7/8 yd (binding-fabric-short: ")
    );
    assert_eq!(lines[2], "1 manuscript: 2 fixed");
    assert_eq!((ran.status, text_of(&file)), (Some(0), right()));
    assert_eq!(ran.err, "sparestrip: wrote lanterns.pattern.yaml\n");
    let again = fix(folder.path(), &[NAME]);
    assert_eq!((again.status, again.out.as_str()), (Some(0), "1 manuscript: nothing to fix\n"));
}

/// A sign-off that was true of the numbers is not true of the new ones.
#[test]
fn a_sign_off_that_no_longer_holds_is_told() {
    let (folder, file) = folder_with(NAME, GOOD.replace("strips: 12", "strips: 11"));
    let rules = folder.path().join("house-rules.yaml");
    write(&rules, "levels: { spare-strip: query }\n");
    assert_eq!(run(folder.path(), &["sign", NAME, "--by", "Ada Finch"]).status, Some(0));
    let told = "lanterns.pattern.yaml: the sign-off by Ada Finch no longer holds";
    assert!(!fix(folder.path(), &[NAME]).out.contains("sign-off"), "nothing was changed");
    // From now on it is an error here.
    std::fs::remove_file(&rules).unwrap();
    let ran = fix(folder.path(), &["--diff", NAME]);
    assert!(ran.err.contains(told), "{}", ran.err);
    let ran = fix(folder.path(), &[NAME]);
    assert_eq!(ran.status, Some(0), "{}", ran.out);
    assert!(ran.out.contains(told), "{}", ran.out);
    assert_eq!(text_of(&file), GOOD);
    let ran = run(folder.path(), &["check", "--signed", NAME]);
    assert!(ran.out.contains("changed-since-signed"), "{}", ran.out);
    assert!(!fix(folder.path(), &[NAME]).out.contains("sign-off"), "it is told once");
}

/// It holds no longer where another text is named than those that were signed, and so a correction ends nothing.
#[test]
fn a_sign_off_of_other_texts_is_not_told_as_ended() {
    let faulty = GOOD.replace("strips: 12", "strips: 11");
    let naming = |text: &str| format!("{faulty}texts: [{text}]\n");
    for (signed, now) in
        [(faulty.clone(), naming("a.md")), (naming("a.md"), faulty.clone()), (naming("a.md"), naming("b.md"))]
    {
        let (folder, file) = folder_with(NAME, signed);
        let rules = folder.path().join("house-rules.yaml");
        write(&rules, "levels: { spare-strip: query, text-silent: off }\n");
        for name in ["a.md", "b.md"] {
            write(&folder.path().join(name), "# Lanterns\n\nThe throw quilt finishes 54\" x 72\".\n");
        }
        assert_eq!(run(folder.path(), &["sign", NAME, "--by", "Ada Finch"]).status, Some(0));
        std::fs::remove_file(&rules).unwrap();
        write(&file, now);
        let ran = fix(folder.path(), &[NAME]);
        assert!(ran.out.contains("1 fixed") && !ran.out.contains("sign-off"), "{}", ran.out);
    }
}

#[test]
fn under_house_rules_that_cannot_be_relied_on_nothing_is_changed() {
    let (folder, file) = folder_with(NAME, faulty());
    for rules in ["values: { spare_strips: many }\n", "values: [\n", "\u{0}"] {
        write(&folder.path().join("house-rules.yaml"), rules);
        let ran = fix(folder.path(), &[NAME]);
        assert_eq!((ran.status, text_of(&file)), (Some(2), faulty()), "{rules}");
        assert!(ran.err.contains("house-rules.yaml: there are errors in it"), "{}", ran.err);
    }
}

/// Of two numbers of one name nobody knows which is meant; what has no number is no reason to wait.
#[test]
fn where_something_is_stated_twice_nothing_is_corrected_that_may_depend_on_it() {
    let twice = faulty().replace("  opening: 12\n", "  opening: 12\n  opening: 8\n");
    let fixed = holds(&twice);
    assert_eq!(fixed.source.text, twice);
    let (folder, _) = folder_with(NAME, &twice);
    let ran = fix(folder.path(), &[NAME]);
    assert!(ran.out.contains("something in the file is not understood"), "{}", ran.out);
    let edition = faulty().replace("edition: 1\n", "edition: 1\nedition: 2\n");
    assert_eq!(holds(&edition).changes.len(), 2);
}

/// Two pieces more take more fabric: both are corrected, or neither.
#[test]
fn what_needs_another_correction_is_made_with_it() {
    let example = Path::new(env!("CARGO_MANIFEST_DIR")).join("example-patterns/with-faults/sea-holly.pattern.yaml");
    // Without the size that the layout does not make, for which all numbers of it would wait.
    let text = text_of(&example).replace("finished: 74 x 100", "finished: 74 x 102");
    let (folder, file) = folder_with(NAME, &text);
    let ran = fix(folder.path(), &[NAME]);
    let lines: Vec<&str> = ran.out.lines().collect();
    let at = lines.iter().position(|line| line.contains(":80:17: fixed (twin, fabric sky, piece B): 68 -> 70"));
    assert!(at.is_some_and(|at| lines[at - 1].contains("and with it (twin, fabric sky): ")), "{}", ran.out);
    holds(&text_of(&example));
    assert!(text_of(&file).contains("          twin: 70               # FAULT"), "{}", text_of(&file));
}

/// A correction that would bring a finding that nothing puts right is not made, and shown.
#[test]
fn what_would_bring_another_finding_is_shown_as_a_choice() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: { finished: 48 x 60 }\n  twin: { finished: 66 x 90 }\n\
                binding:\n  strip_width: 2 1/2\n  tails: 10\n  requires:\n    lap: { strips: 7, fabric: 7/8 yd }\n    \
                twin: { strips: 10, fabric: 1/2 yd }\n";
    let (folder, _) = folder_with(NAME, text);
    let ran = fix(folder.path(), &["--diff", NAME]);
    let told =
        "it would bring another finding: sizes-out-of-order (twin, binding fabric)): binding-fabric-short (twin)";
    let at = ran.err.find(told).unwrap_or_else(|| panic!("{}", ran.err));
    assert!(ran.err[at..].lines().nth(1).is_some_and(|line| line.ends_with(": 1/2 yd -> 3/4 yd")), "{}", ran.err);
}

/// The second becomes possible by the first: the design's number, then what follows from it.
#[test]
fn what_follows_from_a_finding_that_is_left_is_left_too() {
    let text = "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: { finished: 54 x 60 }\n\
                units: { u: { make: patch, finished: 12 } }\nblocks: { b: { finished: 12, rows: [[u]] } }\n\
                layout:\n  lap: { across: 5, down: 5, blocks: b }\n\
                batting:\n  requires:\n    lap: 62 x 68\n";
    let fixed = holds(text);
    assert_eq!(fixed.source.text, text, "{:#?}", fixed.changes);
}
