package joints

import (
	"fmt"
	"math"
	"sort"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// An end says what a run of rail ends at.
type end struct {
	name   string  // of the object; "" where the line ends
	joint  bool    // a gap is left here
	shared bool    // with the piece on the other side: the start of a ring
	free   float64 // rail beyond the joint that slides towards it
}

// A run is a stretch of rail between two objects or line ends, in distance x
// from the track's origin, with the things on it.
type run struct {
	x0, x1     float64
	start, end end
	ring       bool // once round a circuit without objects
	anchors    []mark
	zones      []stretch
}

type mark struct {
	name string
	x    float64
}

type stretch struct {
	name   string
	zone   int // index in the spec
	x0, x1 float64
}

func zoneName(z Zone, i int) string {
	if z.Name == "" {
		return fmt.Sprintf("zone %d", i+1)
	}
	return z.Name
}

type object struct {
	name   string
	x0, x1 float64
	free   float64
}

// layout puts the spec's places on the track and cuts the line into runs.
func layout(l *fault.List, line *curve.Alignment, s Spec) (track, []run) {
	from, to := s.From, s.To
	if from == 0 && to == 0 {
		to = line.Length()
	}
	locate(l, line, "from", from)
	locate(l, line, "to", to)
	for i, o := range s.Objects {
		f := fmt.Sprintf("object %d (%s)", i+1, o.Name)
		interval(l, line, f, o.From, o.To)
		fault.NotNegative(l, f+": free rail", o.Free)
	}
	for i, a := range s.Anchors {
		locate(l, line, fmt.Sprintf("anchor %d (%s)", i+1, a.Name), a.At)
	}
	for i, z := range s.Zones {
		interval(l, line, fmt.Sprintf("zone %d (%s)", i+1, z.Name), z.From, z.To)
	}
	if !line.Closed() && l.OK() && to <= from {
		l.Add("to", mm(to), "must lie after from, "+mm(from))
	}
	if !l.OK() {
		return track{}, nil
	}
	circuit := line.Closed()
	length := float64(line.Length())
	total := float64(to - from)
	once := circuit && (to == from || total == length)
	if circuit && total <= 0 {
		total += length
	}
	if once {
		total = length
		if len(s.Objects) > 0 { // begin at an object: then nothing depends on the start of the circuit
			from = s.Objects[0].From
		}
	}
	t := newTrack(line, s.Level, s.RailCentres, from)
	on := func(p measure.Length) float64 {
		x := float64(p - from)
		if circuit {
			x = math.Mod(x, length)
			if x < 0 {
				x += length
			}
		}
		return x
	}
	objects := make([]object, len(s.Objects))
	for i, o := range s.Objects {
		x := on(o.From)
		objects[i] = object{o.Name, x, x + float64(line.Span(o.From, o.To)), float64(o.Free)}
		if o.Name == "" {
			objects[i].name = fmt.Sprintf("object %d", i+1)
		}
		if !once && (x < -1e-9 && objects[i].x1 > 1e-9 || circuit && objects[i].x1 > length+1e-9) {
			l.Add("from", mm(from), "must not lie inside "+objects[i].name)
		}
	}
	sort.SliceStable(objects, func(i, j int) bool { return objects[i].x0 < objects[j].x0 })
	var runs []run
	x, at := 0.0, end{}
	if once && len(objects) == 0 {
		at = end{joint: true, shared: true}
	}
	for _, o := range objects {
		if o.x0 >= total || o.x1 <= 0 {
			continue
		}
		if o.x0 < x-1e-9 {
			l.Add("object "+o.name, "from "+mm(t.chainage(o.x0)), "must not begin inside another, which ends at "+mm(t.chainage(x)))
			continue
		}
		stop := end{name: o.name, joint: true, free: o.free}
		if o.x0 > x+1e-9 {
			runs = append(runs, run{x0: x, x1: o.x0, start: at, end: stop})
		}
		x, at = o.x1, stop
	}
	if total > x+1e-9 {
		last := run{x0: x, x1: total, start: at}
		switch {
		case once && len(objects) == 0:
			last.end, last.ring = at, true
		case once:
			last.end = end{name: objects[0].name, joint: true, free: objects[0].free}
		}
		runs = append(runs, last)
	} else if x > total+1e-9 && once {
		l.Add("object "+at.name, "to "+mm(t.chainage(x)), "must not run into the first object")
	}
	for n := range runs {
		r := &runs[n]
		for _, a := range s.Anchors {
			if x := on(a.At); (x > r.x0 || r.ring && x == r.x0) && x < r.x1 {
				r.anchors = append(r.anchors, mark{a.Name, x})
			}
		}
		sort.Slice(r.anchors, func(i, j int) bool { return r.anchors[i].x < r.anchors[j].x })
		for i, z := range s.Zones {
			x0 := on(z.From)
			x1 := x0 + float64(line.Span(z.From, z.To))
			for _, lap := range [3]float64{-length, 0, length} {
				if (lap == 0 || circuit) && x0+lap < r.x1+length && x1+lap > r.x0 {
					r.zones = append(r.zones, stretch{zoneName(z, i), i, x0 + lap, x1 + lap})
				}
			}
		}
		sort.Slice(r.zones, func(i, j int) bool { return r.zones[i].x0 < r.zones[j].x0 })
	}
	if l.OK() && len(runs) == 0 {
		l.Add("line", nil, "is all objects: no rail is left to lay")
	}
	return t, runs
}

func locate(l *fault.List, line *curve.Alignment, field string, s measure.Length) bool {
	if !fault.Finite(l, field, s) {
		return false
	}
	if s < 0 || s > line.Length() {
		l.Add(field, mm(s), "must lie on the line, which runs from 0 mm to "+mm(line.Length()))
		return false
	}
	return true
}

func interval(l *fault.List, line *curve.Alignment, field string, from, to measure.Length) {
	a, b := locate(l, line, field+": from", from), locate(l, line, field+": to", to)
	if a && b && (to == from || to < from && !line.Closed()) {
		l.Add(field+": to", mm(to), "must lie after from, "+mm(from))
	}
}
