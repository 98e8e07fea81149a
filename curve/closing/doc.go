// Package closing closes circuits: it tells by how much a line that is meant
// to meet its start misses it, and finds the least change that makes it meet.
//
// # What it answers
//
// [MisclosureOf] compares the end of a line with its start. [Close] takes the
// parts of a circuit, each with what may be changed in it (the length of a
// straight, the radius and the turn of a bend) and by how much at most, and
// returns the circuit that closes in place and heading. [PartsOf] takes such
// parts from a line.
//
// # Method
//
// A quantity's limit is also its weight: a change is counted as a part u of
// its limit, and of all changes that close the circuit and stay within their
// limits, -1 ≤ u ≤ 1, the one with the least Σu² is taken. That is the method
// of least squares with conditions (C. F. Gauss, Supplementum theoriae
// combinationis observationum, 1828, from memory; the condition equations of
// traverse adjustment) with bounds added. The conditions are
// made linear and solved again until the circuit closes (Gauss-Newton); each
// linear problem is solved through its three multipliers λ, one for each
// condition, since then u = -Jᵀλ, cut off at the limits.
//
// # Signs, units, errors
//
// As in package curve: millimetres, headings anticlockwise from +x, left
// positive. A bend's turn is positive and its hand separate. A value that no
// call can take wraps measure.ErrInput; a circuit that cannot close within the
// limits wraps measure.ErrNoAnswer, and the text says what is missing; too many
// parts wrap measure.ErrLimit. The closed circuit meets its start within 1e-9
// of its length. All of it is safe for concurrent use.
package closing
