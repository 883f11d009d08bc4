//! The numbers of an account by section and number, the sizes side by side.

use std::collections::BTreeMap;

use super::sections::Sections;
use crate::audit::{Line, Sign, Status};

/// The numbers with the sizes side by side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Matrix<'w> {
    /// The sizes, in the order of the manuscript.
    pub sizes: Vec<&'w str>,
    /// The numbers by section.
    pub parts: Vec<MatrixPart<'w>>,
}

/// The numbers of a section.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MatrixPart<'w> {
    /// The number of the section; `None` for what stands in none.
    pub section: Option<usize>,
    /// Its numbers.
    pub rows: Vec<MatrixRow<'w>>,
}

/// A number of the pattern as a whole, or of each size that states it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MatrixRow<'w> {
    /// What it is, in the manuscript's words.
    pub number: &'w str,
    /// Where it is stated for all sizes: once, or several times where the lines are alike, as in a list.
    pub all: Vec<&'w Line>,
    /// Where it is stated for one size, in the order of the sizes.
    pub cells: Vec<Option<&'w Line>>,
}

impl<'w> MatrixRow<'w> {
    /// Its lines, that for all sizes first, each with the number of its size.
    pub fn lines(&self) -> impl Iterator<Item = (Option<usize>, &'w Line)> {
        let cells = self.cells.iter().enumerate().filter_map(|(size, line)| Some((Some(size), (*line)?)));
        self.all.iter().map(|line| (None, *line)).chain(cells)
    }
}

impl<'w> MatrixPart<'w> {
    /// Adds a number, to the one before it where nothing but the place sets them apart.
    fn add(&mut self, row: MatrixRow<'w>) {
        let has_cells = |row: &MatrixRow<'_>| row.cells.iter().any(Option::is_some);
        let alike = |one: &Line, other: &Line| {
            (&one.number, &one.stated, &one.needed, one.result())
                == (&other.number, &other.stated, &other.needed, other.result())
        };
        match (self.rows.last_mut(), row.all.as_slice()) {
            (Some(last), [line])
                if !has_cells(last)
                    && !has_cells(&row)
                    && last.all.last().is_some_and(|before| alike(before, line)) =>
            {
                last.all.extend(row.all);
            }
            _ => self.rows.push(row),
        }
    }
}

/// A number by its section, its words, and which of those with the same words it is.
type Key<'w> = (Option<usize>, &'w str, usize);

impl<'w> Matrix<'w> {
    /// Puts the lines of an account side by side.
    pub fn new(lines: &'w [Line], sections: &Sections) -> Matrix<'w> {
        let mut sizes: Vec<&str> = Vec::new();
        for size in lines.iter().filter_map(|line| line.size.as_deref()) {
            if sizes.last() != Some(&size) && !sizes.contains(&size) {
                sizes.push(size);
            }
        }
        let mut order = Order::default();
        for line in lines {
            order.add(line, sections.index(line.at));
        }
        let mut parts: BTreeMap<usize, MatrixPart<'w>> = BTreeMap::new();
        for key in order.keys {
            let mut row = MatrixRow { number: key.1, all: Vec::new(), cells: vec![None; sizes.len()] };
            for line in order.lines.get(&key).into_iter().flatten() {
                match line.size.as_deref().and_then(|size| sizes.iter().position(|known| *known == size)) {
                    Some(size) => row.cells[size] = Some(line),
                    None => row.all.push(line),
                }
            }
            let place = key.0.unwrap_or(usize::MAX);
            parts.entry(place).or_insert_with(|| MatrixPart { section: key.0, rows: Vec::new() }).add(row);
        }
        Matrix { sizes, parts: parts.into_values().collect() }
    }
}

/// The numbers in an order that agrees with that of each size as far as can be.
#[derive(Default)]
struct Order<'w> {
    keys: Vec<Key<'w>>,
    lines: BTreeMap<Key<'w>, Vec<&'w Line>>,
    size: Option<&'w str>,
    counted: BTreeMap<(Option<usize>, &'w str), usize>,
    /// After which key the next new one goes.
    after: usize,
}

impl<'w> Order<'w> {
    fn add(&mut self, line: &'w Line, section: Option<usize>) {
        if self.size != line.size.as_deref() {
            self.size = line.size.as_deref();
            self.counted.clear();
            self.after = 0;
        }
        let count = self.counted.entry((section, line.number.as_str())).or_insert(0);
        let key = (section, line.number.as_str(), *count);
        *count += 1;
        let of_key = self.lines.entry(key).or_default();
        of_key.push(line);
        if of_key.len() > 1 {
            self.after = self.keys.iter().position(|known| *known == key).map_or(self.after, |place| place + 1);
        } else {
            // Those for all sizes come before any size, and the first size begins after them.
            self.after = if line.size.is_some() { self.after.max(self.of_all()) } else { self.after };
            self.keys.insert(self.after, key);
            self.after += 1;
        }
    }

