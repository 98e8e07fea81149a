package passing

import (
	"context"
	"math"
	"sort"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// maxSlabs is the most slabs that a canted section is cut into.
const maxSlabs = 200

// slabs returns the heights at which to compare two stocks: the levels at which
// outlines of both begin or end. Sections that lean, or rise and fall with the
// level, are cut into slabs so thin that what leaning does within one, always
// on the safe side, stays below the tolerance.
func slabs(ctx context.Context, a, b *clearance.Envelope) ([]clearance.Heights, error) {
	levels := map[measure.Length]bool{}
	bandsA, bandsB := bandsOf(a), bandsOf(b)
	for _, h := range append(append([]clearance.Heights(nil), bandsA...), bandsB...) {
		levels[h.From], levels[h.To] = true, true
	}
	z := make([]measure.Length, 0, len(levels))
	for l := range levels {
		z = append(z, l)
	}
	sort.Slice(z, func(i, j int) bool { return z[i] < z[j] })
	leans, moves := lean(a)+lean(b), lifted(a) || lifted(b)
	if leans > 0 && !moves && !canted(a) && !canted(b) {
		return rolled(ctx, z, a, b)
	}
	if leans > 0 || moves {
		const far = 1e6 // above and below all
		z = append(append([]measure.Length{-far}, z...), far)
		thin := max(min(2, float64(a.Settings().Tolerance+b.Settings().Tolerance)/leans), float64(z[len(z)-2]-z[1])/maxSlabs)
		var out []clearance.Heights
		for i := range len(z) - 1 {
			n := 1
			if 0 < i && i < len(z)-2 {
				n = max(1, int(math.Ceil(float64(z[i+1]-z[i])/thin)))
			}
			for j := range n {
				f := func(j int) measure.Length { return z[i] + (z[i+1]-z[i])*measure.Length(j)/measure.Length(n) }
				out = append(out, clearance.Heights{From: f(j), To: f(j + 1)})
			}
		}
		return out, nil
	}
	type found struct {
		h    clearance.Heights
		a, b []int
	}
	var all []found
	// What meets between two levels meets at either of them too.
	for _, level := range z {
		f := found{h: at(level)}
		f.a, f.b = meeting(bandsA, f.h), meeting(bandsB, f.h)
		if len(f.a) > 0 && len(f.b) > 0 {
			all = append(all, f)
		}
	}
	var out []clearance.Heights
	for i, f := range all {
		spare := false // another level has all that this one has
		for j, g := range all {
			if i != j && subset(f.a, g.a) && subset(f.b, g.b) && (j < i || len(f.a)+len(f.b) < len(g.a)+len(g.b)) {
				spare = true
			}
		}
		if !spare {
			out = append(out, f.h)
		}
	}
	return out, nil
}

// rolled returns the slabs for stocks that only roll on their springs. Both
// flanks of every section are then straight, and what two of them need together
// is most where one of them begins or ends: at the given levels, each moved up
// or down by at most the lift that rolling gives a corner.
func rolled(ctx context.Context, z []measure.Length, a, b *clearance.Envelope) ([]clearance.Heights, error) {
	var lift measure.Length
	for _, e := range [2]*clearance.Envelope{a, b} {
		for _, s := range [2]curve.Hand{curve.Left, curve.Right} {
			edge, err := e.Edges(ctx, s, []clearance.Heights{{}})
			if err != nil {
				return nil, err
			}
			for _, p := range edge[0] {
				if !p.None {
					lift = max(lift, measure.Length(e.Settings().Allowances.Springs)*max(p.Reach, -p.Reach))
				}
			}
		}
	}
	out := make([]clearance.Heights, len(z))
	for i, at := range z {
		out[i] = clearance.Heights{From: at - lift, To: at + lift}
	}
	return out, nil
}

// bandsOf returns the heights of every outline of the stock.
func bandsOf(e *clearance.Envelope) []clearance.Heights {
	var out []clearance.Heights
	put := func(bands []clearance.Band) {
		for _, b := range bands {
			out = append(out, clearance.Heights{From: b.Bottom, To: b.Top})
		}
	}
	for _, v := range e.Stock() {
		for _, b := range v.Bodies {
			put(b.Bands)
			for _, t := range b.Trucks {
				put(t.Bands)
			}
		}
		for _, c := range v.Carriers {
			put(c.Bands)
		}
	}
	return out
}

// meeting returns which bands meet the heights; touching is meeting.
func meeting(bands []clearance.Heights, h clearance.Heights) []int {
	var out []int
	for i, b := range bands {
		if b.From <= h.To && b.To >= h.From {
			out = append(out, i)
		}
	}
	return out
}

// subset reports whether all of a, in order, is in b, in order.
func subset(a, b []int) bool {
	j := 0
	for _, x := range a {
		for j < len(b) && b[j] < x {
			j++
		}
		if j == len(b) || b[j] != x {
			return false
		}
	}
	return true
}

// lean returns the most that a section leans, sideways over upright.
func lean(e *clearance.Envelope) float64 {
	a := e.Settings().Allowances
	l := float64(a.Springs)
	if a.Cant.Datum() == 0 {
		return l
	}
	most := 0.0
	for _, c := range append(a.Cant.Boundaries(), e.Stations()...) {
		most = max(most, math.Abs(float64(a.Cant.At(c))))
	}
	return l + most/float64(a.RailCentres)
}

// canted reports whether the sections lean with the track.
func canted(e *clearance.Envelope) bool { return e.Settings().Allowances.Cant.Datum() != 0 }

// lifted reports whether the level moves the stock up and down.
func lifted(e *clearance.Envelope) bool {
	return len(e.Settings().Allowances.Level.Boundaries()) > 0
}

// widest returns the largest reach of the stock on either side, roughly.
func widest(edges [2][]clearance.EdgePoint) measure.Length {
	var w measure.Length
	for _, side := range edges {
		for _, p := range side {
			if !p.None {
				w = max(w, p.Reach)
			}
		}
	}
	return w
}

// facing finds on which side of a's line b's lies, and whether the two run the
// same way, from the places where they are farthest apart while still beside
// each other. With a side given it looks only at places with b there.
func facing(a, b *clearance.Envelope, side curve.Hand, near measure.Length) (curve.Hand, bool, bool) {
	stations := a.Stations()
	la, lb := a.Line(), b.Line()
	var best struct {
		apart measure.Length
		side  curve.Hand
		same  bool
	}
	near *= 3
	found := false
	const samples = 128
	for i := range samples + 1 {
		at := la.At(stations[(len(stations)-1)*i/samples])
		f := lb.Nearest(at.Point)
		if f.End || f.Offset == 0 {
			continue
		}
		other := lb.At(f.Chainage)
		hand := curve.Left
		if at.Tangent.X*(other.Point.Y-at.Point.Y)-at.Tangent.Y*(other.Point.X-at.Point.X) < 0 {
			hand = curve.Right
		}
		if side != 0 && hand != side {
			continue
		}
		apart := max(f.Offset, -f.Offset)
		better := !found || apart > best.apart
		if found && max(apart, best.apart) > near {
			better = apart < best.apart
		}
		if better {
			found = true
			best.apart, best.side = apart, hand
			best.same = at.Tangent.X*other.Tangent.X+at.Tangent.Y*other.Tangent.Y > 0
		}
	}
	return best.side, best.same, found
}
