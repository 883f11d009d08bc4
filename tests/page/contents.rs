//! What the page says, against the account and the findings that it is made of.

use std::collections::BTreeMap;

use sparestrip::audit::{Audit, Line, Status, account};
use sparestrip::check::Outcome;
use sparestrip::manuscript::{Source, Span};
use sparestrip::rule_book::Settings;
use sparestrip::worksheet::{Section, Sections, Worksheet};

use super::support::GOOD;
use super::{Page, inside, pages, words};

/// A row of the workings: section, size, number, stated, needed, margin, result, line, and working.
type Row = [String; 9];

fn rows(page: &Page) -> Vec<Row> {
    let mut rows = Vec::new();
    for section in page.all("section.group") {
        let heading = words(inside(section, "h3").unwrap());
        for body in section.select(&scraper::Selector::parse("tbody").unwrap()) {
            let number = words(inside(body, "tr.name th").unwrap());
            for row in body.select(&scraper::Selector::parse("tr.values").unwrap()) {
                let cell = |selector: &str| inside(row, selector).map(words).unwrap_or_default();
                let standing = cell("td.is").trim_start_matches(['✓', '✗', '?', '+', '○', ' ']).to_string();
                let links = row.select(&scraper::Selector::parse("a.see").unwrap()).map(words).collect::<Vec<_>>();
                // Where a printed text has the number is told by the tests of texts.
                let in_text = cell("td.working .in-text");
                let working = cell("td.working").trim_end_matches(&in_text).trim_end().to_string();
                let working = working.strip_prefix(&links.join(" ")).unwrap_or(&working).trim_start().to_string();
                rows.push([
                    heading.clone(),
                    cell("th"),
                    number.clone(),
                    cell("td.stated"),
                    cell("td[data-label=needed]"),
                    cell("td.margin"),
                    standing,
                    cell("td.line"),
                    working,
                ]);
            }
        }
    }
    rows
}

/// The line that a byte is on, counted here anew.
fn line_of(source: &Source, at: Span) -> usize {
    source.text[..at.start].matches('\n').count() + 1
}

fn expected(page: &Page, line: &Line) -> Row {
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    [
        Sections::of(&page.source).section(line.at).map(Section::heading).unwrap_or_default(),
        line.size.clone().unwrap_or_else(|| "all sizes".to_string()),
        plain(&line.number),
        plain(&line.stated),
        plain(&line.needed),
        plain(&line.margin.signed()),
        line.result(),
        line_of(&page.source, line.at).to_string(),
        plain(&line.working),
    ]
}

fn account_of(page: &Page) -> Audit {
    account(&page.source, &Settings::default())
}

#[test]
fn every_number_of_the_account_is_in_the_table_and_no_other() {
    let mut numbers = 0;
    for page in pages() {
        let lines = account_of(&page).lines;
        let mut expected: Vec<Row> = lines.iter().map(|line| expected(&page, line)).collect();
        let mut rows = rows(&page);
        // The page has them by section and number, the account by size.
        expected.sort();
        rows.sort();
        assert_eq!(rows, expected, "{}", page.name);
        numbers += expected.len();
    }
    assert!(numbers > 500, "the examples state {numbers} numbers");
}

#[test]
fn every_finding_is_told_with_its_place() {
    for page in pages() {
        let Outcome { findings: own, texts, .. } = account_of(&page).outcome;
        let in_texts = texts.iter().flat_map(|text| text.findings.iter().map(move |finding| (text.source(), finding)));
        let findings: Vec<_> = own.iter().map(|finding| (&page.source, finding)).chain(in_texts).collect();
        let standing: Vec<String> =
            page.all("section[aria-labelledby=findings] > ol > li").into_iter().map(words).collect();
        assert_eq!(standing.len(), findings.len(), "{}", page.name);
        for (told, (source, finding)) in standing.iter().zip(&findings) {
            assert!(told.starts_with(&format!("{} {}", finding.level.word(), finding.message)), "{told}");
            assert!(told.contains(&format!("line {}, character", line_of(source, finding.at.at))), "{told}");
            finding.help.lines().for_each(|line| assert!(told.contains(line.trim()), "{line} in {told}"));
        }
        let lead = page.all("section[aria-labelledby=findings] > p").into_iter().map(words).next().unwrap();
        assert_eq!(lead == "No problems.", findings.is_empty(), "{}", page.name);
    }
}

#[test]
fn an_accepted_finding_is_shown_with_the_reason_and_its_number_is_accepted_and_not_ok() {
    let accepted = "accepted:\n  - { rule: spare-strip, size: queen, stated: 11, because: the kit packs one more }\n";
    let page = Page::of(&(GOOD.replace("strips: 12", "strips: 11") + accepted));
    assert_eq!(page.words("section[aria-labelledby=findings] > p"), "No problems.");
    assert!(page.words("#accepted-1 h3").starts_with("error 11 strips stated; 12 needed"));
    assert_eq!(page.words("#accepted-1 .because"), "Accepted because: the kit packs one more");
    let strips = &rows(&page).into_iter().find(|row| row[1] == "queen" && row[2] == "binding strips").unwrap();
    assert_eq!(strips[3..7], ["11", "12", "-1", "accepted"]);
    assert_eq!(page.words("dl.sums .ok dd"), "8 of 9 checked");
    assert!(page.words("dl.sums").contains("accepted1 "), "{}", page.words("dl.sums"));
}

