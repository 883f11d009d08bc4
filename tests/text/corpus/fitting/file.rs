//! The file of the weights: in each line a sign, a tab and its weight.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use sparestrip::atomic_write::write_whole;

use crate::text::corpus::contents;

fn path() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("rules/words/text-weights.txt")
}

/// Writes the weights, in the order of their signs, and says where.
pub(super) fn write(weights: &BTreeMap<String, i32>) -> String {
    let lines: String = weights
        .iter()
        .filter(|(_, weight)| **weight != 0)
        .map(|(sign, weight)| format!("{sign}\t{weight}\n"))
        .collect();
    assert_eq!(faults(&lines), Vec::<String>::new());
    let path = std::env::var_os("FIT_OUT").map_or_else(path, PathBuf::from);
    write_whole(&path, |out| out.write_all(lines.as_bytes())).unwrap();
    format!("{} weights in {}", lines.lines().count(), path.display())
}

/// What is wrong with the lines of such a file.
fn faults(lines: &str) -> Vec<String> {
    let mut faults = Vec::new();
    let mut before = "";
    for line in lines.lines() {
        let Some((sign, weight)) = line.split_once('\t') else {
            faults.push(format!("{line:?} is no sign, tab and weight"));
            continue;
        };
        if sign.is_empty() || sign.starts_with('#') {
            faults.push(format!("{line:?} has no sign"));
        }
        if sign <= before {
            faults.push(format!("{sign:?} stands after {before:?}"));
        }
        if !weight.parse::<i16>().is_ok_and(|weight| weight != 0) {
            faults.push(format!("{weight:?} is no weight of {sign:?}"));
        }
        before = sign;
    }
    faults
}

#[test]
fn the_weights_are_sorted_and_no_sign_stands_there_twice_or_for_nothing() {
    assert_eq!(faults(&contents(&path())), Vec::<String>::new());
}

#[test]
fn what_is_wrong_with_a_file_of_weights_is_found() {
    assert_eq!(faults("a\t-3\na b\t12\n"), Vec::<String>::new());
    let wrong = "b\t1\na\t1\na\t2\nc\t0\nd\t40000\ne 1\n\t5\n";
    let says = [
        "\"a\" stands after \"b\"",
        "\"a\" stands after \"a\"",
        "\"0\" is no weight of \"c\"",
        "\"40000\" is no weight of \"d\"",
        "\"e 1\" is no sign, tab and weight",
        "\"\\t5\" has no sign",
        "\"\" stands after \"d\"",
    ];
    assert_eq!(faults(wrong), says);
}
