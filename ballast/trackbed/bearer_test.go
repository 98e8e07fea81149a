package trackbed_test

import (
	"math"
	"testing"

	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/gauge/measure"
)

// The handbook's coefficients for a simply supported beam, from memory (the
// tables of any steel or timber manual): 5/384 = 0.01302 for a spread load,
// 1/48 = 0.02083 for one in the middle, moments 1/8 and 1/4.
func TestHandbookCoefficients(t *testing.T) {
	b := trackbed.Bearer{Width: 12, Height: 1, Modulus: 1000} // EI = 1000 N·mm²
	spread := must(b.Bay(trackbed.Load{Moving: 1000 / 9.80665}, 1))
	if !near(float64(spread.Sag)*1000, 0.01302, 1e-3) || !near(spread.Moment, 0.125, 1e-9) {
		t.Errorf("1 N/mm: sag %v, moment %v", float64(spread.Sag), spread.Moment)
	}
	point := must(b.Bay(trackbed.Load{Point: 1 / 9.80665}, 1))
	if !near(float64(point.Sag)*1000, 0.02083, 1e-3) || !near(point.Moment, 0.25, 1e-9) {
		t.Errorf("1 N: sag %v, moment %v", float64(point.Sag), point.Moment)
	}
}

// Against the beam's differential equation EI·y” = -M, integrated step by
// step with the reactions worked from statics.
func TestSagAgainstIntegration(t *testing.T) {
	b := trackbed.Bearer{Width: 47, Height: 100, Count: 2, Modulus: 8000, Density: 500}
	q := trackbed.Load{Lasting: 12, Moving: 8, Point: 15, Creep: 2}
	const L, n = 1500.0, 200000
	sag := func(w, p float64) float64 { // N/mm and N
		ei, h := 8000.0*2*47*100*100*100/12, L/n
		slope, y, mid := 0.0, 0.0, 0.0
		for i := range n {
			x := (float64(i) + 0.5) * h
			m := (w*L+p)/2*x - w*x*x/2 - p*math.Max(0, x-L/2)
			y += slope*h - m/ei*h*h/2
			slope -= m / ei * h
			if i == n/2-1 {
				mid = y
			}
		}
		return -(mid - y/2) // turned so that the far support is at 0 again
	}
	const g = 9.80665
	own := 2 * 0.047 * 0.1 * 500 // kg/m
	want := sag((12+own)*3*g/1000+8*g/1000, 15*g)
	got := must(b.Bay(q, L))
	if math.Abs(float64(got.Sag)-math.Abs(want)) > 1e-6*math.Abs(want) {
		t.Errorf("sag %v, integrated %v", float64(got.Sag), want)
	}
	if c := sag((12+own)*2*g/1000, 0); math.Abs(float64(got.Creep)-math.Abs(c)) > 1e-6*math.Abs(c) {
		t.Errorf("creep %v, integrated %v", float64(got.Creep), c)
	}
	if s := got.Moment / (2 * 47 * 100 * 100 / 6.0); !near(float64(got.Stress), s, 1e-12) {
		t.Errorf("stress %v, want %v", got.Stress, s)
	}
}

// The longest bay just keeps the limit; a thousandth more does not.
func TestLongestBay(t *testing.T) {
	b := trackbed.Bearer{Width: 38, Height: 63, Modulus: 8000}
	q := trackbed.Load{Lasting: 10, Moving: 6, Point: 5}
	for _, most := range []trackbed.SagLimit{{SpanOver: 400}, {Most: 1.5}, {SpanOver: 300, Most: 2}} {
		bay, err := b.LongestBay(q, most)
		if err != nil {
			t.Errorf("%+v: %v", most, err)
			continue
		}
		keeps := func(x trackbed.Bay) bool {
			return (most.SpanOver == 0 || float64(x.Sag) <= float64(x.Span)/most.SpanOver) && (most.Most == 0 || x.Sag <= most.Most)
		}
		if longer := must(b.Bay(q, bay.Span*1.001)); !keeps(bay) || keeps(longer) {
			t.Errorf("%+v: span %v sags %v, a thousandth more %v", most, bay.Span, bay.Sag, longer.Sag)
		}
	}
	// Twice the height carries further, and a heavier load less far.
	a := must(b.LongestBay(q, trackbed.SagLimit{SpanOver: 400})).Span
	b.Height *= 2
	high := must(b.LongestBay(q, trackbed.SagLimit{SpanOver: 400})).Span
	q.Point = 20
	heavy := must(b.LongestBay(q, trackbed.SagLimit{SpanOver: 400})).Span
	if high <= a || heavy >= high {
		t.Errorf("spans %v, %v with twice the height, %v with four times the engine", a, high, heavy)
	}
}

func TestBearerRefuses(t *testing.T) {
	good, q, most := trackbed.Bearer{Width: 38, Height: 63, Modulus: 8000}, trackbed.Load{Lasting: 10}, trackbed.SagLimit{SpanOver: 300}
	for text, c := range map[string]struct {
		b    trackbed.Bearer
		q    trackbed.Load
		most trackbed.SagLimit
		kind error
	}{
		"bearer height":         {trackbed.Bearer{Width: 38, Modulus: 8000}, q, most, measure.ErrInput},
		"modulus of elasticity": {trackbed.Bearer{Width: 38, Height: 63, Modulus: 8}, q, most, measure.ErrInput}, // GPa for MPa
		"load":                  {good, trackbed.Load{}, most, measure.ErrInput},
		"point load":            {good, trackbed.Load{Point: -1}, most, measure.ErrInput},
		"limit of sag":          {good, q, trackbed.SagLimit{}, measure.ErrInput},
		"span over":             {good, q, trackbed.SagLimit{SpanOver: 1.0 / 300}, measure.ErrInput},
		"creep":                 {good, trackbed.Load{Lasting: 1, Creep: math.NaN()}, most, measure.ErrInput},
		"no longer a bay":       {good, trackbed.Load{Lasting: 1e-9}, most, measure.ErrLimit},
		"sags too much":         {trackbed.Bearer{Width: 1e-3, Height: 1e-3, Modulus: 100}, trackbed.Load{Point: 1e9}, most, measure.ErrNoAnswer},
	} {
		_, err := c.b.LongestBay(c.q, c.most)
		refused(t, text, err, c.kind, text)
	}
	_, err := good.Bay(q, 0)
	refused(t, "span", err, measure.ErrInput, "span")
}

func TestTimbers(t *testing.T) {
	last := trackbed.Timber{}
	for _, k := range trackbed.Timbers() {
		if k.Modulus < 5000 || k.Modulus > 20000 || k.Density < 300 || k.Density > 1000 || k.Source.Title == "" {
			t.Errorf("%+v is no timber", k)
		}
		if k.Name[0] == 'C' && last.Name != "" && k.Modulus <= last.Modulus {
			t.Errorf("%s is not stiffer than %s", k.Name, last.Name)
		}
		last = k
	}
}
