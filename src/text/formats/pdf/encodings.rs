//! The encodings of single bytes that PDF defines, and what the names of shapes say that they are.

use super::super::decode::older;

/// What the bytes from 0x80 on are in the encoding of older Macs.
const MAC_ROMAN: &str = "ÄÅÇÉÑÖÜáàâäãåçéèêëíìîïñóòôöõúùûü†°¢£§•¶ß®©™´¨≠ÆØ∞±≤≥¥µ∂∑∏π∫ªºΩæø¿¡¬√ƒ≈∆«»…\u{a0}ÀÃÕŒœ–—“”‘’÷◊ÿŸ⁄€‹›ﬁﬂ‡·‚„‰ÂÊÁËÈÍÎÏÌÓÔ\u{fffd}ÒÚÛÙıˆ˜¯˘˙˚¸˝˛ˇ";

/// What is not ASCII in the encoding that fonts have unless they say otherwise.
const STANDARD: &[(u8, char)] = &[
    (0x27, '’'),
    (0x60, '‘'),
    (0xa1, '¡'),
    (0xa2, '¢'),
    (0xa3, '£'),
    (0xa4, '⁄'),
    (0xa5, '¥'),
    (0xa6, 'ƒ'),
    (0xa7, '§'),
    (0xa8, '¤'),
    (0xa9, '\''),
    (0xaa, '“'),
    (0xab, '«'),
    (0xac, '‹'),
    (0xad, '›'),
    (0xae, 'ﬁ'),
    (0xaf, 'ﬂ'),
    (0xb1, '–'),
    (0xb2, '†'),
    (0xb3, '‡'),
    (0xb4, '·'),
    (0xb6, '¶'),
    (0xb7, '•'),
    (0xb8, '‚'),
    (0xb9, '„'),
    (0xba, '”'),
    (0xbb, '»'),
    (0xbc, '…'),
    (0xbd, '‰'),
    (0xbf, '¿'),
    (0xd0, '—'),
    (0xe1, 'Æ'),
    (0xe3, 'ª'),
    (0xe8, 'Ł'),
    (0xe9, 'Ø'),
    (0xea, 'Œ'),
    (0xeb, 'º'),
    (0xf1, 'æ'),
    (0xf5, 'ı'),
    (0xf8, 'ł'),
    (0xf9, 'ø'),
    (0xfa, 'œ'),
    (0xfb, 'ß'),
];

/// The names of shapes that are no single letters.
const NAMES: &[(&str, char)] = &[
    ("space", ' '),
    ("nbspace", ' '),
    ("nonbreakingspace", ' '),
    ("exclam", '!'),
    ("quotedbl", '"'),
    ("numbersign", '#'),
    ("dollar", '$'),
    ("percent", '%'),
    ("ampersand", '&'),
    ("quotesingle", '\''),
    ("parenleft", '('),
    ("parenright", ')'),
    ("asterisk", '*'),
    ("plus", '+'),
    ("comma", ','),
    ("hyphen", '-'),
    ("sfthyphen", '\u{ad}'),
    ("softhyphen", '\u{ad}'),
    ("minus", '−'),
    ("period", '.'),
    ("slash", '/'),
    ("zero", '0'),
    ("one", '1'),
    ("two", '2'),
    ("three", '3'),
    ("four", '4'),
    ("five", '5'),
    ("six", '6'),
    ("seven", '7'),
    ("eight", '8'),
    ("nine", '9'),
    ("colon", ':'),
    ("semicolon", ';'),
    ("less", '<'),
    ("equal", '='),
    ("greater", '>'),
    ("question", '?'),
    ("at", '@'),
    ("bracketleft", '['),
    ("backslash", '\\'),
    ("bracketright", ']'),
    ("asciicircum", '^'),
    ("underscore", '_'),
    ("grave", '`'),
    ("braceleft", '{'),
    ("bar", '|'),
    ("braceright", '}'),
    ("asciitilde", '~'),
    ("quoteleft", '‘'),
    ("quoteright", '’'),
    ("quotedblleft", '“'),
    ("quotedblright", '”'),
    ("quotesinglbase", '‚'),
    ("quotedblbase", '„'),
    ("guillemotleft", '«'),
    ("guillemotright", '»'),
    ("guilsinglleft", '‹'),
    ("guilsinglright", '›'),
    ("endash", '–'),
    ("emdash", '—'),
    ("figuredash", '‒'),
    ("bullet", '•'),
    ("periodcentered", '·'),
    ("ellipsis", '…'),
    ("dagger", '†'),
    ("daggerdbl", '‡'),
    ("section", '§'),
    ("paragraph", '¶'),
    ("degree", '°'),
    ("multiply", '×'),
    ("divide", '÷'),
    ("plusminus", '±'),
    ("fraction", '⁄'),
    ("minute", '′'),
    ("second", '″'),
    ("onehalf", '½'),
    ("onequarter", '¼'),
    ("threequarters", '¾'),
    ("onethird", '⅓'),
    ("twothirds", '⅔'),
    ("oneeighth", '⅛'),
    ("threeeighths", '⅜'),
    ("fiveeighths", '⅝'),
    ("seveneighths", '⅞'),
    ("zerosuperior", '⁰'),
    ("onesuperior", '¹'),
    ("twosuperior", '²'),
    ("threesuperior", '³'),
    ("foursuperior", '⁴'),
    ("fivesuperior", '⁵'),
    ("sixsuperior", '⁶'),
    ("sevensuperior", '⁷'),
    ("eightsuperior", '⁸'),
    ("ninesuperior", '⁹'),
    ("zeroinferior", '₀'),
    ("oneinferior", '₁'),
    ("twoinferior", '₂'),
    ("threeinferior", '₃'),
    ("fourinferior", '₄'),
    ("fiveinferior", '₅'),
    ("sixinferior", '₆'),
    ("seveninferior", '₇'),
    ("eightinferior", '₈'),
    ("nineinferior", '₉'),
    ("zerooldstyle", '0'),
    ("oneoldstyle", '1'),
    ("twooldstyle", '2'),
    ("threeoldstyle", '3'),
    ("fouroldstyle", '4'),
    ("fiveoldstyle", '5'),
    ("sixoldstyle", '6'),
    ("sevenoldstyle", '7'),
    ("eightoldstyle", '8'),
    ("nineoldstyle", '9'),
    ("ff", 'ﬀ'),
    ("fi", 'ﬁ'),
    ("fl", 'ﬂ'),
    ("ffi", 'ﬃ'),
    ("ffl", 'ﬄ'),
    ("copyright", '©'),
    ("registered", '®'),
    ("trademark", '™'),
    ("cent", '¢'),
    ("sterling", '£'),
    ("Euro", '€'),
    ("euro", '€'),
    ("yen", '¥'),
    ("exclamdown", '¡'),
    ("questiondown", '¿'),
    ("AE", 'Æ'),
    ("ae", 'æ'),
    ("OE", 'Œ'),
    ("oe", 'œ'),
    ("Oslash", 'Ø'),
    ("oslash", 'ø'),
    ("germandbls", 'ß'),
    ("dotlessi", 'ı'),
    ("arrowright", '→'),
    ("arrowleft", '←'),
    ("lozenge", '◊'),
    ("square", '□'),
    ("filledbox", '■'),
    ("mu", 'µ'),
];

