//! The worksheets of a folder on one page.

use scraper::{Html, Selector};

use super::support::{GOOD, folder_with, run, write};
use super::words;

fn page_of_two() -> (String, Html) {
    let (folder, _) = folder_with("a.pattern.yaml", GOOD);
    write(&folder.path().join("b.pattern.yaml"), GOOD.replace("Harbour Lanterns", "Second Lanterns"));
    let ran = run(folder.path(), &["worksheet", ".", "--html"]);
    assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""));
    (ran.out.clone(), Html::parse_document(&ran.out))
}

#[test]
fn each_manuscript_has_a_part_that_begins_on_a_sheet_of_its_own() {
    let (text, page) = page_of_two();
    let all = |selector: &str| page.select(&Selector::parse(selector).unwrap()).map(words).collect::<Vec<_>>();
    assert_eq!(page.errors, Vec::<String>::new());
    assert_eq!(all("nav li a"), ["Harbour Lanterns, edition 1", "Second Lanterns, edition 1"]);
    assert_eq!(all("article .top h2"), all("nav li a"));
    assert_eq!(all("section.sign h3"), ["To sign", "To sign"]);
    for (place, name) in [(1, "Harbour"), (2, "Second")] {
        let page = format!("@page sheet{place} {{ @bottom-left {{ content: \"{name} Lanterns");
        assert!(text.contains(&page) && text.contains(&format!("style=\"page: sheet{place}\"")), "{page}");
    }
    assert!(text.contains(".several .sheet { margin: 0; border: 0; break-before: page; }"));
}

#[test]
fn ids_are_each_there_once_and_every_link_leads_somewhere() {
    let (_, page) = page_of_two();
    let ids: Vec<&str> = page.select(&Selector::parse("[id]").unwrap()).map(|one| one.attr("id").unwrap()).collect();
    let distinct: std::collections::BTreeSet<&str> = ids.iter().copied().collect();
    assert_eq!(distinct.len(), ids.len());
    for link in page.select(&Selector::parse("a[href]").unwrap()) {
        let to = link.attr("href").unwrap().strip_prefix('#').unwrap();
        assert!(distinct.contains(to), "{to}");
    }
}

#[test]
fn text_and_json_have_all_of_them() {
    let (folder, _) = folder_with("a.pattern.yaml", GOOD);
    write(&folder.path().join("b.pattern.yaml"), GOOD.replace("Harbour Lanterns", "Second Lanterns"));
    let text = run(folder.path(), &["worksheet", "."]).out;
    assert_eq!(text.matches("The workings\n").count(), 2, "{text}");
    let json = run(folder.path(), &["worksheet", ".", "--format", "json"]).json();
    let files: Vec<&str> =
        json["worksheets"].as_array().unwrap().iter().map(|one| one["file"].as_str().unwrap()).collect();
    assert_eq!((json["version"].as_u64(), files), (Some(1), vec!["a.pattern.yaml", "b.pattern.yaml"]));
}

/// Of a size that only one of them has, the others have nothing to show.
#[test]
fn a_size_that_some_have_leaves_these_and_one_that_none_has_is_told() {
    let (folder, _) = folder_with("a.pattern.yaml", GOOD);
    write(&folder.path().join("b.pattern.yaml"), GOOD.replace("queen", "king"));
    let ran = run(folder.path(), &["worksheet", ".", "--only", "king", "--format", "json"]);
    assert_eq!(ran.status, Some(0), "{}", ran.err);
    assert_eq!(ran.json()["worksheets"].as_array().unwrap().len(), 1);
    let ran = run(folder.path(), &["worksheet", ".", "--only", "quen"]);
    assert_eq!((ran.status, ran.out.as_str()), (Some(2), ""));
    assert_eq!(ran.err, "sparestrip: no manuscript in . has a size or a section quen; did you mean queen?\n");
    let empty = tempfile::tempdir().unwrap();
    let ran = run(empty.path(), &["worksheet", "."]);
    assert_eq!(ran.err, "sparestrip: no manuscripts found in .: their names end in .pattern.yaml\n");
    assert_eq!(ran.status, Some(2));
}
