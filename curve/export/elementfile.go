package export

import (
	"math"
	"strconv"
	"strings"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// elementFile is an element as the file has it.
type elementFile struct {
	Kink      *measure.Angle     `json:"kink,omitempty"`
	Form      string             `json:"form"`
	Length    *measure.Length    `json:"length,omitempty"`
	Abscissa  *measure.Length    `json:"abscissa,omitempty"`  // of a cubic parabola or lath, instead of its length
	Curvature *measure.Curvature `json:"curvature,omitempty"` // of an arc, or at an easement's start, or at a lath's first end
	Turn      *measure.Angle     `json:"turn,omitempty"`      // of an arc, instead of its length
	To        *measure.Curvature `json:"to,omitempty"`        // at an easement's end
	From      *measure.Length    `json:"from,omitempty"`      // where a part of an easement begins,
	Of        *measure.Length    `json:"of,omitempty"`        // and how long the whole is
	Rate      *perArea           `json:"rate,omitempty"`      // of a cubic parabola or lath
	Across    *perArea           `json:"across,omitempty"`    // of a lath between two poses
	Back      bool               `json:"back,omitempty"`      // it runs towards its straight end
}

// perArea is a rate of curvature, "1e-7 /mm²".
type perArea float64

const perAreaUnit = " /mm²"

func (p perArea) MarshalText() ([]byte, error) {
	return append(strconv.AppendFloat(nil, float64(p), 'g', -1, 64), perAreaUnit...), nil
}

func (p *perArea) UnmarshalText(text []byte) error {
	s, ok := strings.CutSuffix(string(text), perAreaUnit)
	v, err := strconv.ParseFloat(s, 64)
	if !ok || err != nil {
		l := fault.In("export")
		l.Add("rate", strconv.Quote(string(text)), `must be such as "1e-7`+perAreaUnit+`"`)
		return l.Err()
	}
	*p = perArea(v)
	return nil
}

// lever reports whether the shape is a cubic parabola or a lath.
func lever(s curve.Shape) bool { return s == curve.CubicParabola || s == curve.Lath }

// toFile returns the element as the file has it; ok is false when it would not
// come back bit for bit.
func toFile(e curve.Element) (f elementFile, ok bool) {
	length, shape := e.Length(), e.Shape()
	f = elementFile{Form: shape.String(), Length: &length}
	if k := e.Kink(); k != 0 {
		f.Kink = &k
	}
	same := func(f elementFile) bool {
		back, err := f.element()
		return err == nil && back == e
	}
	switch {
	case shape == curve.StraightLine:
	case shape == curve.CircularArc:
		k := e.StartCurvature()
		f.Curvature = &k
		// Say the turn where that loses nothing.
		turn := measure.Angle(rounded(math.Abs(e.Turn().Degrees()))) * measure.Degree
		if g := f; arcLength(turn, k) == length {
			g.Turn, g.Length = &turn, nil
			return g, same(g)
		}
	case shape.Easement():
		whole, from := e.Whole()
		k0, k1 := whole.StartCurvature(), whole.EndCurvature()
		f.Curvature, f.To = &k0, &k1
		if of := whole.Length(); of != length {
			f.From, f.Of = &from, &of
		}
	case lever(shape):
		v := e.Form()
		if g, ok := f.whole(v); ok && same(g) {
			return g, true
		}
		rate := perArea(v.Rate)
		f.Rate, f.Of, f.From, f.Back = &rate, &v.Whole, &v.From, v.Back
		if v.Start != 0 || v.Across != 0 {
			across := perArea(v.Across)
			f.Curvature, f.Across = &v.Start, &across
		}
	default:
		return f, false
	}
	return f, same(f)
}

// whole returns a whole cubic parabola or lath by its abscissa and the radius
// it leads to or from, as somebody would state them.
func (f elementFile) whole(v curve.Form) (elementFile, bool) {
	if v.Start != 0 || v.Across != 0 || v.Length != v.Whole || v.Back != (v.From == v.Whole) {
		return f, false
	}
	ahead := v
	ahead.From, ahead.Back, ahead.Kink = 0, false, 0
	e, err := ahead.Element()
	if err != nil {
		return f, false
	}
	line, err := curve.New(curve.Pose{}, e)
	if err != nil {
		return f, false
	}
	x := rounded(line.End().Point.X)
	radius, hand, ok := curve.RadiusOf(measure.Curvature(v.Rate * x))
	if !ok {
		return f, false
	}
	abscissa := measure.Length(x)
	k, err := hand.Curvature(measure.Length(rounded(float64(radius))))
	straight := measure.Curvature(0)
	f.Abscissa, f.Curvature, f.To, f.Length = &abscissa, &straight, &k, nil
	if v.Back {
		k = -k
		f.Curvature, f.To = f.To, f.Curvature
	}
	return f, err == nil
}

// rounded returns x to twelve significant digits.
func rounded(x float64) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 12, 64), 64)
	if err != nil {
		return x
	}
	return r
}

