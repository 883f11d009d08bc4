//! The formats for continuous integration: against the schema of the standard, read by readers that others wrote, and
//! against one another.

use crate::support;

mod all_formats;
mod at_a_number;
mod cautions;
mod editors;
mod fingerprints;
mod hostile;
mod junit;
mod matchers;
mod rows;
mod sarif;
mod sarif_fixes;
mod schema;
mod seen;
mod to_files;

/// The good manuscript with one strip too few to have a spare (an error), with a query, a finding that is accepted, and
/// the number of a bias binding's strips that nothing checks.
const FOUR_KINDS: &str = "\
pattern: Heron Steps
measure: inch
sizes:
  crib:  { finished: 36 x 48 }
  throw: { finished: 54 x 72 }
  queen: { finished: 90 x 96 }
binding:
  strip_width: 2 1/2
  tails: 10
  opening: 12
  requires:
    crib:  { strips: 5, fabric: 1/2 yd }
    queen: { strips: 11, fabric: 7/8 yd }
fabrics:
  reed: { requires: { crib: 1 yd, throw: 1 yd, queen: 1 yd } }
accepted:
  - { rule: spare-strip, size: queen, stated: 11, because: the kit packs one more }
";
