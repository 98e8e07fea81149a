// Package rail holds rail sections: full size by standard, model by code.
//
// It answers: how high is a code of rail and how wide are its foot and head
// ([FromCode], [ModelRails], [FullSize]); what a full-size section comes to at a scale
// ([Section.AtScale]) and which code is nearest to it ([NearestCode]); how far
// apart the rail-head centres lie ([HeadCentres]); what the rail of a length of
// line weighs. It leaves out the strength of rail and what its joints do with
// heat.
//
// A dimension that the source does not give is 0, which means not stated; what
// needs it says so in an error. Heights are of the whole section.
//
// The code of a model rail is its height in thousandths of an inch, not in
// hundredths; a NEM 120 profile number is ten times its height in millimetres.
//
// Sources: NMRA RP-15.1; NEM 120 ed. 2010; section tables of 60E1, UIC 54 and
// AREA 1939, each named in its row.
//
// Errors wrap measure.ErrInput. Everything is immutable and safe for concurrent
// use.
package rail