func arcLength(turn measure.Angle, k measure.Curvature) measure.Length {
	return measure.Length(float64(turn) * (1 / math.Abs(float64(k))))
}

// element makes the element, or says all that is wrong with its keys.
func (f elementFile) element() (curve.Element, error) {
	l := fault.In("export")
	shape, ok := shapes[f.Form]
	if !ok {
		l.Add("form", strconv.Quote(f.Form), "must be straight, arc, clothoid, bloss, cosine, sine, helmert, cubic parabola or lath")
		return curve.Element{}, l.Err()
	}
	arc, ease := shape == curve.CircularArc, shape.Easement()
	whole := lever(shape) && f.Rate == nil // by its abscissa
	part := lever(shape) && f.Rate != nil
	between := part && (f.Curvature != nil || f.Across != nil)
	length := !arc && !whole || arc && f.Turn == nil
	for _, k := range []struct {
		name           string
		has, must, may bool
	}{
		{"length", f.Length != nil, length && !arc, length},
		{"turn", f.Turn != nil, arc && f.Length == nil, arc},
		{"abscissa", f.Abscissa != nil, whole, whole},
		{"curvature", f.Curvature != nil, arc || ease || whole || between, arc || ease || whole || between},
		{"to", f.To != nil, ease || whole, ease || whole},
		{"from", f.From != nil, f.Of != nil || part, ease || part},
		{"of", f.Of != nil, f.From != nil || part, ease || part},
		{"rate", f.Rate != nil, false, part},
		{"across", f.Across != nil, between, part},
		{"back", f.Back, false, part},
	} {
		if k.must && !k.has {
			l.Add(k.name, nil, "must be given for "+f.Form)
		}
		if k.has && !k.may {
			l.Add(k.name, nil, "must not be given here for "+f.Form)
		}
	}
	if !l.OK() {
		return curve.Element{}, l.Err()
	}
	e, err := f.make(shape)
	if err == nil && f.Kink != nil {
		e = e.WithKink(*f.Kink)
	}
	return e, err
}

// make makes the element of keys that are there.
func (f elementFile) make(shape curve.Shape) (curve.Element, error) {
	switch {
	case shape == curve.StraightLine:
		return curve.NewStraight(*f.Length)
	case shape == curve.CircularArc:
		if *f.Curvature == 0 {
			l := fault.In("export")
			l.Add("curvature", *f.Curvature, "must not be straight for an arc")
			return curve.Element{}, l.Err()
		}
		if f.Turn != nil {
			return curve.NewArcOfLength(arcLength(*f.Turn, *f.Curvature), *f.Curvature)
		}
		return curve.NewArcOfLength(*f.Length, *f.Curvature)
	case f.Rate != nil:
		v := curve.Form{Shape: shape, Rate: float64(*f.Rate), Whole: *f.Of, From: *f.From, Length: *f.Length, Back: f.Back}
		if f.Across != nil {
			v.Start, v.Across = *f.Curvature, float64(*f.Across)
		}
		return v.Element()
	case f.Abscissa != nil:
		return f.lever(shape)
	case f.Of != nil:
		return curve.Form{Shape: shape, Length: *f.Length, Start: *f.Curvature, End: *f.To, Whole: *f.Of, From: *f.From}.Element()
	}
	return curve.NewEasement(shape, *f.Length, *f.Curvature, *f.To)
}

func (f elementFile) lever(shape curve.Shape) (curve.Element, error) {
	k, back := *f.To, false
	if k == 0 {
		k, back = -*f.Curvature, true
	}
	radius, hand, ok := curve.RadiusOf(k)
	if !ok || *f.Curvature != 0 && *f.To != 0 {
		l := fault.In("export")
		l.Add("curvature and to", f.Curvature.String()+" and "+f.To.String(), "must be one straight and one not for a "+f.Form)
		return curve.Element{}, l.Err()
	}
	build := curve.NewCubicParabola
	if shape == curve.Lath {
		build = curve.NewLath
	}
	e, err := build(*f.Abscissa, radius, hand)
	if err == nil && back {
		e = e.Reverse()
	}
	return e, err
}

var shapes = func() map[string]curve.Shape {
	out := make(map[string]curve.Shape)
	for s := curve.StraightLine; s <= curve.Lath; s++ {
		out[s.String()] = s
	}
	return out
}()
