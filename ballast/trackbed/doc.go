// Package trackbed measures what lies under the ballast or in its place: the
// trench and its layers, concrete, boards on posts, slabs on sand, sheets of
// felt and geotextile, drains, and the earth that is moved for them.
//
// What it answers: volumes along a stretch of an alignment, with true lengths
// on curves; concrete by parts, its bars, joints and fall; boards round a curve
// with their mitres and cut list; how far apart posts may stand for a
// deflection limit, how deep and how long they are; how many slabs, rolls and
// barrow loads.
//
// What it leaves out: whether the ground carries it, frost heave, rot, wind,
// retaining walls, and everything that carries people. Bearers are taken as
// simply supported, each bay by itself; that is on the safe side for longer
// timbers.
//
// Axes and signs: chainage along the line, offsets to the left positive, levels
// above datum, depths below ground positive down. Side slopes are horizontal
// over vertical, 0 for upright sides. Moduli are megapascals, loads kilograms
// or kilograms a metre: standard gravity is put in here.
//
// Accuracy: volumes of prisms are in closed form (the way of the centroid,
// Pappus and Guldin). Earthwork is by average end areas, the trade's rule, with
// the prismoidal volume beside it. Boards and slabs say what they assume.
//
// Sources are named at each table; "common practice, no source" and "from
// memory" mean what they say.
//
// Errors wrap measure.ErrInput, measure.ErrNoAnswer or measure.ErrLimit, name
// the field, its value and its limit, and come all at once. Every result
// that leads to digging, cement, cutting or lifting carries Cautions; they
// defer to the maker's data sheet, local codes and licensed trades. All types
// are plain values, safe for concurrent use.
package trackbed