#[test]
fn the_place_of_a_finding_is_marked_on_its_line() {
    let page = Page::of(&GOOD.replace("strips: 12", "strips: 11"));
    assert_eq!(page.words("li#finding-1 mark"), "11");
    assert_eq!(page.words("li#finding-1 code"), "queen: { strips: 11, fabric: 7/8 yd }");
    let row = page.all("tr.values.bad");
    assert_eq!(row.len(), 1);
    assert_eq!(inside(row[0], "a").map(|link| (words(link), link.attr("href"))).unwrap().1, Some("#finding-1"));
}

/// A browser compares what is drawn; here it is only counted, size by size.
#[test]
fn every_drawing_says_its_size_and_has_words_below_it() {
    let mut drawn = 0;
    for page in pages() {
        let worksheet = Worksheet::new(&page.source, &Settings::default());
        let mut expected = Vec::new();
        for size in &worksheet.drawings.sizes {
            let drawings = usize::from(size.edge.is_some()) + size.fabrics.len() + usize::from(size.backing.is_some());
            let drawings = drawings + usize::from(size.top.is_some());
            expected.extend(std::iter::repeat_n(size.size.clone(), drawings));
        }
        let mut found = Vec::new();
        for figure in page.all("figure") {
            let label = inside(figure, "div.drawing").unwrap().attr("aria-label").unwrap();
            found.extend(label.split_once(", ").map(|(_, size)| size.to_string()));
            assert!(inside(figure, "svg[role=img] > title").is_some(), "{}", page.name);
            assert!(inside(figure, "svg[role=img] > desc").is_some(), "{}", page.name);
            let caption = words(inside(figure, "figcaption").unwrap());
            assert!(!caption.is_empty(), "{}", page.name);
            assert!(label.split_once(", ").is_none_or(|(_, size)| caption.starts_with(size)), "{label}: {caption}");
        }
        found.sort();
        expected.sort();
        assert_eq!(found, expected, "{}", page.name);
        drawn += found.len();
    }
    assert!(drawn > 50, "the examples have {drawn} drawings");
}

#[test]
fn the_sums_at_the_head_are_those_of_the_account() {
    for page in pages() {
        let lines = account_of(&page).lines;
        // A number that two lines are about is one number, and the worse of the two says what it is.
        let mut numbers = BTreeMap::new();
        for line in &lines {
            let status = numbers.entry((line.at, line.size.clone())).or_insert(line.status);
            *status = line.status.max(*status);
        }
        let count = |wanted: &[Status]| numbers.values().filter(|status| wanted.contains(status)).count();
        let (ok, bad) = (count(&[Status::Ok]), count(&[Status::Short, Status::Wrong]));
        let accepted = count(&[Status::Accepted]);
        let sums: Vec<String> = page.all("dl.sums dd").into_iter().map(words).collect();
        let expected = [
            format!("{ok} of {} checked", ok + bad + accepted),
            bad.to_string(),
            accepted.to_string(),
            count(&[Status::NotChecked]).to_string(),
            count(&[Status::AsGiven]).to_string(),
        ];
        assert_eq!(sums, expected, "{}", page.name);
    }
}

#[test]
fn the_contents_lead_to_every_section_and_say_how_it_stands() {
    let page = Page::of(&GOOD.replace("strips: 12", "strips: 11"));
    let contents: Vec<String> = page.all("nav li").into_iter().map(words).collect();
    let parts = ["Assumes nothing to check", "Sizes nothing to check", "Binding ✗ 8 of 9 checked numbers OK, 1 short"];
    let workings = format!("The workings {}", parts.join(" "));
    let expected =
        [&["The numbers by size", "Findings ✗ 1 error", &workings][..], &parts, &["Drawings", "To sign"]].concat();
    assert_eq!(contents, expected);
}

#[test]
fn it_says_whose_numbers_these_are_and_by_which_rules() {
    let page = Page::of(GOOD);
    assert_eq!(page.words("h1"), "Harbour Lanterns, edition 1");
    let whence = page.words("p.whence");
    assert!(whence.contains("test.pattern.yaml") && whence.contains(env!("CARGO_PKG_VERSION")), "{whence}");
    assert!(whence.contains("the standard values"), "{whence}");
    let (folder, file) = super::support::folder_with("test.pattern.yaml", GOOD);
    super::support::write(&folder.path().join("house-rules.yaml"), "values: { usable_width: 42 }\n");
    let whence = Page::of_file(&file).words("p.whence");
    assert!(whence.contains("the house rules that govern it"), "{whence}");
}

#[test]
fn there_is_a_place_to_sign_and_a_word_of_caution() {
    let page = Page::of(GOOD);
    for field in ["name", "date", "signature"] {
        assert_eq!(page.all(&format!("section.sign .{field}")).len(), 1);
    }
    let care = page.words("footer");
    for hurt in ["blades", "irons", "needles", "crib", "play mat or a wall hanging", "safe-sleep"] {
        assert!(care.contains(hurt), "{hurt} in {care}");
    }
}

#[test]
fn the_pattern_s_name_and_the_fingerprint_are_at_the_foot_of_each_sheet() {
    let page = Page::of(&GOOD.replace("edition: 1", "edition: B2"));
    let fingerprint = page.words("p.signing b");
    let foot = format!("@bottom-left {{ content: \"Harbour Lanterns\\00002c  edition B2   {fingerprint}\"; }}");
    assert!(page.text.contains(&foot), "{foot}");
}
