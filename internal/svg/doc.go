// Package svg writes drawings to true scale: a sheet in millimetres of paper,
// at a scale of 1:n, that shows a piece of the plan with y upwards.
//
// A [Page] says what the sheet shows; [Fit] chooses one. A [Drawing] takes
// points of the plan in millimetres and turns them into millimetres of paper;
// line weights, dashes and text sizes are in millimetres of paper whatever the
// scale. For something that has its place on the paper, a title or a scale
// bar, [Drawing.Paper] gives the point of the plan that lies there.
//
// Drawings are black and grey on white. Meaning is carried by the dash, the
// weight and the hatch, so that a photocopy loses nothing. What is drawn later
// lies on top.
//
// A drawing remembers the first thing that cannot be drawn, a number that is
// not finite, and [Drawing.SVG] returns it as an error. All text is escaped.
// The output is SVG 1.1 (W3C, Second Edition, 2011) but for the order of
// stroke and fill of text, which is SVG 2; a reader that does not know it
// draws the text without its white edge.
package svg
