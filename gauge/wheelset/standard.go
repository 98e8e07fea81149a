package wheelset

import (
	"slices"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Track is the track's side: its dimensions where wheels meet it. What is not
// stated is left zero.
type Track struct {
	Gauge          Limits // G
	Widened        Limits // G on sharp curves, where it is eased
	CheckGauge     Limits // C
	CheckSpan      Limits // S
	Flangeway      Limits // F
	FlangewayDepth Limits // H
	// CarriesFlanges says that wheels are meant to be carried on their flanges
	// through crossings, so that flange depth is not held against the flangeway.
	CarriesFlanges bool
}

// Wheels is the vehicle's side, a pair of wheels on their axle. What is not
// stated is left zero.
type Wheels struct {
	BackToBack  Limits // B
	WheelCheck  Limits // K, from the back of one wheel to the face of the other's flange
	FlangeWidth Limits // T
	FlangeDepth Limits // D
	Width       Limits // N
}

func (t Track) check(l *fault.List) {
	t.Gauge.check(l, "gauge")
	t.Widened.check(l, "widened gauge")
	t.CheckGauge.check(l, "check gauge")
	t.CheckSpan.check(l, "span over check rails")
	t.Flangeway.check(l, "flangeway")
	t.FlangewayDepth.check(l, "flangeway depth")
}

func (w Wheels) check(l *fault.List) {
	w.BackToBack.check(l, "back to back")
	w.WheelCheck.check(l, "wheel check gauge")
	w.FlangeWidth.check(l, "flange width")
	w.FlangeDepth.check(l, "flange depth")
	w.Width.check(l, "wheel width")
}

// A Standard is a published column.
type Standard struct {
	Name    string
	Nominal measure.Length // gauge that the column is for
	Track   Track
	Wheels  Wheels
	Source  gauge.Source
}

var (
	nmra = gauge.Source{Title: "NMRA S-3.2 (older issue) with S-4.2", Basis: gauge.Seen}
	g1   = gauge.Source{Title: "Gauge One association, dimension tables, standard column", Basis: gauge.Seen}
)

// nmraColumn is a column of NMRA's two sheets; it gives F and H as single
// figures, and neither flange width nor the largest back to back.
func nmraColumn(name string, nominal, gMin, gMax, cMin, sMax, f, h, kMax, bMin, nMin, dMax measure.Length) Standard {
	return Standard{
		Name:    name,
		Nominal: nominal,
		Track: Track{
			Gauge:          Limits{gMin, gMax},
			CheckGauge:     Limits{Min: cMin},
			CheckSpan:      Limits{Max: sMax},
			Flangeway:      Limits{f, f},
			FlangewayDepth: Limits{h, h},
		},
		Wheels: Wheels{
			BackToBack:  Limits{Min: bMin},
			WheelCheck:  Limits{Max: kMax},
			FlangeDepth: Limits{Max: dMax},
			Width:       Limits{Min: nMin},
		},
		Source: nmra,
	}
}

var standards = []Standard{
	//                         nom.  G min  G max  C min  S max  F     H     K max  B min  N min D max
	nmraColumn("NMRA No. 1", 45, 44.85, 45.5, 42.16, 39.69, 2.68, 1.63, 42.16, 39.80, 5.97, 1.63),
	nmraColumn("NMRA O", 32, 31.8, 32.6, 29.9, 28.3, 2.01, 1.19, 29.9, 28.4, 4.37, 1.19),
	nmraColumn("NMRA S", 22.5, 22.42, 22.99, 21.32, 20.27, 1.27, 0.76, 21.31, 20.32, 2.74, 0.76),
	{
		Name:    "Gauge One association, standard",
		Nominal: 45,
		Track: Track{
			Gauge:      Tolerance(45, 0, 0.5),
			Widened:    Limits{Max: 45.5},
			CheckGauge: Tolerance(42, 0.5, 0),
			CheckSpan:  Limits{Max: 39.5},
			Flangeway:  Tolerance(3, 0, 0.5),
		},
		Wheels: Wheels{
			BackToBack:  Tolerance(40, 0.5, 0),
			FlangeWidth: Tolerance(1.5, 0, 0.5),
			FlangeDepth: Limits{Max: 2},
			Width:       Tolerance(6, 0, 0.5),
		},
		Source: g1,
	},
}

// Standards returns the published columns, as printed.
func Standards() []Standard { return slices.Clone(standards) }

// StandardNamed returns the published column of that name and whether there is
// one.
func StandardNamed(name string) (Standard, bool) {
	i := slices.IndexFunc(standards, func(s Standard) bool { return s.Name == name })
	if i < 0 {
		return Standard{}, false
	}
	return standards[i], true
}
