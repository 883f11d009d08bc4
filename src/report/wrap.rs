//! Lines no wider than there is room for, broken at spaces and not within a quantity.

use unicode_width::UnicodeWidthChar;

use super::nonbreaking::is_in_quantity;

/// The text in lines of so many columns. What is wider than a line is broken where the line ends.
pub(super) fn wrap(text: &str, columns: usize) -> String {
    let mut wrapped = String::with_capacity(text.len() + text.len() / 16);
    for (at, line) in text.split('\n').enumerate() {
        if at > 0 {
            wrapped.push('\n');
        }
        add_line(line.trim_end_matches(' '), columns, &mut wrapped);
    }
    wrapped
}

fn add_line(line: &str, columns: usize, wrapped: &mut String) {
    let mut start = 0;
    loop {
        let fits = start + bytes_in(&line[start..], columns);
        if fits == line.len() {
            return wrapped.push_str(&line[start..]);
        }
        let end = last_break(line, start, fits).unwrap_or(fits);
        wrapped.push_str(line[start..end].trim_end_matches(' '));
        wrapped.push('\n');
        start = line.len() - line[end..].trim_start_matches(' ').len();
    }
}

/// How many bytes of a line fit into so many columns, one character of it at least.
fn bytes_in(line: &str, columns: usize) -> usize {
    // No character is wider than it has bytes.
    if line.len() <= columns {
        return line.len();
    }
    let mut used = 0;
    for (at, c) in line.char_indices() {
        used += c.width().unwrap_or(0);
        if used > columns && at > 0 {
            return at;
        }
    }
    line.len()
}

/// The last space up to a byte at which a line may end.
fn last_break(line: &str, start: usize, fits: usize) -> Option<usize> {
    let spaces = (start..=fits).rev().filter(|at| line.as_bytes()[*at] == b' ');
    let says_something = |at: &usize| line[start..*at].contains(|c: char| c != ' ');
    spaces.take_while(says_something).find(|at| !is_in_quantity(line, *at))
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
