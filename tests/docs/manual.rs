//! The manual: each chapter is printed whole, listed, and in the manual page; what the papers say to run, can be run.

use std::collections::BTreeSet;

use sparestrip::report::RenderStyle;
use sparestrip::report::manual::{CHAPTERS, chapter_text};
use sparestrip::rule_book::book;

use super::{all_papers, chapter, paper, printed, project};

/// One space between words, and no marks of Markdown but backticks.
fn words_of(text: &str) -> String {
    text.replace("**", "").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The parts of a chapter that empty lines divide: those in fences as they are, and the rest; comments left out.
fn parts(markdown: &str) -> (Vec<String>, Vec<String>) {
    let (mut listings, mut texts) = (Vec::new(), vec![String::new()]);
    let mut in_fence = false;
    for line in markdown.lines() {
        if line.starts_with("```") {
            in_fence = !in_fence;
            if in_fence {
                listings.push(String::new());
            }
            texts.push(String::new());
        } else if in_fence {
            listings.last_mut().expect("a fence was opened").push_str(&format!("{line}\n"));
        } else if line.is_empty() || line.starts_with("<!-- ") {
            texts.push(String::new());
        } else {
            texts.last_mut().expect("there is one").push_str(&format!("{line}\n"));
        }
    }
    texts.retain(|text| !text.is_empty());
    (listings, texts)
}

#[test]
fn each_chapter_is_printed_whole() {
    for each in CHAPTERS {
        let shown = printed(&["manual", each.name]);
        let shown_words = words_of(&shown);
        let (listings, texts) = parts(&chapter(each.name));
        for listing in listings {
            assert!(shown.contains(&listing), "{} lacks\n{listing}\nin\n{shown}", each.name);
        }
        for text in texts {
            if text.starts_with('|') {
                let words = text.split_whitespace().filter(|word| !word.chars().all(|c| "|-".contains(c)));
                for word in words {
                    assert!(shown.contains(word), "{} lacks {word} in\n{shown}", each.name);
                }
            } else {
                let words = words_of(text.trim_start_matches('#'));
                assert!(shown_words.contains(&words), "{} lacks\n{words}\nin\n{shown}", each.name);
            }
        }
    }
}

#[test]
fn a_chapter_fits_the_width_of_the_terminal() {
    for each in CHAPTERS {
        let (listings, _) = parts(&chapter(each.name));
        let too_wide_to_break = |line: &str| {
            listings.iter().any(|listing| listing.lines().any(|own| own == line))
                || line.starts_with("    ")
                || !line.trim_start().contains(' ')
        };
        let text = chapter_text(each, RenderStyle { width: 64, ..RenderStyle::default() });
        let wide = text.lines().find(|line| line.chars().count() > 64 && !too_wide_to_break(line));
        assert_eq!(wide, None, "{}", each.name);
    }
}

#[test]
fn ascii_alone_is_printed_where_it_is_asked_for() {
    for words in [&["manual", "limits", "--ascii"][..], &["manual", "--list", "--ascii"], &["manual"]] {
        assert!(printed(words).is_ascii(), "{words:?}");
    }
}

#[test]
fn every_chapter_of_the_folder_is_listed_once_with_its_title() {
    let folder = project().join("src/report/manual/chapters").read_dir().expect("a folder");
    let files: BTreeSet<String> =
        folder.map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned()).collect();
    let named: BTreeSet<String> = CHAPTERS.iter().map(|each| format!("{}.md", each.name)).collect();
    assert_eq!(files, named);
    assert_eq!(CHAPTERS.len(), named.len());
    let (list, help) = (printed(&["manual", "--list"]), printed(&["manual", "--help"]));
    for each in CHAPTERS {
        let line = list.lines().find(|line| line.split_whitespace().next() == Some(each.name)).expect("a line");
        assert!(line.ends_with(each.title()) && !each.title().is_empty(), "{line}");
        assert!(help.contains(&format!("- {}:", each.name)) && help.contains(each.title()), "{help}");
    }
}

/// The page as a reader sees it, without its marks.
fn page() -> String {
    let signs = [
        ("\\-", "-"),
        ("\\(aq", "'"),
        ("\\(ga", "`"),
        ("\\(dq", "\""),
        ("\\(ti", "~"),
        ("\\(ha", "^"),
        ("\\fB", ""),
        ("\\fR", ""),
        ("\\&", ""),
        ("\\e", "\\"),
    ];
    signs.iter().fold(printed(&["manual"]), |page, (sign, shown)| page.replace(sign, shown))
}

