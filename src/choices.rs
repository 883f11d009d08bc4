//! The choices that the format has a word for, such as how a strip is folded.

use crate::keywords::keywords;

keywords!(
    /// How the strip is folded.
    Fold {
    /// Folded in half lengthwise; two raw edges at the seam.
    Double = "double",
    /// One layer; its second raw edge is turned under.
    Single = "single",
    /// One layer, turned to the back whole; each side of the quilt has a strip of its own.
    Facing = "facing",
});
keywords!(
    /// How the two ends of the binding meet.
    Closing {
    /// By a seam, as strips are joined.
    Joined = "joined",
    /// One end lies inside the other, which is folded under.
    Tucked = "tucked",
});
keywords!(
    /// How strips are joined end to end.
    Join {
    /// At 45 degrees.
    Diagonal = "diagonal",
    /// Across, with a plain seam.
    Straight = "straight",
});
keywords!(
    /// Which way of the fabric strips are cut.
    Grain {
    /// Selvedge to selvedge.
    Crosswise = "crosswise",
    /// Along the selvedge.
    Lengthwise = "lengthwise",
    /// At 45 degrees to the selvedge.
    Bias = "bias",
});
keywords!(
    /// Which way of the fabric pieces are cut.
    CutGrain {
    /// In strips from selvedge to selvedge.
    Crosswise = "crosswise",
    /// Along the selvedge.
    Lengthwise = "lengthwise",
});
keywords!(
    /// What a piece is cut from beside the fabric itself.
    CutFromLeft {
    /// What strips leave at their ends and beside their pieces.
    Remnants = "remnants",
});
keywords!(
    /// How often a square is cut from corner to corner after it is cut.
    CutAgain {
    /// Once, into two triangles.
    Once = "once",
    /// Twice, into four triangles.
    Twice = "twice",
});
keywords!(
    /// A shape that a piece is cut to where that is no rectangle.
    CutShape {
    /// An equilateral triangle.
    Triangle60 = "triangle_60",
    /// Half of an equilateral triangle, for the end of a row.
    HalfTriangle60 = "half_triangle_60",
    /// A regular hexagon.
    Hexagon = "hexagon",
    /// Half of a regular hexagon, with its seam.
    HalfHexagon = "half_hexagon",
    /// Four equal sides, 60 degrees at its points.
    Diamond60 = "diamond_60",
    /// Four equal sides, 45 degrees at its points.
    Diamond45 = "diamond_45",
    /// Opposite sides equal, its base and its height stated.
    Parallelogram = "parallelogram",
    /// Both sides slanting alike, its longer base and its height stated.
    Trapezoid = "trapezoid",
    /// Any shape, of which the box is stated that holds it.
    Template = "template",
});
keywords!(
    /// The angle at the base of a shape.
    CutAngle {
    /// 45 degrees.
    FortyFive = "45",
    /// 60 degrees.
    Sixty = "60",
});
keywords!(
    /// Whether the tips of triangles are cut off.
    Tips {
    /// They reach to the edge of the strip.
    Sharp = "sharp",
    /// They are cut off at the seam.
    Blunt = "blunt",
});
keywords!(
    /// How a fabric is sold.
    SoldAs {
    /// From the bolt.
    Yardage = "yardage",
    /// Half a yard cut in half.
    FatQuarters = "fat_quarters",
    /// A quarter of a yard cut in half.
    FatEighths = "fat_eighths",
    /// Precut strips.
    Strips = "strips",
    /// Precut squares.
    Squares = "squares",
    /// Scraps, of which nobody says how many.
    Scraps = "scraps",
    /// Printed panels.
    Panel = "panel",
});
keywords!(
    /// Yes or no.
    YesNo {
    /// It is so.
    Yes = "yes",
    /// It is not so.
    No = "no",
});
keywords!(
    /// How the folded edge is fastened.
    Finish {
    /// Topstitched by machine.
    Machine = "machine",
    /// Stitched down by hand.
    Hand = "hand",
    /// Stitched in the ditch of the first seam.
    Ditch = "ditch",
});
keywords!(
    /// The way that the panels of a backing run.
    PanelsRun {
    /// Along the length of the quilt.
    Along = "along",
    /// Across its width.
    Across = "across",
});
keywords!(
    /// A size in which batting is sold in a package.
    Packaged {
    /// For a crib.
    Crib = "packaged crib",
    /// For a twin bed.
    Twin = "packaged twin",
    /// For a full bed.
    Full = "packaged full",
    /// For a queen bed.
    Queen = "packaged queen",
    /// For a king bed.
    King = "packaged king",
});
keywords!(
    /// A bed that a quilt is for.
    Bed {
    /// A full-size crib, or cot.
    Crib = "crib",
    /// A twin bed.
    Twin = "twin bed",
    /// A twin bed, longer.
    LongTwin = "long twin bed",
    /// A full bed.
    Full = "full bed",
    /// A queen bed.
    Queen = "queen bed",
    /// A king bed.
    King = "king bed",
    /// A king bed, narrower and longer.
    CaliforniaKing = "california king bed",
});
keywords!(
    /// How the blocks of a layout stand.
    Set {
    /// In rows and columns, their sides upright.
    Straight = "straight",
    /// On their corners.
    OnPoint = "on_point",
});
keywords!(
    /// How the corners of a border are made.
    Corners {
    /// Top and bottom run over the ends of the sides.
    Butted = "butted",
    /// Sewn at 45 degrees.
    Mitred = "mitered",
    /// With a square in each.
    Cornerstones = "cornerstones",
});
keywords!(
    /// How the squares lie where sashes cross at the edge of blocks that are set on point.
    EdgeSquares {
    /// The edge runs outside them.
    Whole = "whole",
    /// The edge runs through their middle.
    Halves = "halves",
});
keywords!(
    /// A side of the quilt.
    Side {
    /// The backing.
    Back = "back",
    /// The top.
    Front = "front",
});
keywords!(
    /// Loft in a word.
    LoftWord {
    /// A thin sandwich.
    Low = "low",
    /// A middling one.
    Medium = "medium",
    /// A thick one.
    High = "high",
});
keywords!(
    /// What finished sizes are measured of.
    Measured {
    /// The quilt as it is sewn, without seam allowances at its edges.
    Sewn = "sewn",
    /// The top before binding, with its seam allowances.
    RawEdges = "raw_edges",
});
keywords!(
    /// The measure in a word.
    MeasureWord {
    /// Inches and yards.
    Inch = "inch",
    /// Centimetres and metres.
    Cm = "cm",
});
