// Package gaplog holds gaps that were read over the seasons against what was
// predicted when they were laid: it finds joints that have seized, gaps that
// creep, and panels that have walked.
//
// # The method
//
// A reading at a rail and base temperature has a predicted gap, that of
// laying less what the joint closes by since; a predicted gap below 0 is 0,
// the rails touch. Over the readings of one joint the differences
//
//	read - predicted = offset + (share - 1)·(predicted - mean) + drift·(time - mean)
//
// are fitted by least squares: the share of the predicted movement that is
// really there (1 free, 0 seized) and the drift. Each is told only where the
// readings can tell: the spread of temperatures and of dates against the
// reading error decides, and with two readings, or where heat and date go
// together, drift is not told from share; then share alone is fitted.
//
// Along a run the panel after a joint has walked by the sum of the offsets up
// to it: what one gap gained, the next has lost. The reading errors of the
// joints add up along it, arithmetically.
//
// # What an error is worth
//
// [Joint.PredictRates] says what a degree or a millimetre changes of the
// prediction, and [Joint.ReadingRates] what a millimetre or a degree more in one reading makes
// of offset, share and drift; the panels after the joint walk by as much as its
// offset. What the reading error makes of share and drift stands beside them.
//
// # Signs, units, errors
//
// Lengths are in millimetres, drift in millimetres a year of 365.25 days.
// Walking is positive in the running direction. Values that cannot be taken
// wrap measure.ErrInput, all of a call together; more than [MaxReadings]
// readings or joints is measure.ErrLimit. Everything is a value and safe for
// concurrent use.
//
// # Caution
//
// Rail in the sun burns the hand. A seized joint is under load on a hot day:
// free it when it is cool.
package gaplog