#[test]
fn every_chapter_stands_in_the_manual_page() {
    let page = page();
    let coded = |text: &str| {
        let codes = |c: char| if c.is_ascii() { c.to_string() } else { format!("\\[u{:04X}]", u32::from(c)) };
        text.chars().map(codes).collect::<String>()
    };
    for each in CHAPTERS {
        assert!(page.contains(&format!(".SH \"{}\"\n", each.title().to_uppercase())), "{}", each.name);
        let (listings, texts) = parts(&chapter(each.name));
        for line in listings.iter().flat_map(|listing| listing.lines()).filter(|line| !line.trim().is_empty()) {
            assert!(page.contains(&format!("{}\n", coded(line).trim_end())), "{}: {line}", each.name);
        }
        let plain = |text: &str| words_of(&text.replace('`', ""));
        let words_of_page = plain(&page.replace(".IP \\(bu 2", "-"));
        for text in texts.iter().filter(|text| !text.starts_with(['|', '#'])) {
            assert!(words_of_page.contains(&coded(&plain(text))), "{}:\n{text}", each.name);
        }
    }
}

#[test]
fn what_the_papers_call_is_there() {
    let papers = all_papers() + &paper("DEVELOPERS.md");
    let calls = papers.split("sparestrip ").skip(1).map(|rest| {
        let line = rest.split(['`', '\n', '"']).next().unwrap_or_default();
        line.split_whitespace().map(str::to_string).collect::<Vec<_>>()
    });
    let mut called = 0;
    for call in calls.filter(|call| call.len() == 2) {
        let (word, name) = (call[0].as_str(), call[1].as_str());
        let known = match word {
            _ if name == "NAME" || name == "-" => continue,
            "manual" => name.starts_with("--") || CHAPTERS.iter().any(|each| each.name == name),
            "rules" => name.starts_with("--") || book().iter().any(|page| page.name == name),
            "words" => super::sparestrip(&["words", name]).status.success(),
            _ => continue,
        };
        called += 1;
        assert!(known, "sparestrip {word} {name}");
    }
    assert!(called > 15, "only {called}");
}

#[test]
fn the_list_of_values_has_each_with_what_it_is_and_its_rule() {
    let list = printed(&["rules", "--values"]);
    let mut listed = 0;
    for page in book() {
        for value in page.values {
            let start = format!("{} ", value.name);
            let line = list.lines().find(|line| line.trim_start().starts_with(&start)).expect("a line");
            let standard = if value.text.contains(',') { "a list of words" } else { value.text };
            assert!(line.contains(&format!(" {standard} ")), "{line}");
            for word in value.meaning.split_whitespace() {
                assert!(list.contains(word), "{word}");
            }
            assert!(list.contains(page.name), "{}", page.name);
            listed += 1;
        }
    }
    assert!(listed > 40, "only {listed}");
}

/// The table that lists the rules, as README.md showed it once: each row, put together from its lines.
#[test]
fn the_list_of_rules_has_each_with_its_level_and_what_it_finds() {
    let list = printed(&["rules"]);
    let mut lines = list.lines();
    let column = lines.next().and_then(|head| head.find("what it finds")).expect("a heading");
    let mut rows: Vec<String> = Vec::new();
    // What the levels mean comes after them.
    for line in lines.skip(1).take_while(|line| !line.is_empty()) {
        if line.starts_with("   ") {
            rows.last_mut().expect("a first line").push_str(&format!(" {}", &line[column..]));
        } else {
            rows.push(line.to_string());
        }
    }
    let should_be: Vec<String> =
        book().iter().map(|page| words_of(&format!("{} {} {}", page.name, page.level.word(), page.headline))).collect();
    assert_eq!(rows.iter().map(|row| words_of(row)).collect::<Vec<_>>(), should_be);
}

#[test]
fn a_chapter_that_is_not_there_is_2_with_those_that_are() {
    let output = super::sparestrip(&["manual", "finding"]);
    assert_eq!(output.status.code(), Some(2));
    let told = String::from_utf8(output.stderr).expect("text");
    assert!(told.contains("findings") && told.contains("worksheet"), "{told}");
}

#[test]
fn the_papers_are_short() {
    for (name, most) in [("README.md", 220), ("DEVELOPERS.md", 150)] {
        let lines = paper(name).lines().count();
        assert!(lines <= most, "{name} has {lines} lines, and may have {most}");
    }
}
