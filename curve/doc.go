// Package curve is the line in plan: straights, arcs and easements, joined
// into an immutable [Alignment], open or closed.
//
// Axes and signs: x east, y north, millimetres; headings anticlockwise from
// +x; curvature, offsets and turns positive to the left of the running
// direction; a radius is always positive and to the track centreline, the hand
// is separate; chainage is distance along the centreline from the start.
package curve
