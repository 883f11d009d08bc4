//! `sparestrip signed`: who signed what, when, under which conditions, and what changed since.

use super::{NAME, changed, run, sign, signed, write};
use crate::support::GOOD;

/// A folder with a manuscript that changed since, one that nobody signed, one that was revoked, and one that is gone.
fn desk() -> tempfile::TempDir {
    let folder = signed(GOOD);
    let path = folder.path();
    write(&path.join("house-rules.yaml"), "levels: { backing-generous: off }\n");
    write(&path.join(NAME), changed("strips: 12, fabric: 7/8 yd", "strips: 12, fabric: 30 in"));
    let ran = run(path, &["sign", NAME, "--by", "Bea Marsh", "--note", "with the sample", "--account"]);
    assert_eq!(ran.status, Some(0), "{ran:?}");
    write(&path.join(NAME), changed("strips: 12, fabric: 7/8 yd", "strips: 13, fabric: 1 yd"));
    for name in ["gone.pattern.yaml", "revoked.pattern.yaml"] {
        write(&path.join(name), GOOD.replace("Harbour Lanterns", name));
        assert_eq!(run(path, &["sign", name, "--by", "Ada Finch"]).status, Some(0));
    }
    std::fs::remove_file(path.join("gone.pattern.yaml")).expect("removed");
    let words = ["sign", "revoked.pattern.yaml", "--by", "Bea Marsh", "--revoke", "=the throw is short"];
    assert_eq!(run(path, &words).status, Some(0));
    write(&path.join("unsigned.pattern.yaml"), GOOD);
    folder
}

#[test]
fn people_read_a_block_for_each_manuscript() {
    let folder = desk();
    let ran = run(folder.path(), &["signed"]);
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{ran:?}");
    ran.is_tame("a list");
    // The day and the fingerprint are those of the run.
    let is_date = |text: &str| text.len() == 10 && text.starts_with("20");
    let plain: Vec<String> = ran
        .out
        .lines()
        .map(|line| {
            let words: Vec<&str> = line.split(' ').map(|word| if is_date(word) { "DAY" } else { word }).collect();
            let hex = |word: &&str| {
                word.trim_end_matches(':').len() == 4
                    && word.trim_end_matches(':').bytes().all(|byte| byte.is_ascii_hexdigit())
            };
            words.into_iter().filter(|word| !hex(word)).collect::<Vec<_>>().join(" ")
        })
        .collect();
    let expected = "\
lanterns.pattern.yaml (Harbour Lanterns, edition 1)
  DAY signed by Bea Marsh, 2 changes since
    note: with the sample
    checked with --account, under house rules
    1 rule off: backing-generous
    one query stood: no-squaring-room (queen, binding fabric)
    - queen: binding strips: signed as 12, now 13
    - queen: binding fabric: signed as 30 in, now 1 yd
  DAY signed by Ada Finch, another sign-off counts

revoked.pattern.yaml (revoked.pattern.yaml, edition 1)
  DAY signed by Ada Finch, revoked
    DAY revoked by Bea Marsh: =the throw is short

unsigned.pattern.yaml (Harbour Lanterns, edition 1)
  nobody has signed it

gone.pattern.yaml (gone.pattern.yaml, edition 1), there no longer
  DAY signed by Ada Finch, the manuscript is there no longer";
    let expected: Vec<&str> = expected.lines().collect();
    assert_eq!(plain, expected, "{}", ran.out);
}