    /// How many numbers are of the pattern as a whole: these come first.
    fn of_all(&self) -> usize {
        let is_of_all = |key: &&Key<'w>| self.lines.get(*key).is_some_and(|lines| lines[0].size.is_none());
        self.keys.iter().take_while(is_of_all).count()
    }
}

/// What is needed, where that says more than what is stated.
pub fn needed_beside(line: &Line) -> Option<&str> {
    let same = line.status == Status::Ok && (is_even(line) || plain(&line.stated) == plain(&line.needed));
    (!line.needed.is_empty() && !same).then_some(line.needed.as_str())
}

/// Whether just as much is stated as is needed, in both halves of a pair.
pub fn is_even(line: &Line) -> bool {
    line.margin.sign() == Some(Sign::Even) && !line.margin.signed().contains('+')
}

/// A quantity without units, and a square as one of its sides.
fn plain(quantity: &str) -> String {
    let words: Vec<&str> =
        quantity.split_whitespace().filter(|word| !matches!(*word, "in" | "cm" | "square")).collect();
    let words = words.join(" ");
    match words.split_once(" x ") {
        Some((width, length)) if width == length => width.to_string(),
        _ => words,
    }
}

#[cfg(test)]
mod tests {
    use super::{Matrix, needed_beside};
    use crate::manuscript::Source;
    use crate::rule_book::Settings;
    use crate::worksheet::Worksheet;

    const TEXT: &str = "\
pattern: P
measure: inch
assumes: { usable_width: 40, seam: 1/4 }
sizes:
  small: { finished: 36 x 48 }
  large: { finished: 54 x 72 }
binding:
  strip_width: 2 1/2
  fold: double
  requires:
    large: { strips: 6, fabric: 5/8 yd }
    small: { strips: 6 }
";

    fn rows(matrix: &Matrix<'_>) -> Vec<(String, Option<String>, Vec<Option<String>>)> {
        let stated = |line: &crate::audit::Line| line.stated.clone();
        let rows = matrix.parts.iter().flat_map(|part| &part.rows);
        rows.map(|row| {
            let cells = row.cells.iter().map(|cell| cell.map(stated)).collect();
            (row.number.to_string(), row.all.first().copied().map(stated), cells)
        })
        .collect()
    }

    #[test]
    fn each_number_is_one_row_with_the_sizes_side_by_side() {
        let worksheet = Worksheet::new(&Source::from_text("x.pattern.yaml", TEXT), &Settings::default());
        let matrix = worksheet.matrix();
        assert_eq!(matrix.sizes, ["small", "large"]);
        let some = |text: &str| Some(text.to_string());
        let expected = [
            ("usable_width", some("40"), vec![None, None]),
            ("seam", some("1/4"), vec![None, None]),
            ("finished", None, vec![some("36 x 48"), some("54 x 72")]),
            ("binding strip_width", some("2 1/2"), vec![None, None]),
            ("binding strips", None, vec![some("6"), some("6")]),
            ("binding fabric", None, vec![None, some("5/8 yd")]),
        ];
        assert_eq!(rows(&matrix), expected.map(|(number, all, cells)| (number.to_string(), all, cells)));
    }

    #[test]
    fn what_is_needed_is_beside_what_is_stated_only_where_it_says_more() {
        let worksheet = Worksheet::new(&Source::from_text("x.pattern.yaml", TEXT), &Settings::default());
        let beside = |size: Option<&str>, number: &str| {
            let of = |line: &&crate::audit::Line| line.number == number && line.size.as_deref() == size;
            needed_beside(worksheet.account.lines.iter().find(of).unwrap()).map(str::to_string)
        };
        assert_eq!(beside(None, "usable_width"), None);
        assert_eq!(beside(None, "binding strip_width").as_deref(), Some("1 3/4 in or more"));
        // (54 + 72) x 2 = 252 in, and 22 in more for corners, tails and opening: 8 strips of 40 in.
        assert_eq!(beside(Some("large"), "binding strips").as_deref(), Some("8"));
    }
}
