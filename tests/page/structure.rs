//! How the page is built: well-formed, with headings in order and landmarks, and with nothing from elsewhere.

use std::collections::BTreeSet;

use super::support::GOOD;
use super::{Page, pages, words};

#[test]
fn every_page_is_well_formed() {
    for page in pages() {
        assert_eq!(page.html.errors, Vec::<String>::new(), "{}", page.name);
        assert!(page.text.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"), "{}", page.name);
        assert!(page.text.ends_with("</html>\n"), "{}", page.name);
        let ids: Vec<&str> = page.all("[id]").iter().map(|element| element.attr("id").unwrap()).collect();
        let distinct: BTreeSet<&str> = ids.iter().copied().collect();
        assert_eq!(distinct.len(), ids.len(), "two elements of {} have one id: {ids:?}", page.name);
        for (attribute, before) in [("href", "#"), ("aria-labelledby", ""), ("headers", ""), ("aria-describedby", "")] {
            for element in page.all(&format!("[{attribute}]")) {
                for target in element.attr(attribute).unwrap().split_whitespace() {
                    let target = target.strip_prefix(before).unwrap_or_else(|| panic!("{target} leads elsewhere"));
                    assert!(distinct.contains(target), "{} has no {target}", page.name);
                }
            }
        }
    }
}

#[test]
fn headings_are_in_order_and_there_is_one_of_each_landmark() {
    for page in pages() {
        let levels: Vec<u32> = page
            .all("h1, h2, h3, h4, h5, h6")
            .iter()
            .map(|heading| heading.value().name()[1..].parse().unwrap())
            .collect();
        assert_eq!(levels.iter().filter(|level| **level == 1).count(), 1, "{}", page.name);
        assert_eq!(levels[0], 1);
        assert!(levels.windows(2).all(|pair| pair[1] <= pair[0] + 1), "{}: {levels:?}", page.name);
        for landmark in ["header", "nav", "main", "footer"] {
            assert_eq!(page.all(&format!("body > {landmark}")).len(), 1, "{landmark} in {}", page.name);
        }
        assert_eq!(page.all("a.skip").len(), 1);
        assert!(words(page.all("head > title")[0]).ends_with(": worksheet"));
    }
}

#[test]
fn nothing_comes_from_elsewhere() {
    for page in pages() {
        assert!(page.all("script, link, img, iframe, object, embed, base, form, audio, video, image").is_empty());
        // A drawing names its own parts.
        assert!(page.all("use").iter().all(|part| part.value().attr("href").is_some_and(|to| to.starts_with('#'))));
        assert!(page.all("[src], [srcset], [action], [data], [poster], [background]").is_empty(), "{}", page.name);
        for element in page.all("*") {
            let names: Vec<&str> = element.value().attrs().map(|(name, _)| name).collect();
            assert!(!names.iter().any(|name| name.starts_with("on")), "{}: {names:?}", page.name);
        }
        // A pattern of lines within the page itself, and the name of SVG, which nothing is fetched by.
        let text = page.text.replace("url(#fig-", "").replace("xmlns=\"http://www.w3.org/2000/svg\"", "");
        for loads in ["url(", "@import", "@font-face", "image-set(", "javascript:", "//", "href=\"h"] {
            assert!(!text.contains(loads), "{} holds {loads}", page.name);
        }
        let policy = page.all("meta[http-equiv=\"Content-Security-Policy\"]");
        let policy = policy[0].attr("content").unwrap();
        assert!(policy.starts_with("default-src 'none'; style-src 'unsafe-inline';"), "{policy}");
        assert!(!policy.contains("script-src"), "{policy}");
    }
}

#[test]
fn the_same_manuscript_gives_the_same_bytes_in_another_folder_and_at_another_time() {
    assert_eq!(Page::of(GOOD).text, Page::of(GOOD).text);
}

#[test]
fn each_cell_names_its_column_for_those_who_see_no_columns() {
    for page in pages() {
        for table in page.all("table") {
            let select =
                |selector: &str| table.select(&scraper::Selector::parse(selector).unwrap()).collect::<Vec<_>>();
            let heads: Vec<String> = select("thead th").into_iter().map(words).collect();
            for row in select("tr.values") {
                let cells = row.select(&scraper::Selector::parse("td").unwrap()).collect::<Vec<_>>();
                let labels: Vec<&str> = cells.iter().map(|cell| cell.attr("data-label").unwrap()).collect();
                assert_eq!(labels, heads[1..], "{}", page.name);
            }
        }
    }
}
