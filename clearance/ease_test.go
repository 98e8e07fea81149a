package clearance_test

import (
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// A long curve of the radius that a remedy names leaves exactly the margin:
// inside and outside, to either hand, on bogies and rigid, lopsided too, with
// play that grows with overhang; walls on an arc, on an easement, where a
// reverse curve turns, and a low wall beside a stepped body.
func TestEaseToFedForward(t *testing.T) {
	const margin = 6
	lopsided := clearance.Outline{{-310, -40}, {280, -40}, {300, -20}, {300, 30}, {200, 52}, {-250, 52}, {-310, 35}}
	bogie := clearance.Bogie("bogie", 380, 70, clearance.Band{Top: 120, Outline: clearance.Box(600, 100)})
	bogie.Carriers[0].Pin, bogie.Carriers[1].Pin = 8, -5
	stepped := clearance.Rigid("stepped", 260,
		clearance.Band{Name: "footplate", Bottom: 5, Top: 30, Outline: clearance.Box(420, 84)},
		clearance.Band{Name: "cab", Bottom: 30, Top: 110, Outline: clearance.Box(440, 104)})
	easement := func(k0, k1 float64) part { return part{curve.Clothoid, 700, k0, k1, 0} }
	arc := func(k, l float64) part { return part{curve.CircularArc, l, k, k, 0} }
	for _, v := range []struct {
		name  string
		v     clearance.Vehicle
		top   measure.Length // of the wall
		short float64
	}{
		{"bogie", bogie, 0, 2.5},
		{"rigid", clearance.Rigid("rigid", 300, clearance.Band{Top: 120, Outline: clearance.Tapered(520, 104, 40, 60, 80)}), 0, 2.5},
		{"lopsided", clearance.Rigid("lopsided", 400, clearance.Band{Top: 120, Outline: lopsided}), 0, 2.5},
		{"low wall", stepped, 20, 1.5},
	} {
		for _, line := range []struct {
			name   string
			parts  []part
			at     measure.Length
			radius float64 // the sharpest there
		}{
			{"arc", []part{arc(1/1100.0, 2600)}, 1300, 1100},
			{"easement", []part{easement(0, 1/900.0), arc(1/900.0, 1500)}, 620, 900},
			{"reverse", []part{arc(1/1000.0, 1200), arc(-1/1400.0, 1200)}, 1130, 1000},
		} {
			for _, hand := range []float64{1, -1} {
				parts := append([]part(nil), line.parts...)
				for i := range parts {
					parts[i].k0 *= hand
					parts[i].k1 *= hand
				}
				for _, side := range []curve.Hand{curve.Left, curve.Right} {
					set := clearance.Settings{Tolerance: 0.001, Allowances: clearance.Allowances{Play: 1.2, Laying: 2, Heat: 1}}
					e := sweep(t, build(t, parts, curve.Pose{}, false).line, []clearance.Vehicle{v.v}, set)
					h := clearance.Heights{}
					if v.top != 0 {
						h = clearance.Heights{From: 0, To: v.top}
					}
					r, err := e.Needs(line.at, side, h)
					if err != nil {
						t.Fatal(err)
					}
					w := clearance.Structure{Kind: clearance.Wall, Faces: []clearance.Face{{Side: side, From: line.at, To: line.at + 0.01, Offset: r.Reach + margin - measure.Length(v.short), Bottom: -5, Top: v.top}}}
					if v.top == 0 {
						w.Faces[0].Bottom = 0
					}
					f := audit(t, e, margin, w)[0]
					to := float64(f.Remedy.EaseTo)
					if to == 0 {
						if r, err := clearance.Throws(v.v, 1e9); err != nil || float64(w.Faces[0].Offset) > float64(r[0].Outside)+1.2*1.6+3+margin {
							t.Errorf("%s, %s, hand %v, %v: nothing offered", v.name, line.name, hand, side)
						}
						continue
					}
					if to < line.radius-1e-6 {
						t.Errorf("%s, %s, hand %v, %v: ease to %v, sharper than it is", v.name, line.name, hand, side, to)
					}
					// A long curve of that radius, to the hand of the sharpest here.
					long := sweep(t, build(t, []part{arc(hand/to, min(4000, 2*to))}, curve.Pose{}, false).line, []clearance.Vehicle{v.v}, set)
					got, err := long.Needs(long.Line().Length()/2, side, h)
					if err != nil {
						t.Fatal(err)
					}
					// The gap that the audit found may be a little beside the place.
					want := f.Reach - measure.Length(margin-float64(f.Gap))
					if d := float64(got.Reach - want); d > 0.004 || d < -0.004 && to > line.radius*(1+1e-6) {
						t.Errorf("%s, %s, hand %v, %v: eased from %.0f to %.1f the reach is %.4f, want %.4f", v.name, line.name, hand, side, line.radius, to, float64(got.Reach), float64(want))
					}
				}
			}
		}
	}
}
