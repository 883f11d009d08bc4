//! What is listed in the text, in which order, and how lines that are too long are cut.

use serde_json::Value;
use unicode_width::UnicodeWidthStr;

use super::support::{GOOD, Ran, folder_with, run};

/// A right quilt but for its layout, which has one row of blocks too many: eight pieces are short for it.
fn one_wrong_number() -> String {
    let names = ["a", "b", "c", "d", "e", "f", "g", "h"];
    let each = |line: &dyn Fn(&str, String) -> String| {
        names.iter().map(|name| line(name, name.to_uppercase())).collect::<String>()
    };
    let pieces =
        each(&|_, piece| format!("      - {{ piece: {piece}, size: 6 1/2 x 3 1/2, pieces: {{ lap: 35 }} }}\n"));
    let units =
        each(&|unit, piece| format!("  {unit}: {{ make: patch, finished: 6 x 3, cut: {{ patch: {piece} }} }}\n"));
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n  lap: {{ finished: 60 x 84 }}\n\
         fabrics:\n  ink:\n    requires: {{ lap: 4 5/8 yd }}\n    cut:\n{pieces}units:\n{units}\
         blocks:\n  star: {{ finished: 12, rows: [[a, b], [c, d], [e, f], [g, h]] }}\n\
         layout:\n  lap: {{ across: 5, down: 8, blocks: star }}\n"
    )
}

fn heads(ran: &Ran) -> Vec<&str> {
    let starts = |line: &&str| ["error: ", "query: ", "note: "].iter().any(|level| line.starts_with(level));
    ran.out.lines().filter(starts).collect()
}

fn check(text: &str, words: &[&str]) -> Ran {
    let (folder, _) = folder_with("x.pattern.yaml", text);
    run(folder.path(), &[&["check"], words].concat())
}

#[test]
fn what_follows_from_a_finding_is_counted_below_it() {
    let text = one_wrong_number();
    let folded = check(&text, &[]);
    assert_eq!(folded.status, Some(1));
    let heads_of = heads(&folded);
    let errors: Vec<&&str> = heads_of.iter().filter(|head| head.starts_with("error")).collect();
    assert_eq!(errors.len(), 1, "{}", folded.out);
    assert!(errors[0].starts_with("error: finished-size-wrong (lap"), "{}", folded.out);
    assert!(folded.out.contains("And 8 numbers that depend on it; --all shows them."), "{}", folded.out);
    assert!(folded.out.contains("7 here would make it right"), "{}", folded.out);
    assert!(folded.out.contains("9 errors"), "{}", folded.out);
    assert!(folded.out.trim_end().ends_with("8 of them follow from another"), "{}", folded.out);
    let all = check(&text, &["--all"]);
    assert_eq!(heads(&all).iter().filter(|head| head.starts_with("error")).count(), 9, "{}", all.out);
    assert!(!all.out.contains("--all shows"), "{}", all.out);
    assert!(all.out.contains("it follows from this: finished-size-wrong"), "{}", all.out);
    assert_eq!(all.out.lines().last(), folded.out.lines().last());
    assert_eq!(all.status, Some(1));
}

#[test]
fn json_and_sarif_tell_every_finding_with_its_cause() {
    let text = one_wrong_number();
    let json = check(&text, &["--format", "json"]).json();
    let findings = json["findings"].as_array().unwrap();
    let errors: Vec<&Value> = findings.iter().filter(|finding| finding["level"] == "error").collect();
    assert_eq!(errors.len(), 9);
    assert_eq!((&json["summary"]["errors"], &json["summary"]["following"]), (&9.into(), &8.into()));
    let cause = errors.iter().find(|finding| finding["rule"] == "finished-size-wrong").unwrap();
    assert!(cause.get("caused_by").is_none());
    for finding in errors.iter().filter(|finding| finding["rule"] == "pieces-short") {
        assert_eq!(finding["caused_by"]["rule"], "finished-size-wrong");
        assert_eq!(finding["caused_by"]["size"], "lap");
        assert_eq!(finding["caused_by"]["at"], cause["at"]);
        let related = finding["related"].as_array().unwrap();
        assert!(related.iter().any(|related| related["at"] == cause["at"]), "{finding}");
    }
    let places: Vec<u64> = findings.iter().map(|finding| finding["at"]["byte"].as_u64().unwrap()).collect();
    assert!(places.is_sorted(), "by place: {places:?}");
    let sarif = check(&text, &["--format", "sarif"]).json();
    let results = sarif["runs"][0]["results"].as_array().unwrap();
    let byte = cause["at"]["byte"].as_u64().unwrap();
    let short = results.iter().filter(|result| result["ruleId"] == "pieces-short");
    let with_cause = short.filter(|result| {
        let related = result["relatedLocations"].as_array().unwrap().iter();
        related.map(|at| at["physicalLocation"]["region"]["byteOffset"].as_u64()).any(|at| at == Some(byte))
    });
    assert_eq!(with_cause.count(), 8);
}

/// So many sizes, each with a strip too few, and far more binding fabric than it needs.
fn an_error_and_a_note_for_each(sizes: usize) -> String {
    let each = |line: &dyn Fn(usize) -> String| (0..sizes).map(line).collect::<String>();
    format!(
        "pattern: Test Harbour\nmeasure: inch\nsizes:\n{}binding:\n  strip_width: 2 1/2\n  extra_length: 10\n  \
         requires:\n{}",
        each(&|size| format!("  s{size}: {{ finished: 50 x 60 }}\n")),
        each(&|size| format!("    s{size}: {{ strips: 5, fabric: 2 yd }}\n")),
    )
}

