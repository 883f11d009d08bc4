//! Names in what was signed: two that are alike, and some that could be taken for quantities.

use super::{NAME, found, signed, write};
use crate::support::GOOD;

/// The fabrics of a pattern in which a writer gave two pieces one name, and whose fabrics are named by fractions.
const FABRICS: &str = "\
fabrics:
  ink:
    requires: { crib: 1 yd, throw: 1 yd, queen: 1 yd }
    cut:
      - { piece: A, size: 3 x 5, pieces: { crib: 8, throw: 8, queen: 8 }, strips: { crib: 1 } }
      - { piece: A, size: 5 x 5, pieces: { crib: 8, throw: 8, queen: 8 } }
  '1/2':
    requires: { crib: 2 yd, throw: 2 yd, queen: 2 yd }
  '0.5':
    requires: { crib: 2 yd, throw: 2 yd, queen: 2 yd }
";

#[test]
fn what_one_of_two_pieces_of_a_name_states_is_not_the_others() {
    let folder = signed(&format!("{GOOD}{FABRICS}"));
    let moved = FABRICS.replace(", strips: { crib: 1 } }", " }").replace("5 x 5, ", "5 x 5, strips: { crib: 1 }, ");
    write(&folder.path().join(NAME), format!("{GOOD}{moved}"));
    let found = found(folder.path());
    let messages: Vec<&str> = found.iter().map(|found| found.2.as_str()).collect();
    assert!(messages.iter().any(|message| message.contains("strips: signed as 1, now not stated")), "{messages:?}");
    assert!(messages.iter().any(|message| message.contains("strips: signed as not stated, now 1")), "{messages:?}");
}

#[test]
fn two_names_that_are_one_quantity_are_two_names() {
    let mut text = format!("{GOOD}{FABRICS}").replace("binding:\n", "binding:\n  from: 1/2\n");
    for amount in [", fabric: 1/2 yd", ", fabric: 3/4 yd", ", fabric: 7/8 yd"] {
        text = text.replace(amount, "");
    }
    let folder = signed(&text);
    write(&folder.path().join(NAME), text.replace("from: 1/2", "from: 0.5"));
    let found = found(folder.path());
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!((found[0].2.as_str(), found[0].3.as_str()), ("Binding from: signed as 1/2, now 0.5.", "0.5"));
}
