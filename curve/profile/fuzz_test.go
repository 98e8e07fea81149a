package profile_test

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// reader takes numbers from the fuzzer's bytes: eight to a float64.
type reader []byte

func (r *reader) length() measure.Length {
	var b [8]byte
	*r = (*r)[copy(b[:], *r):]
	return measure.Length(math.Float64frombits(binary.LittleEndian.Uint64(b[:])))
}

func (r *reader) byte() byte {
	if len(*r) == 0 {
		return 0
	}
	b := (*r)[0]
	*r = (*r)[1:]
	return b
}

func pack(kind byte, v ...float64) []byte {
	out := []byte{kind}
	for _, x := range v {
		out = binary.LittleEndian.AppendUint64(out, math.Float64bits(x))
	}
	return out
}

func refused(t *testing.T, err error) bool {
	t.Helper()
	if err != nil && !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrLimit) {
		t.Fatalf("error of no kind: %v", err)
	}
	return err != nil
}

// A level that is taken is finite, continuous and no steeper than it says.
func FuzzLevel(f *testing.F) {
	f.Add(pack(0, 0, 10, 0, 0, 4000, 110, 0, 12000, 9000, 20, 900, 0))
	f.Add(pack(3, 20000, 0, 100, 10, 800, 0, 6000, 150, 700, 0, 8000, 120, 0, 9000))
	f.Add(pack(1, 0, 0, 1e-300, 0, 1e-300, 1e-300, 0, 0))
	f.Add(pack(2, 1e9, 0, -1e9, 1, 0, 0, 1e9, -1, 0, 0))
	f.Fuzz(func(t *testing.T, data []byte) {
		r := reader(data)
		kind := r.byte()
		var circuit measure.Length
		if kind&2 != 0 {
			circuit, _ = r.length(), r.length()
		}
		var points []profile.Point
		for len(r) >= 16 && len(points) < 20 {
			points = append(points, profile.Point{Chainage: r.length(), Level: r.length(), Curve: r.length(), Radius: r.length(), Form: profile.Form(kind & 1)})
		}
		l, err := profile.NewLevel(points...)
		if kind&2 != 0 {
			l, err = profile.NewClosedLevel(circuit, 0.1, points...)
		}
		if refused(t, err) {
			return
		}
		from, to := points[0].Chainage, points[len(points)-1].Chainage
		scale := 1.0
		for _, p := range points {
			scale = max(scale, math.Abs(float64(p.Chainage)), math.Abs(float64(p.Level)))
		}
		if circuit > 0 {
			to = from + circuit
		}
		if !(to <= profile.Farthest) {
			return
		}
		high, err1 := l.Highest(from, to)
		low, err2 := l.Lowest(from, to)
		steep, err3 := l.Steepest(from, to)
		length, err4 := l.TrueLength(from, to)
		if err := errors.Join(err1, err2, err3, err4); err != nil {
			t.Fatal(err)
		}
		tol := measure.Length(1e-9 * scale)
		if !(length >= (to-from)*(1-1e-12)-tol) || !(length <= (to-from)*1.4143+tol) {
			t.Fatalf("%v long along the slope, %v in plan", length, to-from)
		}
		if math.Abs(float64(steep.Gradient)) > 1+1e-9 {
			t.Fatalf("steepest %v", steep)
		}
		// Between the bends of any two points the level moves by no more than
		// the steepest gradient allows.
		const parts = 50
		h := (to - from) / parts
		for i := range parts {
			s := from + h*measure.Length(i)
			a, b := l.At(s), l.At(s+h)
			if !(math.Abs(float64(b-a)) <= math.Abs(float64(steep.Gradient))*float64(h)+float64(tol)) {
				t.Fatalf("level from %v at %v to %v at %v, steepest %v", a, s, b, s+h, steep)
			}
			if !(a <= high.Level+tol && a >= low.Level-tol) {
				t.Fatalf("level %v at %v is not between %v and %v", a, s, low, high)
			}
			if k := float64(l.Curvature(s)); math.IsNaN(k) || math.IsInf(k, 0) {
				t.Fatalf("curvature %v at %v", k, s)
			}
		}
	})
}

// A cant that is taken stays between its points' values; its largest twist is
// no less than any.
func FuzzCant(f *testing.F) {
	f.Add(pack(0, 0, 0, 500, 3, 1000, 0))
	f.Add(pack(6, 6000, 200, 3, 900, -1, 2000, -1, 3000, 2))
	f.Add(pack(9, 0, 1e9, 1e-9, -1e9))
	laws := [...]curve.Shape{0, curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert, curve.CircularArc, 99}
	f.Fuzz(func(t *testing.T, data []byte) {
		r := reader(data)
		kind := r.byte()
		var circuit measure.Length
		if kind&2 != 0 {
			circuit = r.length()
		}
		var points []profile.CantPoint
		lo, hi := measure.Length(math.Inf(1)), measure.Length(math.Inf(-1))
		for len(r) >= 16 && len(points) < 20 {
			p := profile.CantPoint{Chainage: r.length(), Cant: r.length(), Law: laws[int(kind>>2+byte(len(points)))%6]}
			if kind == 255 {
				p.Law = laws[len(points)%8]
			}
			lo, hi = min(lo, p.Cant), max(hi, p.Cant)
			points = append(points, p)
		}
		c, err := profile.NewCant(profile.Datum(kind&1+1), points...)
		if kind&2 != 0 {
			c, err = profile.NewClosedCant(profile.Datum(kind&1+1), circuit, 0.1, points...)
		}
		if refused(t, err) {
			return
		}
		from, to := points[0].Chainage, points[len(points)-1].Chainage
		if circuit > 0 {
			to = from + circuit
		}
		base := (to - from) / 7
		if !(to <= profile.Farthest) || base <= 0 {
			return
		}
		most, err := c.MaxTwist(from, to, base)
		if err != nil {
			t.Fatal(err)
		}
		tol := 1e-9 * max(math.Abs(float64(lo)), math.Abs(float64(hi)), 1)
		for i := range 50 {
			s := from + (to-from)*measure.Length(i)/50
			if u := float64(c.At(s)); !(u >= float64(lo)-tol && u <= float64(hi)+tol) {
				t.Fatalf("cant %v at %v, points from %v to %v", u, s, lo, hi)
			}
			if w := math.Abs(float64(c.Twist(s, base))); !(w <= math.Abs(float64(most.Change))+1e-3*float64(hi-lo)+tol) {
				t.Fatalf("twist of %v at %v, MaxTwist %v", w, s, most)
			}
		}
	})
}
