package nem

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Group is one of the classes of bogie stock, by full-size body length and
// pivot spacing (as NEM 103 gives them).
type Group uint8

// The groups. The zero Group is none of them and is refused.
const (
	A Group = iota + 1 // body to 20.0 m, pivots 14.0 m apart
	B                  // body to 24.2 m, pivots 17.2 m
	C                  // body to 27.2 m, pivots 19.5 m
)

// String returns "A", "B" or "C".
func (g Group) String() string {
	if g < A || g > C {
		return "no group"
	}
	return string(rune('A' + g - A))
}

// A Use is what a track is for.
type Use uint8

// The uses. The zero Use is none of them and is refused.
const (
	AbsoluteLeast    Use = iota + 1 // the least of all
	StationSideTrack                // side tracks of stations
	SecondaryMain                   // running line of a secondary railway
	Main                            // running line of a main railway
)

// String returns the use in words.
func (u Use) String() string {
	switch u {
	case AbsoluteLeast:
		return "absolute least"
	case StationSideTrack:
		return "station side track"
	case SecondaryMain:
		return "secondary main line"
	case Main:
		return "main line"
	}
	return "no use"
}

// gauges is the smallest radius as a multiple of the gauge: NEM 111, ed. 2016,
// secondary; the sheet prints millimetres for H0.
var gauges = map[Use][3]measure.Length{
	AbsoluteLeast:    {22, 25, 30},
	StationSideTrack: {25, 30, 35},
	SecondaryMain:    {30, 35, 40},
	Main:             {35, 40, 45},
}

// MinimumRadius returns the smallest radius for a use and a group of stock: so
// many times the gauge (NEM 111, ed. 2016, secondary). The same stock wants
// more where it is propelled (BufferRadius) or where its rigid wheelbase is
// long (AttackRadius).
func MinimumRadius(gauge measure.Length, use Use, group Group) (measure.Length, error) {
	l := fault.In("nem")
	checkGauge(l, gauge)
	row, ok := gauges[use]
	if !ok {
		l.Add("use", uint8(use), "must be AbsoluteLeast, StationSideTrack, SecondaryMain or Main")
	}
	checkGroup(l, group)
	if err := l.Err(); err != nil {
		return 0, err
	}
	return gauge * row[group-A], nil
}

func checkGroup(l *fault.List, g Group) {
	if g < A || g > C {
		l.Add("group", uint8(g), "must be A, B or C")
	}
}

// MostAttack is the greatest angle at which the leading wheel of a rigid
// wheelbase may meet the rail (NEM 111, ed. 2016).
const MostAttack = 12 * measure.Degree

// AttackRadius returns the smallest radius for a rigid wheelbase: that on which
// the angle of attack asin(wheelbase/2R) is MostAttack.
func AttackRadius(wheelbase measure.Length) (measure.Length, error) {
	l := fault.In("nem")
	if !positive(l, "wheelbase", wheelbase) {
		return 0, l.Err()
	}
	return wheelbase / measure.Length(2*math.Sin(MostAttack.Radians())), nil
}

// wagon is a class of two-axle stock, in full-size metres.
type wagon struct {
	overBuffers, wheelbase measure.Length
	gauges                 measure.Length
}

// Buffers that touch while a train is propelled: NEM 111, ed. 2016, R over G.
var (
	wagons  = []wagon{{9.8 * measure.Metre, 5 * measure.Metre, 50}, {14.6 * measure.Metre, 8 * measure.Metre, 57}, {17.5 * measure.Metre, 10 * measure.Metre, 71}}
	coaches = [3]measure.Length{57, 60, 84}
)

// WagonBufferRadius returns the smallest radius on which two-axle wagons, given
// by their full-size length over buffers and wheelbase, may be propelled with
// buffers touching: 50, 57 or 71 times the gauge (NEM 111, ed. 2016).
func WagonBufferRadius(gauge, fullOverBuffers, fullWheelbase measure.Length) (measure.Length, error) {
	l := fault.In("nem")
	checkGauge(l, gauge)
	okO := positive(l, "full-size length over buffers", fullOverBuffers)
	okW := positive(l, "full-size wheelbase", fullWheelbase)
	if okO && okW && fullWheelbase > fullOverBuffers {
		l.Add("full-size wheelbase", fullWheelbase, fmt.Sprintf("must be at most the length over buffers, %v", fullOverBuffers))
	}
	if err := l.Err(); err != nil {
		return 0, err
	}
	for _, w := range wagons {
		if fullOverBuffers <= w.overBuffers && fullWheelbase <= w.wheelbase {
			return gauge * w.gauges, nil
		}
	}
	last := wagons[len(wagons)-1]
	l.NoAnswer("two-axle wagon", nil, fmt.Sprintf("the sheet has no class for %v over buffers on %v; its largest is %v on %v",
		fullOverBuffers, fullWheelbase, last.overBuffers, last.wheelbase))
	return 0, l.Err()
}

// BufferRadius returns the smallest radius on which bogie stock of a group may
// be propelled with buffers touching: 57, 60 or 84 times the gauge (NEM 111,
// ed. 2016).
func BufferRadius(gauge measure.Length, group Group) (measure.Length, error) {
	l := fault.In("nem")
	checkGauge(l, gauge)
	checkGroup(l, group)
	if err := l.Err(); err != nil {
		return 0, err
	}
	return gauge * coaches[group-A], nil
}
