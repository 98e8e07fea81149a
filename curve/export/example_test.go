package export_test

import (
	"fmt"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/gauge/measure"
)

func corner() (*curve.Alignment, error) {
	straight, err := curve.NewStraight(1 * measure.Metre)
	if err != nil {
		return nil, err
	}
	bend, err := curve.Bend{Radius: 2 * measure.Metre, Turn: 60 * measure.Degree, Hand: curve.Left, EaseIn: 500, Shape: curve.Bloss}.Elements()
	if err != nil {
		return nil, err
	}
	return curve.New(curve.Pose{}, append([]curve.Element{straight}, bend...)...)
}

// A corner drawn at 1:10, a millimetre of paper to a drawing unit.
func ExamplePath() {
	line, err := corner()
	if err != nil {
		fmt.Println(err)
		return
	}
	path, err := export.Path(line, export.Range{}, export.View{Scale: 0.1}, 0.1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(path)
	// Output:
	// M0 0L100 0C108.3334 0 116.6678 0.0391 124.9989 -0.1562C133.3318 -0.3516 141.6587 -0.8337 149.9287 -1.8728A200 200 0 0 0 298.1989 -100.3124
}

func ExamplePoints() {
	line, err := corner()
	if err != nil {
		fmt.Println(err)
		return
	}
	points, err := export.Points(line, export.Range{From: 800, To: line.Length()}, 5)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range points {
		fmt.Printf("%6.0f: %6.1f, %6.1f\n", p.Chainage.Millimetres(), p.Point.X, p.Point.Y)
	}
	// Output:
	// 800:  800.0,    0.0
	//   1000: 1000.0,    0.0
	//   1250: 1250.0,    1.6
	//   1500: 1499.3,   18.7
	//   1763: 1757.8,   68.7
	//   2027: 2007.5,  152.2
	//   2290: 2244.1,  267.7
	//   2554: 2463.4,  413.3
	//   2817: 2661.8,  586.5
	//   3081: 2835.6,  784.3
	//   3344: 2982.0, 1003.1
}

func ExampleWriteLine() {
	line, err := corner()
	if err != nil {
		fmt.Println(err)
		return
	}
	data, err := export.WriteLine(line)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(string(data))
	back, err := export.ReadLine(data)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(back.End() == line.End())
	// Output:
	// {
	//   "start": {
	//     "east": "0 mm",
	//     "north": "0 mm",
	//     "heading": "0 rad"
	//   },
	//   "elements": [
	//     {
	//       "form": "straight",
	//       "length": "1000 mm"
	//     },
	//     {
	//       "form": "bloss",
	//       "length": "500 mm",
	//       "curvature": "straight",
	//       "to": "R 2000 mm left"
	//     },
	//     {
	//       "form": "arc",
	//       "length": "1844.3951023931952 mm",
	//       "curvature": "R 2000 mm left"
	//     }
	//   ]
	// }
	// true
}
