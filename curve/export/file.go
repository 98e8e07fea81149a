package export

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// MaxFile is the most bytes of a file that ReadLine takes.
const MaxFile = 8 << 20

// lineFile is a line as its file has it.
type lineFile struct {
	Start    poseFile      `json:"start"`
	Closing  *closingFile  `json:"closing,omitempty"`
	Elements []elementFile `json:"elements"`
}

type poseFile struct {
	East    *measure.Length `json:"east,omitempty"`
	North   *measure.Length `json:"north,omitempty"`
	Heading *measure.Angle  `json:"heading,omitempty"`
}

// closingFile makes the line a circuit: how far it may miss its start.
type closingFile struct {
	Gap  measure.Length `json:"gap"`
	Turn measure.Angle  `json:"turn"`
}

type elementFile struct {
	Kink      *measure.Angle     `json:"kink,omitempty"`
	Form      string             `json:"form"`
	Length    *measure.Length    `json:"length,omitempty"`
	Curvature *measure.Curvature `json:"curvature,omitempty"` // of an arc, or at an easement's start
	Turn      *measure.Angle     `json:"turn,omitempty"`      // of an arc, instead of its length
	To        *measure.Curvature `json:"to,omitempty"`        // at an easement's end
	From      *measure.Length    `json:"from,omitempty"`      // where a part of an easement begins,
	Of        *measure.Length    `json:"of,omitempty"`        // and how long the whole is
}

// WriteLine returns the line as indented JSON; ReadLine makes the same line of
// it, every element bit for bit:
//
//	{
//	  "start": {"east": "0 mm", "north": "0 mm", "heading": "0°"},
//	  "closing": {"gap": "0.1 mm", "turn": "0.01°"},
//	  "elements": [
//	    {"form": "straight", "length": "1000 mm"},
//	    {"form": "bloss", "length": "800 mm", "curvature": "straight", "to": "R 3000 mm left"},
//	    {"form": "arc", "curvature": "R 3000 mm left", "turn": "60°"},
//	    {"kink": "0.5°", "form": "straight", "length": "600 mm"}
//	  ]
//	}
//
// An open line has no closing. Curvature and to are of the whole easement; a
// part of one has the whole's length in of and its own start in from.
func WriteLine(line *curve.Alignment) ([]byte, error) {
	l := fault.In("export")
	if line == nil {
		l.Add("line", nil, "must be given")
		return nil, l.Err()
	}
	p := line.Start()
	east, north := measure.Length(p.Point.X), measure.Length(p.Point.Y)
	f := lineFile{Start: poseFile{&east, &north, &p.Heading}}
	if line.Closed() {
		end := line.End()
		gap := r2.Norm(r2.Sub(end.Point, p.Point))
		turn := math.Abs(math.Remainder(float64(end.Heading-p.Heading), 2*math.Pi))
		// A little more, so that the line closes again.
		f.Closing = &closingFile{measure.Length(gap*(1+1e-9) + 1e-9), measure.Angle(turn*(1+1e-9) + 1e-12)}
	}
	for i, e := range line.Elements() {
		x, ok := toFile(e)
		if !ok {
			l.Add(fmt.Sprintf("element %d", i+1), e.Shape(), "has no form in this file")
		}
		f.Elements = append(f.Elements, x)
	}
	if !l.OK() {
		return nil, l.Err()
	}
	return json.MarshalIndent(f, "", "  ")
}

func toFile(e curve.Element) (elementFile, bool) {
	length, shape := e.Length(), e.Shape()
	f := elementFile{Form: shape.String(), Length: &length}
	if k := e.Kink(); k != 0 {
		f.Kink = &k
	}
	switch {
	case shape == curve.StraightLine:
	case shape == curve.CircularArc:
		k := e.StartCurvature()
		f.Curvature = &k
		// Say the turn where that loses nothing.
		turn := math.Abs(e.Turn().Degrees())
		round, err := strconv.ParseFloat(strconv.FormatFloat(turn, 'g', 12, 64), 64)
		if a := measure.Angle(round) * measure.Degree; err == nil && arcLength(a, k) == length {
			f.Turn, f.Length = &a, nil
		}
	case shape.Easement():
		whole, from := e.Whole()
		k0, k1 := whole.StartCurvature(), whole.EndCurvature()
		f.Curvature, f.To = &k0, &k1
		if of := whole.Length(); of != length {
			f.From, f.Of = &from, &of
		}
	}
	back, err := f.element()
	return f, err == nil && back == e
}