#[test]
fn of_many_findings_a_hundred_are_shown_whole_the_gravest_first() {
    let (fifty, sixty) = (an_error_and_a_note_for_each(50), an_error_and_a_note_for_each(60));
    let whole = check(&fifty, &[]);
    assert_eq!((heads(&whole).len(), whole.out.matches("  help: ").count()), (100, 100), "{}", whole.out);
    assert!(!whole.out.contains("--all shows"), "{}", whole.out);
    let many = check(&sixty, &[]);
    let said = |told: &Ran, words: &str| told.out.matches(words).count();
    assert_eq!((heads(&many).len(), said(&many, "  help: ")), (120, 100), "{}", many.out);
    assert_eq!(said(&many, "5 strips stated; 8 needed"), 60, "each says what is wrong: {}", many.out);
    let after_first_error = &many.out[many.out.find("error: ").unwrap()..];
    assert_eq!(after_first_error.matches("  help: ").count(), 60, "every error is shown whole: {}", many.out);
    let left_out = "x.pattern.yaml: 120 findings; the lines and working of 20 are left out, --all shows them.\n";
    assert!(many.out.contains(left_out), "{}", many.out);
    let all = check(&sixty, &["--all"]);
    assert_eq!((heads(&all).len(), said(&all, "  help: ")), (120, 120));
    assert!(!all.out.contains("--all shows"), "{}", all.out);
}

/// A note at the end of the text, a query in the middle and an error before both.
fn three_levels() -> String {
    GOOD.replace("tails: 10", "tails: 5")
        .replace("    throw: { strips: 9, fabric: 3/4 yd }\n", "")
        .replace("fabric: 7/8 yd", "fabric: 2 yd")
}

#[test]
fn errors_come_last_unless_the_order_of_places_is_asked_for() {
    let text = three_levels();
    let level = |head: &&str| head.split(':').next().unwrap_or_default().to_string();
    let line = |head: &&str| head.rsplit(':').nth(1).and_then(|line| line.parse::<u32>().ok()).unwrap();
    let by_level = check(&text, &[]);
    let levels: Vec<String> = heads(&by_level).iter().map(level).collect();
    assert_eq!(levels.first().map(String::as_str), Some("note"), "{}", by_level.out);
    assert_eq!(levels.last().map(String::as_str), Some("error"), "{}", by_level.out);
    let ranks: Vec<usize> = levels
        .iter()
        .map(|level| ["note", "query", "error"].iter().position(|known| known == level).unwrap())
        .collect();
    assert!(ranks.is_sorted(), "{levels:?}");
    let by_place = check(&text, &["--order", "place"]);
    let lines: Vec<u32> = heads(&by_place).iter().map(line).collect();
    assert!(lines.is_sorted() && lines.len() == levels.len(), "{lines:?}");
    assert_eq!(heads(&check(&text, &["--order", "level"])), heads(&by_level));
}

/// With several files the errors of all of them come last.
#[test]
fn errors_of_every_file_come_last() {
    let (folder, _) = folder_with("a.pattern.yaml", three_levels());
    super::support::write(&folder.path().join("b.pattern.yaml"), three_levels());
    let ran = run(folder.path(), &["check"]);
    let first = heads(&ran).iter().position(|head| head.starts_with("error")).unwrap();
    assert!(heads(&ran)[first..].iter().all(|head| head.starts_with("error")), "{}", ran.out);
    assert!(heads(&ran)[first..].iter().any(|head| head.contains("a.pattern.yaml")), "{}", ran.out);
}

/// A long line is cut round what is pointed at, and the mark below it stands under that.
#[test]
fn a_long_line_is_cut_round_the_place() {
    let names: Vec<String> = (0..40).map(|size| format!("s{size}")).collect();
    let sizes: Vec<String> = names.iter().map(|name| format!("{name}: {{ finished: 40 x 50 }}")).collect();
    let requires: Vec<String> = names.iter().map(|name| format!("{name}: {{ strips: 6 }}")).collect();
    for wrong in [0, 1, 20, 38, 39] {
        for letter in ["s", "größe", "掛"] {
            let mut requires = requires.clone();
            requires[wrong] = requires[wrong].replace('6', "5");
            let text = format!(
                "pattern: Test Harbour\nmeasure: inch\nsizes: {{ {} }}\n\
                 binding: {{ strip_width: 2 1/2, extra_length: 10, requires: {{ {} }} }}\n",
                sizes.join(", "),
                requires.join(", "),
            )
            .replace(" s", &format!(" {letter}"))
            .replace(&format!("{letter}trip"), "strip")
            .replace(&format!("{letter}ize"), "size");
            let ran = check(&text, &[]);
            assert_eq!(heads(&ran).len(), 1, "{}", ran.out);
            let lines: Vec<&str> = ran.out.lines().collect();
            let shown = lines.iter().position(|line| line.starts_with(" 4 │ ")).unwrap();
            assert!(lines[shown].width() <= 100, "{} columns: {}", lines[shown].width(), lines[shown]);
            assert!(lines[shown].contains("..."), "{}", lines[shown]);
            let before = lines[shown + 1].split('┬').next().unwrap();
            // One digit is pointed at, so that nothing but the mark itself is under it.
            let pointed = columns_before(lines[shown], before.width());
            assert!(pointed.starts_with("5 }"), "{pointed:?} in\n{}", ran.out);
        }
    }
}

/// What stands behind so many columns of a line.
fn columns_before(line: &str, columns: usize) -> &str {
    let at = line.char_indices().map(|(at, _)| at).find(|at| line[..*at].width() == columns);
    at.map_or("", |at| &line[at..])
}
