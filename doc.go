// Package fourfoot is the map of a library that calculates the permanent way
// of garden railways: it holds no code of its own, only this page. The
// four-foot is the permanent-way worker's word for the space between the two
// running rails.
//
// # The job
//
// Somebody builds a model railway out of doors and lays its track. From a
// scale and a gauge, a line of straights and bends, the stock that is to run,
// the things the line must pass, a climate and a trackbed, the packages give
// the numbers that are needed before anything is cut, bent, mortared or
// ordered.
//
// # The rooms
//
//   - [example.org/fourfoot/gauge]: scale and gauge arithmetic with the
//     sourced tables of sizes. Below it [example.org/fourfoot/gauge/wheelset],
//     the standards of track and wheels and their audit;
//     [example.org/fourfoot/gauge/rail], rail sections; and
//     [example.org/fourfoot/gauge/nem], rules that hang on the gauge alone.
//   - [example.org/fourfoot/gauge/measure]: the quantities as types, read and
//     printed the trade's ways.
//   - [example.org/fourfoot/curve]: the line in plan: straights, arcs and
//     easements in an immutable alignment, open or closed.
//   - [example.org/fourfoot/curve/design]: finding a line: bends between
//     straights, joins of two poses, the largest radius that the garden allows.
//   - [example.org/fourfoot/curve/closing]: closing a circuit that was meant to
//     close, with the least change.
//   - [example.org/fourfoot/curve/check]: holding the line to your own limits.
//   - [example.org/fourfoot/curve/profile]: level and cant along the line.
//   - [example.org/fourfoot/curve/parallel]: the track beside the line.
//   - [example.org/fourfoot/curve/export]: the line as points, as SVG path data
//     and as a file.
//   - [example.org/fourfoot/clearance]: vehicles, throw, the swept envelope,
//     structures and their audit.
//   - [example.org/fourfoot/clearance/opening]: the section that stock needs,
//     the smallest opening round it, tunnels, the gauging former.
//   - [example.org/fourfoot/clearance/passing]: two tracks: gap, spacing,
//     fouling points, standing room.
//   - [example.org/fourfoot/clearance/coupling]: coupled vehicles: offset,
//     swing, buffers.
//   - [example.org/fourfoot/clearance/limit]: the questions asked backwards:
//     least radius, widest vehicle, which vehicle may run.
//   - [example.org/fourfoot/clearance/nem]: what a standard prints about the
//     space beside the track; it informs and decides nothing.
//   - [example.org/fourfoot/clearance/drawing]: plan, section and former as SVG
//     to true scale.
//   - [example.org/fourfoot/expansion]: rail and heat: materials, gaps, gap
//     cards, laying windows. Below it [example.org/fourfoot/expansion/climate],
//     the temperatures; [example.org/fourfoot/expansion/joints], joints and cut
//     lists; [example.org/fourfoot/expansion/movement], what moves where;
//     [example.org/fourfoot/expansion/locked], rail that cannot move; and
//     [example.org/fourfoot/expansion/gaplog], gaps read over the seasons.
//   - [example.org/fourfoot/ballast]: sections, quantities, grit and mixes.
//   - [example.org/fourfoot/ballast/order]: packs and the order list.
//   - [example.org/fourfoot/ballast/trackbed]: what the ballast lies on.
//
// examples/platelayer is the command that ties them together: a plan in, a
// laying book out.
//
// Imports go one way: gauge ← curve ← {clearance, expansion, ballast} ←
// examples. The last three do not import each other: what one hands to
// another is a plain quantity.
//
// # Conventions
//
//   - Plan: x east, y north, in millimetres; headings anticlockwise from +x.
//   - Curvature, turns, offsets and hand are positive to the left of the
//     running direction. A radius is always to the track centreline and
//     always positive; the hand is separate.
//   - Chainage is plan distance along the centreline from the start. On a
//     circuit it is taken modulo the length, and nothing changes when the
//     start is put elsewhere. An open line goes on straight on its end
//     tangents; results reached only there are marked.
//   - Heights of structures are vertical above the head of the rail that stays
//     level; heights on a vehicle are square to the plane of both rail heads;
//     levels are above the builder's datum.
//   - Gradient is rise over plan distance; the rail is longer by about half
//     the square of it, and cut lists count that.
//   - The distance of rail-head centres (gauge + head width) is an input.
//   - Track spacing is centre to centre.
//   - A temperature (°C, °F) and a difference of temperatures (K) are two
//     types.
//   - Verdicts: foul when the gap is below 0, tight when it is below the
//     margin, pass otherwise.
//   - Allowances add arithmetically: the worst case.
//   - Throw (what the vehicle does), reach (where its body gets to), widening
//     (what a standard adds) and opening (what a structure leaves) are four
//     different words.
//
// # Errors
//
// Bad input gives an error that names the field, the value, the limit and the
// unit, and all faults at once; it wraps [measure.ErrInput]. A good question
// without an answer gives [measure.ErrNoAnswer] and says what would have one.
// Work beyond a documented limit gives [measure.ErrLimit]. No call panics on
// values that were made by their constructors, and no such call answers with
// NaN.
//
// # Sources
//
// Each package names the sources of its formulas and tables, with edition and
// clause: the sheets of the European and American model-railway standards,
// full-size civil-engineering handbooks, and the open ISO 16739-1 text for the
// easement laws. A fact of the trade without a source is marked "common
// practice, no source", a recalled one "from memory".
//
// # Out of scope
//
// Lines that carry people have rules of their own, and lives depend on them:
// nothing here is meant for them. Results that lead to work with cement,
// torches, cutting discs, heavy loads, mains electricity or live steam carry a
// short caution; the maker's data sheet, local codes and licensed trades come
// first.
//
// [measure.ErrInput]: https://pkg.go.dev/example.org/fourfoot/gauge/measure#ErrInput
// [measure.ErrNoAnswer]: https://pkg.go.dev/example.org/fourfoot/gauge/measure#ErrNoAnswer
// [measure.ErrLimit]: https://pkg.go.dev/example.org/fourfoot/gauge/measure#ErrLimit
package fourfoot
