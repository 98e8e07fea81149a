package gaplog

import (
	"fmt"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/internal/fault"
)

// MaxReadings is the most readings, and the most joints, that a call takes.
const MaxReadings = 200_000

func check(joints []Joint, readings []Reading, s Settings) (map[string]int, error) {
	l := fault.In("gaplog")
	fault.Positive(l, "reading error", s.Error)
	fault.Between(l, "seized below", s.Seized, 0, 1)
	fault.Between(l, "stiff below", s.Stiff, 0, 1)
	if len(joints) > MaxReadings || len(readings) > MaxReadings {
		l.Over("log", fmt.Sprintf("of %d joints and %d readings", len(joints), len(readings)), fmt.Sprintf("at most %d each", MaxReadings))
		return nil, l.Err()
	}
	index := make(map[string]int, len(joints))
	for i, j := range joints {
		f := fmt.Sprintf("joint %d (%s)", i+1, j.Mark)
		if _, twice := index[j.Mark]; twice || j.Mark == "" {
			l.Add(f+": mark", fmt.Sprintf("%q", j.Mark), "must be given, and once only")
		}
		index[j.Mark] = i
		fault.NotNegative(l, f+": gap", j.Gap)
		fault.Finite(l, f+": rail temperature when laid", j.Laid.Rail)
		fault.Finite(l, f+": base temperature when laid", j.Laid.Base)
		for _, side := range []expansion.Side{j.Joint.Before, j.Joint.After} {
			fault.Between(l, f+": free length", side.Free, 0, expansion.MaxFree)
			fault.Between(l, f+": rail expansion", side.Rail, 0, expansion.Steepest)
			fault.Between(l, f+": base expansion", side.Base, 0, expansion.Steepest)
		}
	}
	for i, r := range readings {
		f := fmt.Sprintf("reading %d", i+1)
		if _, ok := index[r.Joint]; !ok {
			l.Add(f+": joint", fmt.Sprintf("%q", r.Joint), "must be the mark of a joint of the log")
		}
		if r.Date.IsZero() {
			l.Add(f+": date", nil, "must be given")
		}
		fault.Between(l, f+": rail temperature", r.Rail, expansion.Coldest, expansion.Hottest)
		fault.Between(l, f+": base temperature", r.Base, expansion.Coldest, expansion.Hottest)
		fault.NotNegative(l, f+": gap", r.Gap)
	}
	return index, l.Err()
}