#[test]
fn programs_read_json() {
    let folder = desk();
    let json = run(folder.path(), &["signed", "--format", "json"]).json();
    assert_eq!(json["version"], 1);
    let manuscripts = json["manuscripts"].as_array().expect("a list");
    let states: Vec<(&str, &str)> = manuscripts
        .iter()
        .map(|one| (one["file"].as_str().expect("a name"), one["state"].as_str().expect("a state")))
        .collect();
    let expected = [
        ("lanterns.pattern.yaml", "changed"),
        ("revoked.pattern.yaml", "revoked"),
        ("unsigned.pattern.yaml", "not signed"),
        ("gone.pattern.yaml", "missing"),
    ];
    assert_eq!(states, expected);
    let last = &manuscripts[0]["sign_offs"][0];
    assert_eq!((last["by"].as_str(), last["note"].as_str()), (Some("Bea Marsh"), Some("with the sample")));
    assert_eq!(last["conditions"]["options"], serde_json::json!(["--account"]));
    assert_eq!(last["conditions"]["rules_off"], serde_json::json!(["backing-generous"]));
    assert_eq!(last["conditions"]["open"][0]["rule"], "no-squaring-room");
    assert_eq!(last["changes"][0]["was"], "12");
    assert_eq!(last["changes"][0]["is"], "13");
    assert_eq!(last["changes"][1]["message"], "binding fabric: signed as 30 in, now 1 yd");
    let fingerprint = last["fingerprint"].as_str().expect("a fingerprint");
    assert_eq!(last["short"].as_str().expect("short").replace(' ', ""), fingerprint["sha256:".len()..][..12]);
    assert_eq!(manuscripts[1]["sign_offs"][0]["revoked"]["because"], "=the throw is short");
}

#[test]
fn spreadsheets_read_csv() {
    let folder = desk();
    let ran = run(folder.path(), &["signed", "--format", "csv"]);
    let text = ran.out.strip_prefix('\u{feff}').expect("a byte-order mark");
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let heads: Vec<String> = reader.headers().expect("heads").iter().map(String::from).collect();
    let rows: Vec<Vec<String>> =
        reader.records().map(|record| record.expect("a record").iter().map(String::from).collect()).collect();
    let cell = |row: usize, head: &str| {
        let column = heads.iter().position(|known| known == head).unwrap_or_else(|| panic!("no {head}"));
        rows[row][column].as_str()
    };
    assert_eq!(rows.len(), 5, "{rows:?}");
    assert_eq!((cell(0, "by"), cell(0, "state"), cell(0, "options")), ("Bea Marsh", "changed", "account"));
    assert_eq!(cell(0, "rules off"), "backing-generous");
    assert_eq!(cell(0, "changes"), "binding strips: signed as 12, now 13; binding fabric: signed as 30 in, now 1 yd");
    assert_eq!((cell(1, "by"), cell(1, "state")), ("Ada Finch", "earlier"));
    // A spreadsheet would run what begins with an equals sign.
    assert_eq!((cell(2, "state"), cell(2, "because")), ("revoked", "'=the throw is short"));
    assert_eq!((cell(3, "state"), cell(3, "by")), ("not signed", ""));
    assert_eq!(cell(4, "state"), "missing");
}

#[test]
fn one_manuscript_is_listed_by_its_name_and_what_cannot_be_read_is_said() {
    let folder = desk();
    let ran = run(folder.path(), &["signed", "unsigned.pattern.yaml"]);
    assert_eq!(ran.out, "unsigned.pattern.yaml (Harbour Lanterns, edition 1)\n  nobody has signed it\n");
    assert_eq!(sign(folder.path(), "Ada Finch").status, Some(0));
    let ran = run(folder.path(), &["signed", NAME]);
    assert!(ran.out.contains("signed by Ada Finch, ") && ran.out.contains(": nothing changed since\n"), "{}", ran.out);
    write(&folder.path().join("sign-offs.yaml"), "nothing of use");
    let ran = run(folder.path(), &["signed"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("sign-offs.yaml: it is damaged"), "{}", ran.err);
    let empty = tempfile::tempdir().expect("a folder");
    let ran = run(empty.path(), &["signed"]);
    assert_eq!(ran.status, Some(2));
    assert!(ran.err.contains("no manuscripts found in ."), "{}", ran.err);
}
