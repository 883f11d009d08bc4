//! Drawings worked out by hand.

use super::{edge, list, worksheet};

/// Round it goes: from the middle of the right side, 25 in down to corner 1, 36 in to corner 2, 50 in, 36 in.
const MAT: &str = "pattern: Test Mat
measure: inch
assumes: { usable_width: 40 }
sizes:
  crib: { finished: 36 x 50 }
binding:
  strip_width: 2 1/2
  tails: { start: 10, end: 8 }
  opening: 12
  requires:
    crib: { strips: 6, fabric: 1/2 yd }
backing:
  overhang: 4
  seam: 1/2
  requires:
    crib: { fabric: 3 yd, panels: 2, panels_run: across }
batting:
  requires:
    crib: 42 x 56
";

fn shown<'v>(values: impl IntoIterator<Item = &'v serde_json::Value>) -> Vec<&'v str> {
    values.into_iter().map(|value| value["shown"].as_str().unwrap_or("none")).collect()
}

#[test]
fn the_binding_of_a_crib_quilt() {
    let (_, json) = worksheet(MAT);
    let edge = edge(&json);
    // 172 round + 4 x 1/2 + 10 + 8 - 12 = 180; 6 x 40 - 5 x 2 1/2 = 227 1/2.
    let whole = shown([&edge["round"], &edge["needed"], &edge["had"], &edge["over"], &edge["short"]]);
    assert_eq!(whole, ["172 in", "180 in", "227 1/2 in", "47 1/2 in", "none"]);
    assert_eq!((&edge["strips"]["enough"], &edge["strips"]["left_over"]), (&5.into(), &1.into()));
    let laid = &edge["laid"];
    let corners = shown(list(&laid["corners"]).iter().map(|corner| &corner["at"]));
    assert_eq!(corners, ["25 in", "61 1/2 in", "112 in", "148 1/2 in"]);
    // The first strip's far end is 30 in past the start, and the join lies across the 2 1/2 in before it.
    let joins = shown(list(&laid["joins"]).iter().map(|join| &join["at"]));
    assert_eq!(joins, ["28 3/4 in", "66 1/4 in", "103 3/4 in", "141 1/4 in"]);
    let past = shown(list(&laid["joins"]).iter().map(|join| &join["past_corner"]));
    assert_eq!(past, ["3 1/4 in", "4 1/4 in", "41 3/4 in", "28 3/4 in"]);
    let last = list(&laid["strips"]).last().unwrap();
    // 172 - 12 + 2 = 162 sewn and a tail of 8; five strips reach 190 - 10 = 180, of which 10 is cut off.
    assert_eq!(shown([&laid["sewn"], &last["ends"], &laid["cut_off"]]), ["162 in", "170 in", "10 in"]);
}

#[test]
fn the_fabric_and_the_backing_of_a_crib_quilt() {
    let (_, json) = worksheet(MAT);
    let size = &json["drawings"]["sizes"][0];
    let fabric = &size["fabrics"][0];
    assert_eq!(shown([&fabric["used"], &fabric["left"], &fabric["stated"]]), ["15 in", "3 in", "1/2 yd (18 in)"]);
    let backing = &size["backing"];
    // Across: 2 x 40 - 2 x 1/2 = 79 for 58, each 44 long.
    let told = shown([&backing["sewn"], &backing["across"], &backing["trimmed"], &backing["each"]]);
    assert_eq!(told, ["79 in", "58 in", "21 in", "44 in"]);
    let panels = list(&backing["panels"]);
    assert_eq!(shown(panels.iter().map(|panel| &panel["ends"])), ["39 1/2 in", "79 in"]);
    assert_eq!(shown([&backing["batting"]["width"], &backing["batting"]["length"]]), ["42 in", "56 in"]);
}

#[test]
fn a_short_binding_ends_where_it_ends() {
    let (_, json) = worksheet(&MAT.replace("strips: 6", "strips: 4"));
    let edge = edge(&json);
    // 4 x 40 - 3 x 2 1/2 = 152 1/2, which ends 142 1/2 past the start; 180 is needed.
    assert_eq!(shown([&edge["had"], &edge["short"], &edge["over"]]), ["152 1/2 in", "27 1/2 in", "none"]);
    assert_eq!(shown([&edge["laid"]["ends"], &edge["laid"]["cut_off"]]), ["142 1/2 in", "none"]);
    assert_eq!(list(&edge["laid"]["joins"]).len(), 3);
}

