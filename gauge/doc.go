// Package gauge is the arithmetic of scale and gauge: what a model's lengths,
// areas, volumes, masses and speeds are at full size and the other way about,
// what a model gauge stands for at a scale, and which scale and gauge suit each
// other.
//
// It answers: full size to model and back ([Scale], [Froude]); how far a gauge
// is off ([Compare], [StandsFor]), which gauge a scale wants ([WantedGauge],
// [GaugesFor]) and which scales suit a prototype on a gauge ([ScalesFor],
// [ExactScale]).
// The packages below it have track-and-wheel standards and their audit
// (wheelset), rail sections (rail) and what NEM's sheets ask of a line by its
// gauge alone (nem). It leaves out anything that needs the line itself.
//
// Units: quantities are those of gauge/measure. A scale is full size over
// model; an error of gauge is positive where the model is too wide. Gauges are
// taken from 0.1 mm to 3 m, scales from 1:1 to 1:1000. A number
// that is not finite is refused by what returns an error and passed through by
// a conversion.
//
// Accuracy: a [Scale] is an exact fraction; a conversion rounds two or three
// times. Tables are given as printed; each row names its [Source].
//
// Sources: NEM 010 ed. 2011 (MOROP); the full-size gauges and the imperial
// scales are common practice. The laws of scale are checked against a table of
// the University of Warsaw.
//
// Errors wrap measure.ErrInput, measure.ErrLimit for text that is too long, or
// measure.ErrNoAnswer where the input is good and nothing fits. Everything is immutable and safe for concurrent use.
package gauge
