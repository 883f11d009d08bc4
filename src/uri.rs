//! Paths as URI references (RFC 3986): relative ones stay relative, and every byte that might mean something else is
//! written as a percent sign and two digits.

use std::path::Path;

/// A path as a URI reference, and whether it is relative.
pub(crate) fn reference(path: &Path) -> (String, bool) {
    reference_of(path.as_os_str().as_encoded_bytes(), cfg!(windows))
}

fn reference_of(path: &[u8], windows: bool) -> (String, bool) {
    let path: Vec<u8> = path.iter().map(|byte| if windows && *byte == b'\\' { b'/' } else { *byte }).collect();
    // A network folder of Windows names its computer where a URI does too.
    if windows && let Some(shared) = path.strip_prefix(b"//") {
        return (format!("file://{}", encoded(shared)), false);
    }
    if windows && path.len() > 2 && path[0].is_ascii_alphabetic() && path[1..].starts_with(b":/") {
        return (format!("file:///{}:{}", char::from(path[0]), encoded(&path[2..])), false);
    }
    if path.starts_with(b"/") {
        return (format!("file://{}", encoded(&path)), false);
    }
    (encoded(&path), true)
}

fn encoded(path: &[u8]) -> String {
    let mut uri = String::with_capacity(path.len());
    for byte in path {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => uri.push(char::from(*byte)),
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
    }
    uri
}

#[cfg(test)]
mod tests {
    use super::reference_of;

    #[test]
    fn paths_of_unix() {
        let reference = |path: &[u8]| reference_of(path, false);
        assert_eq!(reference(b"my patterns/a.pattern.yaml"), ("my%20patterns/a.pattern.yaml".into(), true));
        assert_eq!(reference(b"/home/a#b/c?d.yaml"), ("file:///home/a%23b/c%3Fd.yaml".into(), false));
        // A colon in the first part would read as the name of a scheme, and a backslash is a letter like any other.
        assert_eq!(reference(b"c:\\x%20.yaml"), ("c%3A%5Cx%2520.yaml".into(), true));
        assert_eq!(reference("../\u{e9}t\u{e9}.yaml".as_bytes()), ("../%C3%A9t%C3%A9.yaml".into(), true));
        assert_eq!(reference(b"\xff[1].yaml"), ("%FF%5B1%5D.yaml".into(), true));
    }

    #[test]
    fn paths_of_windows() {
        let reference = |path: &[u8]| reference_of(path, true);
        assert_eq!(reference(br"my patterns\a.pattern.yaml"), ("my%20patterns/a.pattern.yaml".into(), true));
        assert_eq!(reference(br"C:\patterns\a.yaml"), ("file:///C:/patterns/a.yaml".into(), false));
        assert_eq!(reference(br"\\studio\patterns\a.yaml"), ("file://studio/patterns/a.yaml".into(), false));
    }
}