#[test]
fn tails_that_nobody_states_are_said_to_be_assumed() {
    let text = MAT.replace("tails: { start: 10, end: 8 }\n  opening: 12", "extra_length: 20");
    let (worksheet, json) = worksheet(&text);
    let laid = &edge(&json)["laid"];
    assert_eq!(laid["assumed"], true);
    // 192 asked, 174 with the corners: 18 beyond, half of it at each end.
    assert_eq!(shown([&laid["start_tail"], &laid["end_tail"]]), ["9 in", "9 in"]);
    let figures = sparestrip::report::figure::figures(&worksheet.drawings);
    for words in [&figures[0].caption, &figures[0].alternative] {
        assert!(words.contains("nobody knows where the first stitch is"), "{words}");
    }
    assert!(figures[0].svg.contains("start tail 9 in (assumed)"));
}

#[test]
fn an_opening_that_fits_nowhere_leaves_the_edge_bare_and_says_so() {
    let (worksheet, json) = worksheet(&MAT.replace("36 x 50", "6 x 6"));
    assert_eq!(edge(&json)["not_laid"], "The opening does not fit on any side.");
    let figures = sparestrip::report::figure::figures(&worksheet.drawings);
    assert!(figures[0].caption.contains("the opening does not fit on any side"), "{}", figures[0].caption);
    assert!(!figures[0].svg.contains("data-join"));
}

#[test]
fn what_cannot_be_read_is_not_drawn_and_the_rest_is() {
    let (_, json) = worksheet(&MAT.replace("strip_width: 2 1/2", "strip_width: wide"));
    let size = &json["drawings"]["sizes"][0];
    assert!(size["edge"].is_null() && list(&size["fabrics"]).is_empty(), "{size}");
    assert!(size["backing"].is_object());
}

#[test]
fn bias_from_a_square_has_no_joins_and_bias_strips_have() {
    let bias = MAT.replace("  strip_width: 2 1/2", "  strip_width: 2 1/2\n  grain: bias");
    let (_, json) = worksheet(&bias.replace("strips: 6, fabric: 1/2 yd", "square: 24"));
    assert_eq!(edge(&json)["continuous"], true);
    assert_eq!((list(&edge(&json)["laid"]["joins"]).len(), list(&edge(&json)["laid"]["strips"]).len()), (0, 1));
    // 23 1/2 squared over 2 1/2.
    assert_eq!(edge(&json)["had"]["inches"], "2209/10");
    let (_, json) = worksheet(&bias.replace("strips: 6, fabric: 1/2 yd", "strips: 7, strip_length: 30"));
    assert_eq!(edge(&json)["continuous"], false);
    // Each strip adds a little less than 29 5/16: the seventh is needed.
    assert_eq!(list(&edge(&json)["laid"]["joins"]).len(), 6);
}

#[test]
fn bias_of_which_only_the_fabric_is_stated_is_drawn_in_the_strips_that_the_check_counts() {
    let bias = MAT.replace("  strip_width: 2 1/2", "  strip_width: 2 1/2\n  grain: bias");
    let (_, json) = worksheet(&bias.replace("strips: 6, fabric: 1/2 yd", "fabric: 1/2 yd"));
    // Strips across 18 in are 25.455 in long, and a join takes 0.707 in: seven make 173.9 in, eight 198.6 in, and
    // 180 in are needed. Each takes 3.5355 in of 40 in less two seams, so there are eleven.
    assert_eq!(edge(&json)["continuous"], false);
    assert_eq!(list(&edge(&json)["laid"]["joins"]).len(), 7);
    assert_eq!((&edge(&json)["strips"]["count"], &edge(&json)["strips"]["stated"]), (&8.into(), &false.into()));
    let fabric = &json["drawings"]["sizes"][0]["fabrics"][0];
    assert_eq!((&fabric["kind"], &fabric["wanted"], &fabric["gives"]), (&"bias".into(), &8.into(), &11.into()));
}

#[test]
fn fabric_that_panels_take_is_told_no_shorter_than_the_panels() {
    let text = "pattern: Test Mat\nmeasure: cm\nsizes:\n  mat: { finished: 120 x 150 }\n\
        backing: { usable_width: 270, requires: { mat: { fabric: 1.8 m, panels: 1, panels_run: along } } }\n";
    let caption = |text: &str| {
        let (worksheet, _) = worksheet(text);
        sparestrip::report::figure::figures(&worksheet.drawings)[0].caption.clone()
    };
    assert!(caption(text).ends_with(" It takes 1.7032 m; 1.8 m stated."), "{}", caption(text));
    let short = text.replace("1.8 m", "1.5 m");
    assert!(caption(&short).ends_with(" It takes 1.7032 m; 1.5 m stated, which is too little."), "{}", caption(&short));
    let (_, json) = worksheet(text);
    let backing = &json["drawings"]["sizes"][0]["backing"];
    // 150 cm and twice 4 in are 170.32 cm.
    assert_eq!(shown([&backing["each"], &backing["fabric"]]), ["1703.2 mm", "1.7032 m"]);
}
