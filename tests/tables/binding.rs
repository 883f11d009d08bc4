//! Binding that is cut from a fabric of the list.

use super::facts;

const TEXT: &str = "\
pattern: Weir Lanterns
measure: inch
sizes:
  lap: { finished: 50 x 60 }
  twin: { finished: 66 x 86 }
binding:
  from: ink
  strip_width: 2 1/2
  grain: crosswise
  requires:
    lap: { strips: 7 }
    twin: { strips: 10 }
fabrics:
  ink:
    requires: { lap: 1 yd, twin: 1 1/4 yd }
    cut:
      - { piece: A, size: 3 1/2 x 3 1/2, strips: { lap: 4, twin: 5 }, pieces: { lap: 44, twin: 55 } }
  chalk:
    requires: { lap: 1/4 yd, twin: 1/4 yd }
    cut:
      - { piece: B, size: 3 1/2 x 3 1/2, pieces: { lap: 11, twin: 11 } }
";

#[test]
fn binding_strips_stand_in_the_cutting_table_of_the_fabric_that_they_are_cut_from() {
    let facts = facts(TEXT);
    for fact in [
        ["Cut from ink", "binding", "cut strips", "", "2 1/2 in"],
        ["Cut from ink", "binding", "grain", "", "crosswise"],
        ["Cut from ink", "binding", "strips", "lap", "7"],
        ["Cut from ink", "binding", "strips", "twin", "10"],
    ] {
        assert!(facts.contains(&fact.map(String::from)), "{fact:?} is not in {facts:#?}");
    }
    assert!(!facts.iter().any(|fact| fact[0] == "Cut from chalk" && fact[1] == "binding"));
}

/// A fabric that nothing else is cut from has a table for the binding.
#[test]
fn binding_alone_has_a_cutting_table() {
    let text = TEXT.replace(
        "    cut:\n      - { piece: A, size: 3 1/2 x 3 1/2, strips: { lap: 4, twin: 5 }, pieces: { lap: 44, twin: 55 } }\n",
        "",
    );
    assert!(facts(&text).contains(&["Cut from ink", "binding", "strips", "lap", "7"].map(String::from)));
}
