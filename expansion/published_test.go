package expansion_test

import (
	"math"
	"testing"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

func table(t *testing.T, file string) [][]float64 {
	t.Helper()
	var out [][]float64
	for _, row := range reference.Rows(t, "testdata/"+file)[1:] {
		var v []float64
		for _, c := range row {
			v = append(v, reference.Number(t, c))
		}
		out = append(out, v)
	}
	return out
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, tol)
	}
}

// The gap today of a joint that shuts at the given temperature, its base fixed.
func gapToday(j expansion.Joint, today, shut measure.Temperature) measure.Length {
	return j.GapAt(0, expansion.State{Rail: shut}, expansion.State{Rail: today})
}

// The table gives sixteenths. In the middle of each of its ranges the theory
// agrees within 0.01 in, and at every whole degree of it within the half
// sixteenth that a step must err by, and 0.006 in: with 6.5e-6/°F, and rails
// that touch at 97.5 °F (both fitted, not printed).
func TestUSArmyTable(t *testing.T) {
	j := expansion.EqualPanels(33*measure.Foot, 6.5e-6*measure.PerFahrenheitDegree, 0)
	for i, r := range table(t, "gaps_us_army.csv") {
		low, high, want := r[0], r[1], r[2]
		if i > 0 && i < 5 { // the first and the last are open ended
			near(t, "middle", gapToday(j, measure.Fahrenheit((low+high)/2), measure.Fahrenheit(97.5)).Inches(), want, 0.01)
			for f := low; f <= high; f++ {
				near(t, "gap", gapToday(j, measure.Fahrenheit(f), measure.Fahrenheit(97.5)).Inches(), want, 1.0/32+0.006)
			}
		}
	}
	near(t, "1/16 in for 25 °F", gapToday(j, measure.Fahrenheit(60), measure.Fahrenheit(85)).Inches(), 0.0643, 0.0001)
}

func TestVoseTable(t *testing.T) {
	j := expansion.EqualPanels(20*measure.Foot, 6.8e-6*measure.PerFahrenheitDegree, 0)
	for _, r := range table(t, "gaps_vose.csv") {
		near(t, "gap", gapToday(j, measure.Fahrenheit(r[0]), measure.Fahrenheit(100)).Inches(), r[1], 0.0007)
	}
}

// Rail expansion as quoted in engineering references: 20 m of rail steel over
// 30 K is 7 mm (6.9 worked); 100 m of aluminium over 30 K is 66 mm with that
// source's own 22e-6/K.
func TestQuotedExpansions(t *testing.T) {
	steel, err := expansion.FindMaterial("steel")
	if err != nil {
		t.Fatal(err)
	}
	j := expansion.EqualPanels(20*measure.Metre, steel.Expansion.Value, 0)
	near(t, "steel", float64(j.Closing(expansion.State{}, expansion.State{Rail: 30})), 6.9, 0.001)
	j = expansion.EqualPanels(100*measure.Metre, 22*measure.MicroPerKelvin, 0)
	near(t, "aluminium", float64(j.Closing(expansion.State{}, expansion.State{Rail: 30})), 66, 1e-9)
	al, err := expansion.FindMaterial("Aluminium")
	if err != nil {
		t.Fatal(err)
	}
	if p := al.Expansion; p.Low > 22e-6 || p.High < 22e-6 {
		t.Errorf("aluminium's range %v to %v does not hold that source's 22e-6", p.Low, p.High)
	}
}

// Brass on a plastic base (80e-6/K) opens by 1.64 mm a metre when the rail
// warms by 40 K and the base by 30 K (worked: 0.76 - 2.40).
func TestBaseMovesMoreThanRail(t *testing.T) {
	j := expansion.EqualPanels(measure.Metre, 19*measure.MicroPerKelvin, 80*measure.MicroPerKelvin)
	near(t, "closing", float64(j.Closing(expansion.State{}, expansion.State{Rail: 40, Base: 30})), -1.64, 1e-12)

	j.Widest, j.Least = 5, 0.2
	summer := expansion.State{Name: "summer", Rail: 50, Base: 40}
	winter := expansion.State{Name: "winter", Rail: -10, Base: -10}
	g, err := j.Gaps(expansion.State{Rail: 15, Base: 15}, []expansion.State{summer, winter})
	if err != nil {
		t.Fatal(err)
	}
	if g.Tight != winter || g.Wide != summer {
		t.Errorf("tight in %q, wide in %q: want winter and summer", g.Tight.Name, g.Wide.Name)
	}
	near(t, "least", float64(g.Least), 0.2+25*(0.080-0.019), 1e-12)
	near(t, "most", float64(g.Most), 5-(25*0.080-35*0.019), 1e-12)
}
