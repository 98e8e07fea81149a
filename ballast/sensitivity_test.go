package ballast_test

import (
	"errors"
	"fmt"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/gauge/measure"
)

func TestSensitivity(t *testing.T) {
	line := open(straight(10000))
	s := gardenSection()
	bed := ballast.Bed{Ranges: []ballast.Range{{To: 4000, Section: s, Sleepers: 100}, {From: 4000, To: 10000, Section: s, Taper: &s}}}
	v, err := bed.Sensitivity(line, 5)
	if err != nil {
		t.Fatal(err)
	}
	// 106 wide at the top, 29 high: 5 deeper and 5 wider, worked.
	deeper := (106*5 + 1.25*(34*34-29*29)) * 10000
	if !near(float64(v.Deeper), deeper, 1e-9) || !near(float64(v.Wider), 5*29*10000, 1e-9) {
		t.Errorf("%+v, want %v deeper and %v wider", v, deeper, 5*29*10000)
	}
	net := (106*29+1.25*29*29)*10000 - 100*82*12*9
	if !near(v.Part, deeper/net, 1e-9) {
		t.Errorf("part %v, want %v", v.Part, deeper/net)
	}
	if bed.Ranges[0].Section.Depth != 20 || bed.Ranges[1].Taper.Depth != 20 {
		t.Error("the bed itself was changed")
	}
	if _, err := bed.Sensitivity(line, 0); !errors.Is(err, measure.ErrInput) {
		t.Errorf("by nothing: %v", err)
	}
	if _, err := (ballast.Bed{}).Sensitivity(line, 1); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no bed: %v", err)
	}
}

// What 5 mm more depth is worth.
func ExampleBed_Sensitivity() {
	line := open(straight(20 * measure.Metre))
	bed := ballast.Bed{Ranges: []ballast.Range{{To: line.Length(), Section: gardenSection(), Sleepers: 500}}}
	v, err := bed.Sensitivity(line, 5*measure.Millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("5 mm deeper takes %.1f l more, %.0f %% of the bed\n", v.Deeper.Litres(), v.Part*100)
	// Output:
	// 5 mm deeper takes 18.5 l more, 24 % of the bed
}