func arcLength(turn measure.Angle, k measure.Curvature) measure.Length {
	return measure.Length(float64(turn) * (1 / math.Abs(float64(k))))
}

// ReadLine reads what [WriteLine] writes. Lengths, angles and curvatures may
// have any unit that package measure reads; a key that the file does not have,
// or one that does not belong to the form, is refused by name.
func ReadLine(data []byte) (*curve.Alignment, error) {
	l := fault.In("export")
	if len(data) > MaxFile {
		l.Over("file", fmt.Sprintf("%d bytes", len(data)), fmt.Sprintf("must be %d bytes or fewer", MaxFile))
		return nil, l.Err()
	}
	var f lineFile
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&f); err != nil {
		return nil, readError(err, d.InputOffset())
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		l.Add("file", nil, fmt.Sprintf("must end after the line, but goes on at byte %d", d.InputOffset()))
		return nil, l.Err()
	}
	elements := make([]curve.Element, len(f.Elements))
	if len(elements) > curve.MaxElements {
		l.Over("elements", len(elements), fmt.Sprintf("must be %d or fewer", curve.MaxElements))
		return nil, l.Err()
	}
	for i, x := range f.Elements {
		e, err := x.element()
		l.JoinAs(fmt.Sprintf("export: element %d", i+1), err)
		elements[i] = e
	}
	var start curve.Pose
	if p := f.Start; p.East == nil || p.North == nil || p.Heading == nil {
		l.Add("start", nil, "must have east, north and heading")
	} else {
		start = curve.Pose{Point: r2.Vec{X: float64(*p.East), Y: float64(*p.North)}, Heading: *p.Heading}
	}
	if !l.OK() {
		return nil, l.Err()
	}
	if c := f.Closing; c != nil {
		return curve.NewClosed(start, c.Gap, c.Turn, elements...)
	}
	return curve.New(start, elements...)
}

// readError says where the decoder stopped, and why, as an error of kind
// ErrInput.
func readError(err error, at int64) error {
	if errors.Is(err, measure.ErrInput) {
		return fmt.Errorf("export: file, before byte %d: %w", at, err)
	}
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		err = errors.New("ends before the line does")
	}
	l := fault.In("export")
	l.Add("file, before byte "+strconv.FormatInt(at, 10), nil, strings.TrimPrefix(err.Error(), "json: "))
	return l.Err()
}

// element makes the element, or says all that is wrong with its keys.
func (f elementFile) element() (curve.Element, error) {
	l := fault.In("export")
	shape, ok := shapes[f.Form]
	if !ok {
		l.Add("form", strconv.Quote(f.Form), "must be straight, arc, clothoid, bloss, cosine, sine or helmert")
		return curve.Element{}, l.Err()
	}
	arc, ease := shape == curve.CircularArc, shape.Easement()
	for _, k := range []struct {
		name      string
		has       bool
		must, may bool
	}{
		{"length", f.Length != nil, !arc, !arc || f.Turn == nil},
		{"turn", f.Turn != nil, arc && f.Length == nil, arc},
		{"curvature", f.Curvature != nil, arc || ease, arc || ease},
		{"to", f.To != nil, ease, ease},
		{"from", f.From != nil, f.Of != nil, ease},
		{"of", f.Of != nil, f.From != nil, ease},
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
	var e curve.Element
	var err error
	switch {
	case shape == curve.StraightLine:
		e, err = curve.NewStraight(*f.Length)
	case arc:
		length := f.Length
		if length == nil {
			if *f.Curvature == 0 {
				l.Add("curvature", *f.Curvature, "must not be straight for an arc")
				return e, l.Err()
			}
			x := arcLength(*f.Turn, *f.Curvature)
			length = &x
		}
		e, err = curve.NewArcOfLength(*length, *f.Curvature)
	case f.Of != nil:
		if e, err = curve.NewEasement(shape, *f.Of, *f.Curvature, *f.To); err == nil {
			e, err = curve.NewEasementPart(e, *f.From, *f.Length)
		}
	default:
		e, err = curve.NewEasement(shape, *f.Length, *f.Curvature, *f.To)
	}
	if err == nil && f.Kink != nil {
		e = e.WithKink(*f.Kink)
	}
	return e, err
}

var shapes = func() map[string]curve.Shape {
	out := make(map[string]curve.Shape)
	for s := curve.StraightLine; s <= curve.Helmert; s++ {
		out[s.String()] = s
	}
	return out
}()
