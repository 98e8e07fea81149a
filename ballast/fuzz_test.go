package ballast_test

import (
	"math"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// A section that validates and has an outline has a finite one, whose toes hold
// its centroid between them; nothing panics.
func FuzzSection(f *testing.F) {
	f.Add(20.0, 82.0, 12.0, 9.0, 106.0, 1.25, false, 0.0, 0.0, 0.0, 0.0, 60.0, true, 3.0)
	f.Add(20.0, 82.0, 12.0, 9.0, 106.0, 0.0, true, 5.0, 7.0, 120.0, 15.0, 150.0, false, -4.0)
	f.Add(1e18, 1e-12, 1e18, 1e-12, 1e18, 10.0, false, 1e18, 1e-12, 1e18, 1e18, 1e18, true, 1e-12)
	f.Add(math.NaN(), math.Inf(1), -1.0, 0.0, 5e-324, 0.8, true, -1.0, 1.0, 1.0, 0.0, 0.0, false, 100.0)
	f.Fuzz(func(t *testing.T, depth, sl, sw, sh, top, slope float64, kerbed bool, crib, shoulder, tw, td, track float64, filled bool, cant float64) {
		s := ballast.Section{
			Depth: measure.Length(depth), Sleeper: ballast.Sleeper{Length: measure.Length(sl), Width: measure.Length(sw), Height: measure.Length(sh)},
			TopWidth: measure.Length(top), Slope: slope, Kerbed: kerbed, Crib: measure.Length(crib), ShoulderLevel: measure.Length(shoulder),
			TrenchWidth: measure.Length(tw), TrenchDepth: measure.Length(td), Filled: filled,
		}
		if track != 0 {
			s.Tracks = []measure.Length{0, measure.Length(track)}
		}
		o, err := s.Outline(measure.Length(cant), 47.5, profile.Centreline)
		if err != nil {
			return
		}
		if s.Validate() != nil {
			t.Fatal("an outline of a section that does not validate")
		}
		if !finite(float64(o.Area), float64(o.Centroid), float64(o.Left), float64(o.Right), float64(o.Surface)) || o.Area < 0 {
			t.Fatalf("%+v", o)
		}
		if slack := 1e-6 * float64(o.Left-o.Right); float64(o.Centroid) < float64(o.Right)-slack || float64(o.Centroid) > float64(o.Left)+slack {
			t.Fatalf("the centroid %v lies outside the toes %v and %v", float64(o.Centroid), float64(o.Right), float64(o.Left))
		}
	})
}

// What TakeOff gives is finite, adds up and is not negative, however ranges,
// gaps and loose stretches lie.
func FuzzTakeOff(f *testing.F) {
	line := oval(700)
	track := open(straight(1000), must(curve.NewEasement(curve.Helmert, 900, 0, 1.0/1500)), must(curve.NewArc(1500, 1, curve.Left)))
	f.Add(true, 0.0, 8000.0, 8000.0, 0.0, 100.0, 700.0, 50.0, 300.0, 35.0, 4.0)
	f.Add(true, 9000.0, 500.0, 500.0, 9000.0, 18000.0, 20.0, 0.0, 19966.0, 5.0, -4.0)
	f.Add(false, 10.0, 1800.0, 1800.0, 3000.0, 1750.0, 1850.0, 100.0, 50.0, 60.0, 0.0)
	f.Fuzz(func(t *testing.T, circuit bool, a, b, c, d, g0, g1, l0, l1, depth, cant float64) {
		on := track
		if circuit {
			on = line
		}
		k, err := profile.NewCant(profile.InnerRail, profile.CantPoint{Chainage: 500}, profile.CantPoint{Chainage: 1500, Cant: measure.Length(cant)})
		if err != nil {
			return
		}
		s, w := gardenSection(), gardenSection()
		w.Depth = measure.Length(depth)
		q, err := ballast.TakeOff(on, ballast.Bed{
			Ranges: []ballast.Range{
				{From: measure.Length(a), To: measure.Length(b), Section: s, Taper: &w, Sleepers: 3, Bonded: true},
				{From: measure.Length(c), To: measure.Length(d), Section: w},
			},
			Gaps: []ballast.Stretch{{From: measure.Length(g0), To: measure.Length(g1)}}, Loose: []ballast.Stretch{{From: measure.Length(l0), To: measure.Length(l1)}},
			Cant: k, RailCentres: 47.5,
		})
		if err != nil {
			return
		}
		x := q.Total
		if !finite(float64(x.Solid), float64(x.Cant), float64(x.Curve), float64(x.Net), float64(x.Bonded), float64(x.Surface)) {
			t.Fatalf("%+v", x)
		}
		if x.Net < 0 || x.Bonded < 0 || x.Bonded > x.Net*(1+1e-9) || x.Length < 0 || x.Length > on.Length()*(1+1e-9) ||
			!near(float64(q.Ranges[0].Net+q.Ranges[1].Net), float64(x.Net), 1e-12) || !near(float64(x.Solid-x.Sleepers-x.Others), float64(x.Net), 1e-9) {
			t.Fatalf("%+v", q)
		}
	})
}

// Mass is conserved by every material that completes.
func FuzzMaterial(f *testing.F) {
	f.Add(1500.0, 0.0, 1.1, 0.05, 0.1, 6.0, 1.0, uint8(0))
	f.Add(0.0, 1650.0, 1.15, 0.0, 0.0, 20.0, 1.0, uint8(1))
	f.Add(1500.0, 1650.0, 1.1, 1.0, 1.0, 1e-12, 1e18, uint8(2))
	f.Fuzz(func(t *testing.T, loose, compacted, bulking, moisture, waste, grit, binder float64, kind uint8) {
		m := ballast.Material{Loose: measure.Density(loose), Compacted: measure.Density(compacted), Bulking: bulking, Moisture: moisture, Waste: waste}
		n, err := m.Need(100 * measure.Litre)
		if err != nil {
			return
		}
		dry := float64(n.Material.Compacted.Of(n.Compacted)) * (1 + waste)
		if !near(float64(n.Dry), dry, 0.011) || n.Delivered < n.Dry || n.Loose < n.Compacted {
			t.Fatalf("%+v: %+v", m, n)
		}
		b, err := ballast.Mix{Grit: grit, Binder: binder, Kind: ballast.Binder(kind)}.Bond(100*measure.Litre, m)
		if err == nil && (!finite(float64(b.BinderMass), float64(b.Water)) || b.BinderMass < 0 || b.Water < 0 || b.Binder > b.Grit.Loose) {
			t.Fatalf("%+v", b)
		}
	})
}
