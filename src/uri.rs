//! Paths as URI references (RFC 3986), and back: relative ones stay relative, and every byte that might mean something
//! else is written as a percent sign and two digits.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// A path as a URI reference, and whether it is relative.
pub(crate) fn reference(path: &Path) -> (String, bool) {
    reference_of(path.as_os_str().as_encoded_bytes(), cfg!(windows))
}

fn reference_of(path: &[u8], windows: bool) -> (String, bool) {
    let path: Vec<u8> = path.iter().map(|byte| if windows && *byte == b'\\' { b'/' } else { *byte }).collect();
    // Windows writes so that a path is to be taken as it is.
    let path = match path.strip_prefix(b"//?/UNC/") {
        Some(shared) if windows => [b"//", shared].concat(),
        _ if windows => path.strip_prefix(b"//?/").map(<[u8]>::to_vec).unwrap_or(path),
        _ => path,
    };
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

/// The path that a URI of a file names (RFC 8089); of any other, what stands after its scheme.
pub(crate) fn path_of(uri: &str) -> PathBuf {
    let bytes = bytes_of(uri, cfg!(windows));
    #[cfg(unix)]
    let path = <OsString as std::os::unix::ffi::OsStringExt>::from_vec(bytes);
    #[cfg(not(unix))]
    let path = OsString::from(String::from_utf8_lossy(&bytes).into_owned());
    PathBuf::from(path)
}

fn bytes_of(uri: &str, windows: bool) -> Vec<u8> {
    let is_file = |(scheme, rest): &(&str, &str)| scheme.eq_ignore_ascii_case("file") && rest.starts_with("//");
    let Some((_, rest)) = uri.split_once(':').filter(is_file) else {
        return decoded(uri.split_once(':').map_or(uri, |(_, rest)| rest));
    };
    // The name of a computer stands before the path: this one's, or none, or one that shares a folder.
    let (computer, path) = rest[2..].split_at(rest[2..].find('/').unwrap_or(rest.len() - 2));
    let path = decoded(path);
    match path.as_slice() {
        // `/c:/patterns` is a path of Windows with a slash before it.
        [b'/', drive, b':', ..] if windows && drive.is_ascii_alphabetic() => path[1..].to_vec(),
        _ if windows && !matches!(computer, "" | "localhost") => [b"//", computer.as_bytes(), &path].concat(),
        _ => path,
    }
}

/// A text with `%` and two digits read as the byte that they stand for.
fn decoded(text: &str) -> Vec<u8> {
    let bytes = text.as_bytes();
    let (mut decoded, mut at) = (Vec::with_capacity(bytes.len()), 0);
    while let Some(byte) = bytes.get(at) {
        let digits =
            bytes.get(at + 1..at + 3).filter(|digits| *byte == b'%' && digits.iter().all(u8::is_ascii_hexdigit));
        let digits = digits.and_then(|digits| std::str::from_utf8(digits).ok());
        match digits.and_then(|digits| u8::from_str_radix(digits, 16).ok()) {
            Some(value) => {
                decoded.push(value);
                at += 3;
            }
            None => {
                decoded.push(*byte);
                at += 1;
            }
        }
    }
    decoded
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::{bytes_of, path_of, reference_of};

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
        assert_eq!(reference(br"\\?\C:\patterns\a.yaml"), ("file:///C:/patterns/a.yaml".into(), false));
        assert_eq!(reference(br"\\?\UNC\studio\patterns\a.yaml"), ("file://studio/patterns/a.yaml".into(), false));
    }

    #[test]
    fn uris_name_paths() {
        let paths = [
            ("file:///my%20patterns/caf%C3%A9.pattern.yaml", "/my patterns/caf\u{e9}.pattern.yaml"),
            ("file://localhost/a%23b.pattern.yaml", "/a#b.pattern.yaml"),
            ("FILE:///a.pattern.yaml", "/a.pattern.yaml"),
            ("file:///100%.pattern.yaml", "/100%.pattern.yaml"),
            ("untitled:dune.pattern.yaml", "dune.pattern.yaml"),
            ("file://", ""),
            ("", ""),
        ];
        for (uri, path) in paths {
            assert_eq!(path_of(uri), PathBuf::from(path), "{uri}");
        }
        assert_eq!(bytes_of("file:///%ff%.yaml", false), b"/\xff%.yaml");
    }

    #[test]
    fn uris_name_paths_of_windows() {
        let paths: [(&str, &[u8]); 6] = [
            ("file:///c%3A/my%20patterns/a.yaml", b"c:/my patterns/a.yaml"),
            ("file:///C:/a.yaml", b"C:/a.yaml"),
            ("file://studio/patterns/a.yaml", b"//studio/patterns/a.yaml"),
            ("file://localhost/c:/a.yaml", b"c:/a.yaml"),
            ("file:///1:/a.yaml", b"/1:/a.yaml"),
            ("file:///c", b"/c"),
        ];
        for (uri, path) in paths {
            assert_eq!(bytes_of(uri, true), path, "{uri}");
        }
    }

    #[test]
    fn a_path_as_a_uri_names_the_path_again() {
        let windows: [&[u8]; 3] =
            [br"C:\my patterns\#1 100%.yaml", br"\\studio\pat terns\a.yaml", "d:\\caf\u{e9}.yaml".as_bytes()];
        for path in windows {
            let again = bytes_of(&reference_of(path, true).0, true);
            assert_eq!(again, path.iter().map(|byte| if *byte == b'\\' { b'/' } else { *byte }).collect::<Vec<u8>>());
        }
        for path in [b"/a b/c:\\x#?%25.yaml".as_slice(), b"/\xff.yaml"] {
            assert_eq!(bytes_of(&reference_of(path, false).0, false), path);
        }
    }
}
