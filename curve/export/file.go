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
// part of one has the whole's length in of and its own start in from. A cubic
// parabola or a lath has its abscissa, with curvature and to, one of them
// "straight"; or, as a part, rate, the growth of its curvature per millimetre
// along the straight, with of, from and back. A lath between two poses has rate
// so too, and with it curvature, at its first end, and across, the growth to the
// left of that end's tangent.
//
// A circuit whose misclosure is spread over the lap is written as its elements
// and the misclosure, and spread again when it is read. A part of such a
// circuit does not lie where its elements put it, and is refused.
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
		// A little more, so that the line closes again.
		gap, turn := misclosure(line)
		f.Closing = &closingFile{gap*(1+1e-9) + 1e-9, measure.Angle(math.Abs(float64(turn))*(1+1e-9) + 1e-12)}
	} else if !asLaid(line) {
		l.Add("line", "not where its elements put it", "must not be a part of a circuit whose misclosure is spread; write the circuit")
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
