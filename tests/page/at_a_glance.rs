//! The numbers with the sizes side by side, and a part of the page where it is asked for.

use std::collections::BTreeSet;

use scraper::{ElementRef, Selector};
use sparestrip::audit::{Line, Status, account};
use sparestrip::rule_book::Settings;

use super::support::{GOOD, folder_with, run};
use super::{Page, inside, pages, words};

/// A cell: number, size where it is of one, what is stated, what stands under it, and what is said of it.
type Cell = (String, Option<String>, String, Option<String>, Option<String>);

fn cells(page: &Page) -> BTreeSet<Cell> {
    let all = |element: ElementRef<'_>, selector: &str| {
        element.select(&Selector::parse(selector).unwrap()).map(|one| one.html()).collect::<Vec<_>>()
    };
    let mut cells = BTreeSet::new();
    for row in page.all("tr.glance-row") {
        let number = words(inside(row, "th").unwrap());
        for cell in row.select(&Selector::parse("td:not(.none)").unwrap()) {
            let stated = words(inside(cell, ".stated").unwrap());
            let stated =
                stated.split(" (").next().filter(|_| stated.ends_with(" times)")).unwrap_or(&stated).to_string();
            let needed =
                inside(cell, ".needed").map(words).map(|needed| needed.trim_start_matches("needed ").to_string());
            let said = all(cell, ":scope > .unseen");
            let said = (!said.is_empty()).then(|| words(inside(cell, "td > .unseen:last-child").unwrap()));
            cells.insert((number.clone(), cell.attr("data-label").map(str::to_string), stated, needed, said));
        }
    }
    cells
}

/// Whether a mark stands at a number.
fn is_marked(line: &Line) -> bool {
    let open = line.found.iter().any(|found| !found.accepted && found.level.word() != "note");
    open || !matches!(line.status, Status::Ok | Status::AsGiven)
}

#[test]
fn every_number_is_there_with_its_size_and_marked_only_where_it_is_not_ok() {
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    for page in pages() {
        let cells = cells(&page);
        let lines = account(&page.source, &Settings::default()).lines;
        for line in &lines {
            let said = is_marked(line).then(|| line.result());
            let found = cells.iter().find(|(number, size, stated, _, word)| {
                (number, size, stated, word) == (&plain(&line.number), &line.size, &plain(&line.stated), &said)
            });
            let (.., needed, _) = found.unwrap_or_else(|| panic!("{} {:?} of {}", line.number, line.size, page.name));
            // Where something is not enough, what is needed always stands there.
            if matches!(line.status, Status::Short | Status::Wrong) && !line.needed.is_empty() {
                assert_eq!(needed.as_deref(), Some(plain(&line.needed).as_str()), "{} of {}", line.number, page.name);
            }
        }
        assert!(cells.len() <= lines.len(), "{}", page.name);
    }
}

#[test]
fn it_stands_before_the_findings_and_the_workings() {
    let page = Page::of(&GOOD.replace("strips: 12", "strips: 11"));
    let sections: Vec<String> = page.all("main h2").into_iter().map(words).collect();
    let expected = [
        "What to show, on the screen and on paper",
        "The numbers by size",
        "Findings",
        "The workings",
        "Drawings",
        "To sign",
    ];
    assert_eq!(sections, expected);
    let marked: Vec<String> = page.all(".matrix td.bad").into_iter().map(words).collect();
    assert_eq!(marked, ["✗ 11needed 12short"]);
}

#[test]
fn a_number_leads_to_its_working() {
    for page in pages() {
        for row in page.all("tr.glance-row") {
            let link = inside(row, "th a").unwrap();
            let to = link.attr("href").unwrap().trim_start_matches('#');
            assert_eq!(page.words(&format!("[id=\"{to}\"]")), words(link), "{}", page.name);
        }
    }
}

#[test]
fn what_is_left_out_is_not_in_the_page_and_a_part_is_not_to_be_signed() {
    let (folder, _) = folder_with("x.pattern.yaml", GOOD.replace("strips: 12", "strips: 11"));
    let page = |words: &[&str]| {
        let ran = run(folder.path(), &[&["worksheet", "x.pattern.yaml", "--html"], words].concat());
        assert_eq!((ran.status, ran.err.as_str()), (Some(0), ""), "{words:?}");
        scraper::Html::parse_document(&ran.out)
    };
    let count = |page: &scraper::Html, selector: &str| page.select(&Selector::parse(selector).unwrap()).count();
    let whole = page(&[]);
    assert!(
        count(&whole, "figure") > 0 && count(&whole, "section.workings") == 1 && count(&whole, "section.sign") == 1
    );
    let bare = page(&["--without", "drawings", "--without", "workings"]);
    assert_eq!((count(&bare, "figure"), count(&bare, "section.workings"), count(&bare, "section.sign")), (0, 0, 1));
    assert!(count(&bare, ".matrix td") > 5);
    let wrong = page(&["--only", "wrong"]);
    assert_eq!((count(&wrong, "tr.glance-row"), count(&wrong, "tr.values"), count(&wrong, "section.sign")), (1, 1, 0));
    let only = wrong.select(&Selector::parse("p.only").unwrap()).map(words).collect::<Vec<_>>();
    assert_eq!(only, ["Only wrong: 1 of 17 lines. A part is not to be signed."]);
}

#[test]
fn each_size_and_section_can_be_chosen_on_the_page() {
    let page = Page::of(GOOD);
    let chosen: Vec<String> = page.all(".choices fieldset label").into_iter().map(words).collect();
    assert_eq!(chosen, ["all", "crib", "throw", "queen", "all", "Assumes", "Sizes", "Binding"]);
    for input in page.all(".choices fieldset input") {
        let class = input.attr("class").unwrap().split(' ').next_back().unwrap();
        assert!(class.starts_with("pick-all") || page.text.contains(&format!(":has(.{class}:checked)")), "{class}");
    }
}
