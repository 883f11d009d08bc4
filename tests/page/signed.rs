//! The fingerprint of what was checked, and what the sign-offs beside the manuscript say of it.

use super::Page;
use super::support::{GOOD, folder_with, run, run_with_input, write};

/// The only record of a folder.
fn recorded(folder: &std::path::Path) -> serde_json::Value {
    let text = sparestrip::manuscript::Source::open(&folder.join("sign-offs.yaml")).unwrap().text;
    let line = text.lines().find_map(|line| line.strip_prefix("- ")).unwrap();
    serde_json::from_str(line).unwrap()
}

#[test]
fn the_page_the_text_and_the_json_have_the_fingerprint_that_a_sign_off_records() {
    let (folder, file) = folder_with("x.pattern.yaml", GOOD);
    let before = Page::of_file(&file).words("p.signing");
    assert!(before.ends_with("Not signed off."), "{before}");
    let signed = run(folder.path(), &["sign", "x.pattern.yaml", "--by", "Ada Finch"]);
    assert_eq!(signed.status, Some(0), "{}", signed.err);
    let record = recorded(folder.path());
    let fingerprint = record["fingerprint"].as_str().unwrap();
    let digits = fingerprint.strip_prefix("sha256:").unwrap();
    let short = [&digits[..4], &digits[4..8], &digits[8..12]].join(" ");
    let day = &record["when"].as_str().unwrap()[..10];
    let page = Page::of_file(&file);
    assert_eq!(page.words("p.signing"), format!("Fingerprint {short}. Signed off by Ada Finch on {day}."));
    assert_eq!(page.words("section.sign b"), short);
    assert!(before.contains(&short), "the values are the same before and after: {before}");
    let text = run(folder.path(), &["worksheet", "x.pattern.yaml"]).out;
    assert!(text.contains(&format!("\nFingerprint {short}. Signed off by Ada Finch on {day}.\n")), "{text}");
    let json = run(folder.path(), &["worksheet", "x.pattern.yaml", "--format", "json"]).json();
    let expected = serde_json::json!({
        "fingerprint": fingerprint, "short": short, "state": "signed", "by": "Ada Finch", "day": day, "changes": 0
    });
    assert_eq!(json["signing"], expected);
}

#[test]
fn what_changed_since_is_told_with_another_fingerprint() {
    let (folder, file) = folder_with("x.pattern.yaml", GOOD);
    assert_eq!(run(folder.path(), &["sign", "x.pattern.yaml", "--by", "Ada Finch"]).status, Some(0));
    let signed = Page::of_file(&file).words("p.signing b");
    write(&file, GOOD.replace("strips: 12", "strips: 13"));
    let page = Page::of_file(&file);
    let said = page.words("p.signing.changed");
    assert!(
        said.contains("Changed since Ada Finch signed it off on ") && said.ends_with(": 1 value is another now."),
        "{said}"
    );
    assert_ne!(page.words("p.signing b"), signed);
    // How it is written says nothing.
    write(&file, &(GOOD.replace("strips: 12", "strips:   12") + "# as agreed\n"));
    assert_eq!(Page::of_file(&file).words("p.signing b"), signed);
}

#[test]
fn a_sign_off_that_was_revoked_is_none() {
    let (folder, file) = folder_with("x.pattern.yaml", GOOD);
    assert_eq!(run(folder.path(), &["sign", "x.pattern.yaml", "--by", "Ada Finch"]).status, Some(0));
    let revoke = ["sign", "x.pattern.yaml", "--by", "Ada Finch", "--revoke", "a size is missing"];
    assert_eq!(run(folder.path(), &revoke).status, Some(0));
    let said = Page::of_file(&file).words("p.signing");
    assert!(
        said.contains("Not signed off: Ada Finch revoked the sign-off on ") && said.ends_with(": a size is missing"),
        "{said}"
    );
}

#[test]
fn standard_input_has_a_fingerprint_and_no_sign_offs() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    let ran = run_with_input(folder.path(), &["worksheet", "-"], GOOD.as_bytes());
    assert!(ran.out.contains("Whether it is signed off was not looked up."), "{}", ran.out);
}

#[test]
fn sign_offs_that_cannot_be_read_are_told_and_the_worksheet_is_shown() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD);
    write(&folder.path().join("sign-offs.yaml"), "<<<<<<< mine\n");
    let ran = run(folder.path(), &["worksheet", "x.pattern.yaml"]);
    assert_eq!(ran.status, Some(0));
    assert!(ran.err.starts_with("sparestrip: sign-offs.yaml: it is damaged: "), "{}", ran.err);
    assert!(ran.out.contains("Whether it is signed off was not looked up."), "{}", ran.out);
}