/// The letters that carry a mark, by the mark's name.
const MARKED: &[(&str, &str, &str)] = &[
    ("grave", "AEIOUaeiou", "ÀÈÌÒÙàèìòù"),
    ("acute", "AEIOUYaeiouy", "ÁÉÍÓÚÝáéíóúý"),
    ("circumflex", "AEIOUaeiou", "ÂÊÎÔÛâêîôû"),
    ("dieresis", "AEIOUYaeiouy", "ÄËÏÖÜŸäëïöüÿ"),
    ("tilde", "ANOano", "ÃÑÕãñõ"),
    ("ring", "Aa", "Åå"),
    ("cedilla", "Cc", "Çç"),
    ("caron", "SZsz", "ŠŽšž"),
    ("slash", "Oo", "Øø"),
];

/// What a byte is in an encoding of this name; what has no name, the standard one.
pub(super) fn letter(encoding: &[u8], byte: u8) -> Option<char> {
    let letter = match (encoding, byte) {
        (_, 0..=31 | 127) => return None,
        (b"WinAnsiEncoding", 0x95) => '•',
        (b"WinAnsiEncoding", 0xad) => '-',
        (b"WinAnsiEncoding", 0x80..) => older(byte),
        (b"MacRomanEncoding", 0x80..) => MAC_ROMAN.chars().nth(usize::from(byte) - 0x80)?,
        (b"WinAnsiEncoding" | b"MacRomanEncoding", _) => char::from(byte),
        _ => match STANDARD.iter().find(|(code, _)| *code == byte) {
            Some((_, letter)) => *letter,
            None if byte < 127 => char::from(byte),
            None => return None,
        },
    };
    (letter != '\u{fffd}').then_some(letter)
}

/// What the name of a shape says that it is: `onehalf`, `uni00BD`, `one.numr`.
pub(super) fn named(name: &str) -> Option<char> {
    let (stem, style) = name.split_once('.').unwrap_or((name, ""));
    let letter = plainly_named(stem)?;
    let of = |digits: &str| digits.chars().nth(usize::try_from(letter.to_digit(10)?).ok()?);
    let styled = match style {
        "numr" | "numerator" | "sups" | "superior" => of("⁰¹²³⁴⁵⁶⁷⁸⁹"),
        "dnom" | "denominator" | "sinf" | "subs" | "inferior" => of("₀₁₂₃₄₅₆₇₈₉"),
        _ => None,
    };
    Some(styled.unwrap_or(letter))
}

fn plainly_named(stem: &str) -> Option<char> {
    let mut chars = stem.chars();
    if let (Some(only), None) = (chars.next(), chars.next()) {
        return only.is_ascii_alphabetic().then_some(only);
    }
    if let Some((_, letter)) = NAMES.iter().find(|(name, _)| *name == stem) {
        return Some(*letter);
    }
    let code = stem.strip_prefix("uni").filter(|hex| hex.len() == 4);
    let code = code.or_else(|| stem.strip_prefix('u').filter(|hex| (4..=6).contains(&hex.len())));
    if let Some(letter) = code.and_then(|hex| u32::from_str_radix(hex, 16).ok()).and_then(char::from_u32) {
        return Some(letter);
    }
    let bare = stem.chars().next()?;
    let (_, letters, marked) = MARKED.iter().find(|(mark, ..)| stem.get(bare.len_utf8()..) == Some(*mark))?;
    marked.chars().nth(letters.chars().position(|letter| letter == bare)?)
}
