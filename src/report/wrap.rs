//! Lines no wider than there is room for, broken at spaces and not within a quantity.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use super::nonbreaking::pieces;

/// The text in lines of so many columns. What is wider than a line is broken where the line ends.
pub(super) fn wrap(text: &str, columns: usize) -> String {
    let mut wrapped = Wrapped { text: String::with_capacity(text.len() + text.len() / 16), columns, used: 0 };
    for (at, line) in text.split('\n').enumerate() {
        if at > 0 {
            wrapped.end_line();
        }
        wrapped.add_line(line.trim_end_matches(' '));
    }
    wrapped.text
}

/// Lines that are filled one after the other.
struct Wrapped {
    text: String,
    columns: usize,
    /// How many columns of the last line are taken.
    used: usize,
}

impl Wrapped {
    fn end_line(&mut self) {
        self.text.push('\n');
        self.used = 0;
    }

    fn add_line(&mut self, line: &str) {
        // No character is wider than it has bytes.
        if line.len() <= self.columns {
            return self.text.push_str(line);
        }
        let mut gap = 0;
        for (at, piece) in pieces(line).into_iter().enumerate() {
            gap += usize::from(at > 0);
            // Of several spaces, all but one stand between pieces in which is nothing.
            if !piece.is_empty() {
                self.add(piece, gap);
                gap = 0;
            }
        }
    }

    /// Adds a piece after so many spaces, on a line below where this one has no room for both.
    fn add(&mut self, piece: &str, gap: usize) {
        let width = width_of(piece);
        if self.used > 0 && self.used + gap + width > self.columns {
            self.end_line();
        } else {
            self.text.extend(std::iter::repeat_n(' ', gap));
            self.used += gap;
        }
        if self.used + width <= self.columns {
            self.text.push_str(piece);
            self.used += width;
        } else {
            self.add_broken(piece);
        }
    }

    fn add_broken(&mut self, piece: &str) {
        for c in piece.chars() {
            let width = c.width().unwrap_or(0);
            if self.used > 0 && self.used + width > self.columns {
                self.end_line();
            }
            self.text.push(c);
            self.used += width;
        }
    }
}

fn width_of(piece: &str) -> usize {
    if piece.is_ascii() { piece.len() } else { piece.width() }
}

#[cfg(test)]
mod tests {
    use super::wrap;

    #[test]
    fn lines_are_broken_at_spaces_and_not_within_a_quantity() {
        assert_eq!(wrap("Cut 7 strips of 2 1/2 in each.", 16), "Cut 7 strips of\n2 1/2 in each.");
        assert_eq!(wrap("Cut 7 strips of 2 1/2 in each.", 18), "Cut 7 strips of\n2 1/2 in each.");
        assert_eq!(wrap("one two\nthree four", 9), "one two\nthree\nfour");
        assert_eq!(wrap("one two \n\n  three  four", 9), "one two\n\n  three\nfour");
        assert_eq!(wrap("", 9), "");
    }

    #[test]
    fn what_is_wider_than_a_line_is_broken_where_it_ends() {
        assert_eq!(wrap("a abcdefghijkl m", 5), "a\nabcde\nfghij\nkl m");
        assert_eq!(wrap("布布布布 b", 5), "布布\n布布\nb");
        assert_eq!(wrap("naïve café", 5), "naïve\ncafé");
    }
}
