// Package movement answers what moves where between winter and summer on a
// line whose joints are planned: the ends of every panel, the fixed points,
// the rail at turnouts, the base; which joints take the movement up, and where
// a run has no room for it.
//
// # Signs and units
//
// Movements are along the rail, in millimetres, positive in the running
// direction, counted from the laying state. Without [Base]s they are over the
// base beneath, from the panel's own fixed point: what slides in the chairs.
// With bases, each fixed to the ground at one place, they are over the ground,
// and fixed points move too. A place on no base does not move with one.
//
// A joint's movement is the same seen both ways where its two panels stand on
// one base. Where they stand on two, the gap between the bases counts as well.
//
// # What an error is worth
//
// Every result can return its change per unit of each input: Range.Rates and
// Range.SizeRates a movement's, Joint.GapRates and Joint.LacksRates a joint's,
// Run.ShutRates and its siblings a run's, Sideways.Rates a sideways movement's.
//
// # What it leaves out
//
// Friction, the lag of the base, panels that have walked: see package gaplog.
// Sideways movement of rail that is locked is [Seized], from package locked.
//
// # Errors and concurrency
//
// Values that cannot be taken wrap measure.ErrInput, all of a call together;
// more than [MaxBases] bases, or [MaxWork] in all, is measure.ErrLimit.
// Everything is immutable in use and safe for concurrent use.
//
// # Caution
//
// Rail that has no room is under load in heat and springs when it is cut or
// unscrewed: let it cool first. It burns the hand.
package movement
