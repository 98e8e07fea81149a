package measure_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"example.org/fourfoot/gauge/measure"
)

func ExampleParseLength() {
	for _, text := range []string{"4ft 8 1/2in", `4' 8½"`, "1,2 m", "1,234 mm", "45"} {
		l, err := measure.ParseLength(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(l)
	}
	// Output:
	// 1435.1 mm
	// 1435.1 mm
	// 1200 mm
	// measure: length "1,234 mm": has a comma before three digits, which may be a decimal sign or group thousands; declare the decimal sign or use a point; write for example 4ft 8 1/2in, 4' 8½", 3/8 in, 45mm or 1.2 m
	// measure: length "45": has no unit; write for example 4ft 8 1/2in, 4' 8½", 3/8 in, 45mm or 1.2 m
}

func ExampleParseGradient() {
	for _, text := range []string{"1 in 50", "2 % down", "20 ‰", "1/4 in per ft", "level"} {
		fmt.Println(measure.MustParseGradient(text))
	}
	// Output:
	// 1 in 50
	// 1 in 50 down
	// 1 in 50
	// 1 in 48
	// level
}

func ExampleParseCurvature() {
	k, err := measure.ParseCurvature("R 4ft right")
	fmt.Println(k, err)
	_, err = measure.ParseCurvature("R 4ft")
	fmt.Println(errors.Is(err, measure.ErrInput))
	// Output:
	// R 1219.2 mm right <nil>
	// true
}

// A table out of a spreadsheet with decimal commas, whose headings say the
// units.
func ExampleNotation() {
	for _, column := range [][]string{{"radius [mm]", "1.234,5", "900"}, {"gap (in)", "0,015", "1/32"}} {
		h, err := measure.ParseHeading(column[0])
		if err != nil {
			fmt.Println(err)
			continue
		}
		n := h.Notation(measure.CommaSign)
		for _, cell := range column[1:] {
			l, err := n.ParseLength(cell)
			fmt.Println(h.Name, l, err)
		}
	}
	// Output:
	// radius 1234.5 mm <nil>
	// radius 900 mm <nil>
	// gap 0.381 mm <nil>
	// gap 0.79375 mm <nil>
}

func ExampleInchStyle() {
	s := measure.InchStyle{Parts: 32, Feet: true}
	l := 1200 * measure.Millimetre
	fmt.Printf("%s, %s too long\n", s.Format(l), s.Round(l)-l)
	// Output:
	// 3 ft 11 1/4 in, 0.15 mm too long
}

func ExampleMillimetreStyle() {
	l := measure.MustParseLength("3/64 in")
	fmt.Println(measure.MillimetreStyle{Decimals: 2}.Format(l))
	fmt.Println(measure.MillimetreStyle{Decimals: 2, Bare: true, Sign: measure.CommaSign}.Format(l))
	// Output:
	// 1.19 mm
	// 1,19
}

// In JSON a quantity is a string, which reads back to the same bits.
func ExampleLength_MarshalText() {
	type joint struct {
		Panel measure.Length
		Laid  measure.Temperature
	}
	var j joint
	if err := json.Unmarshal([]byte(`{"Panel": "3ft", "Laid": "70 °F"}`), &j); err != nil {
		fmt.Println(err)
	}
	out, err := json.Marshal(j)
	fmt.Println(string(out), err)
	fmt.Println(j.Laid)
	// Output:
	// {"Panel":"914.4 mm","Laid":"70 °F"} <nil>
	// 21.1111 °C
}
