//! Elements of HTML by what they are, their attributes, and character references.

use html5gum::Tokenizer;
use html5gum::emitters::default::{StartTag, Token};

pub(super) fn name(name: &[u8]) -> String {
    String::from_utf8_lossy(name).into_owned()
}

/// How many bytes a character reference takes that begins with `&`, or 1 where there is none.
pub(super) fn reference_length(text: &str) -> usize {
    if text.is_empty() {
        return 0;
    }
    let body = text[1..].bytes().take(40).take_while(|byte| byte.is_ascii_alphanumeric() || *byte == b'#').count();
    match body {
        0 => 1,
        _ => 1 + body + usize::from(text[1 + body..].starts_with(';')),
    }
}

/// What a character reference stands for, by the rules for text in HTML.
pub(super) fn referred(reference: &str) -> String {
    let common =
        [("&amp;", "&"), ("&lt;", "<"), ("&gt;", ">"), ("&quot;", "\""), ("&nbsp;", "\u{a0}"), ("&frac12;", "½")];
    if let Some((_, text)) = common.iter().find(|(name, _)| *name == reference) {
        return (*text).to_owned();
    }
    let mut referred = String::new();
    for token in Tokenizer::new(reference) {
        let Ok(token) = token;
        if let Token::String(string) = token {
            referred.push_str(&String::from_utf8_lossy(&string));
        }
    }
    referred
}

pub(super) fn number(tag: &StartTag<usize>, attribute: &str) -> u32 {
    let value = tag.attributes.get(attribute.as_bytes()).map(|value| name(value)).unwrap_or_default();
    value.trim().parse().unwrap_or(1)
}

pub(super) fn style_of(tag: &StartTag<usize>) -> String {
    let style = tag.attributes.get(b"style".as_slice()).map(|value| name(value)).unwrap_or_default();
    style.chars().filter(|ch| !ch.is_whitespace()).flat_map(char::to_lowercase).collect()
}

pub(super) fn is_hidden(tag: &StartTag<usize>) -> bool {
    let style = style_of(tag);
    tag.attributes.contains_key(b"hidden".as_slice())
        || style.contains("display:none")
        || style.contains("visibility:hidden")
        || style.contains("text-decoration:line-through")
}

pub(super) fn heading_level(name: &str) -> Option<u8> {
    match name.as_bytes() {
        [b'h', level @ b'1'..=b'6'] => Some(level - b'0'),
        _ => None,
    }
}

/// Elements that hold nothing.
pub(super) fn is_void(name: &str) -> bool {
    matches!(
        name,
        "area"
            | "base"
            | "br"
            | "col"
            | "embed"
            | "hr"
            | "img"
            | "input"
            | "link"
            | "meta"
            | "source"
            | "track"
            | "wbr"
    )
}

/// Elements of which nothing is shown as text, and what is struck out.
pub(super) fn is_unseen(name: &str) -> bool {
    matches!(
        name,
        "audio"
            | "button"
            | "canvas"
            | "datalist"
            | "del"
            | "head"
            | "iframe"
            | "math"
            | "noembed"
            | "noframes"
            | "noscript"
            | "object"
            | "rp"
            | "rt"
            | "s"
            | "script"
            | "select"
            | "strike"
            | "style"
            | "svg"
            | "template"
            | "textarea"
            | "title"
            | "video"
    )
}

/// Elements that begin and end lines of their own.
pub(super) fn is_block(name: &str) -> bool {
    matches!(
        name,
        "address"
            | "article"
            | "aside"
            | "blockquote"
            | "body"
            | "caption"
            | "center"
            | "dd"
            | "details"
            | "div"
            | "dl"
            | "dt"
            | "fieldset"
            | "figcaption"
            | "figure"
            | "footer"
            | "form"
            | "h1"
            | "h2"
            | "h3"
            | "h4"
            | "h5"
            | "h6"
            | "header"
            | "hr"
            | "html"
            | "legend"
            | "li"
            | "main"
            | "menu"
            | "nav"
            | "ol"
            | "p"
            | "pre"
            | "section"
            | "summary"
            | "table"
            | "tbody"
            | "td"
            | "tfoot"
            | "th"
            | "thead"
            | "tr"
            | "ul"
    )
}
