package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/clearance/limit"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/gauge/nem"
)

// limitChapter is how far the line, what stands beside it and the stock can be
// taken: searches that take long, each by itself.
func (s *site) limitChapter(ctx context.Context) (Chapter, error) {
	c := Chapter{Title: "How far it goes"}
	tables := []func(context.Context) (Table, error){s.leastRadii, s.reversals, s.widest, s.widening}
	c.Tables = make([]Table, len(tables))
	faults := make([]error, len(tables))
	var all sync.WaitGroup
	for i, table := range tables {
		all.Go(func() { c.Tables[i], faults[i] = table(ctx) })
	}
	all.Wait()
	c.Lines = s.tooSharp
	c.Tables = slices.DeleteFunc(c.Tables, func(t Table) bool { return len(t.Rows) == 0 })
	return c, errors.Join(faults...)
}

// leastRadii is how sharp the curve may be at each opening, for each spacing
// and each coupled pair, and for each rigid wheelbase.
func (s *site) leastRadii(ctx context.Context) (Table, error) {
	t := Table{Name: "least-radii", Caption: "The least radius of a long curve, without cant, at which each still does with the running margin; where the line is sharper it may do nevertheless, as the curve is short or eased: the clearance chapter decides.", Columns: []Column{
		{"what", Text, 0}, {"asked of it", Text, 0}, {"least radius", Length, 0}, {"governed by", Text, 0}, {"radius there", Length, 0},
	}}
	allowances := s.settings().Allowances
	allowances.Cant, allowances.Level = profile.Cant{}, profile.Level{}
	bend := limit.Bend{Stock: s.stock, Margin: s.plan.Margin, Allowances: allowances, NoRates: true}
	row := func(what, asked string, r limit.Radius, err error, there any) error {
		switch {
		case errors.Is(err, measure.ErrNoAnswer):
			t.row(what, asked, "none", "not even straight track clears", there)
			return nil
		case err == nil && r.Stands:
			t.row(what, asked, r.Least, "no vehicle can stand on a sharper curve", there)
		case err == nil:
			t.row(what, asked, r.Least, r.By.Vehicle, there)
		}
		return err
	}
	for i, x := range s.structures[:len(s.plan.Structures)] {
		if len(x.Faces) != 2 {
			continue
		}
		left, right := x.Faces[0], x.Faces[1]
		inside, outside := left.Offset, right.Offset
		var there any = "straight"
		switch b, ok := s.bendAt(left.From + s.line.Span(left.From, left.To)/2); {
		case !ok:
			inside = min(inside, outside)
			outside = inside
		default:
			there = b.Sharpest
			if b.Hand != left.Side {
				inside, outside = outside, inside
			}
		}
		bend.Heights = clearance.Heights{}
		if left.Top > 0 {
			bend.Heights = clearance.Heights{From: left.Bottom, To: left.Top}
		}
		r, err := bend.ForOpening(ctx, inside, outside)
		asked := fmt.Sprintf("%s wide, %s of it inside the curve", s.units.say(inside+outside, 0), s.units.say(inside, 0))
		if err := row(x.Name, asked, r, err, there); err != nil {
			return t, fmt.Errorf("structures[%d]: %w", i+1, err)
		}
	}
	bend.Heights = clearance.Heights{}
	for i, l := range s.loops {
		r, err := bend.ForSpacing(ctx, l.plan.Spacing, nil)
		if err := row(l.plan.Name, "two trains pass at "+s.units.say(l.plan.Spacing, 0)+" from centre to centre; the inner track", r, err, "straight"); err != nil {
			return t, fmt.Errorf("loops[%d]: %w", i+1, err)
		}
	}
	var sharpest any = "straight"
	if r, _, ok := s.sharpest(); ok {
		sharpest = r
	}
	for _, p := range s.pairs() {
		if !limited(p) {
			continue
		}
		least, err := coupling.LeastRadius(ctx, p, coupling.AllLimits, coupling.Curve)
		var radius any = least
		by := "what its couplings have"
		if errors.Is(err, measure.ErrNoAnswer) {
			radius, by = "-", "none on which it can stand coupled"
		} else if err != nil {
			return t, fmt.Errorf("vehicles: coupling: %w", err)
		}
		pair := p.Behind.Vehicle.Name + " and " + p.Ahead.Vehicle.Name
		t.row(pair, "coupled", radius, by, sharpest)
		s.holdLoops(pair+", coupled", least)
	}
	for i, v := range s.plan.Vehicles {
		base, what := v.Wheelbase, "rigid wheelbase"
		if base == 0 {
			base, what = v.Bogie, "bogie wheelbase"
		}
		if base == 0 {
			continue // a bogie of one axle turns with the curve
		}
		r, err := nem.AttackRadius(base)
		if err != nil {
			return t, fmt.Errorf("vehicles[%d]: %s: %w", i+1, what, err)
		}
		s.holdLoops(v.Name+", "+what+" of "+s.units.say(base, 0), r)
		t.row(v.Name, what+" of "+s.units.say(base, 0), r, fmt.Sprintf("NEM 111, angle of attack at most %s°", fixed(nem.MostAttack.Degrees(), 0)), sharpest)
	}
	return t, nil
}

// holdLoops notes the loops that are sharper than something's least radius.
func (s *site) holdLoops(what string, least measure.Length) {
	for i, l := range s.loops {
		if l.plan.Radius < least {
			s.tooSharp = append(s.tooSharp, fmt.Sprintf("loops[%d], %s: its radius of %s is less than the least of %s: %s.", i+1, l.plan.Name, s.units.say(l.plan.Radius, 0), what, s.units.say(least, 0)))
		}
	}
}

// bendAt returns the bend that a chainage lies on.
func (s *site) bendAt(at measure.Length) (profile.Bend, bool) {
	at = onLap(s.line, at)
	i := slices.IndexFunc(s.bends, func(b profile.Bend) bool {
		return s.line.Span(b.From, at) <= s.line.Span(b.From, b.To) && (s.line.Closed() || at >= b.From)
	})
	if i < 0 {
		return profile.Bend{}, false
	}
	return s.bends[i], true
}

// reversals is what each pair needs where curves of opposite hand follow one
// another, beside what is laid.
func (s *site) reversals(ctx context.Context) (Table, error) {
	t := Table{Name: "reversals", Caption: "Reverse curves: the straight, or each of two easements, that a coupled pair needs between them for the swing and the buffers that it has.", Columns: []Column{
		{"at", Length, 0}, {"first radius", Length, 0}, {"second radius", Length, 0}, {"behind", Text, 0}, {"ahead", Text, 0}, {"needs", Text, 0}, {"of", Length, 1}, {"laid", Length, 1}, {"verdict", Text, 0},
	}}
	elements, bounds := s.line.Elements(), s.line.Boundaries()
	for i, b := range s.bends {
		next := (i + 1) % len(s.bends)
		if next == 0 && !s.line.Closed() {
			break
		}
		a := s.bends[next]
		straight := s.line.Span(b.To, a.From)
		if a.Hand == b.Hand || straight > s.line.Length()-1e-6 {
			continue
		}
		out, _ := s.line.ElementAt(b.To - 1e-3)
		in, _ := s.line.ElementAt(onLap(s.line, a.From+1e-3))
		shape := elements[out].Shape()
		eased := shape.Easement() && elements[in].Shape().Easement()
		for _, p := range s.pairs() {
			if !limited(p) || straight > length(p.Behind.Vehicle)+length(p.Ahead.Vehicle) {
				continue
			}
			var need measure.Length
			var err error
			what, laid := "a straight", straight
			if eased {
				what = shape.String() + " easements"
				laid = min(bounds[out+1]-bounds[out], bounds[in+1]-bounds[in])
				need, err = coupling.EasementNeeded(ctx, p, coupling.AllLimits, coupling.Reversal{First: b.Sharpest, Second: a.Sharpest}, shape)
			} else {
				need, err = coupling.StraightNeeded(ctx, p, coupling.AllLimits, coupling.Reversal{First: b.Sharpest, Second: a.Sharpest})
			}
			var needs any = need
			verdict := "enough"
			switch {
			case errors.Is(err, measure.ErrNoAnswer):
				needs, verdict = "-", "none is enough: the curves are too sharp by themselves"
			case err != nil:
				return t, fmt.Errorf("vehicles: coupling: %w", err)
			case laid < need:
				verdict = "too short"
			}
			t.row(b.To, b.Sharpest, a.Sharpest, p.Behind.Vehicle.Name, p.Ahead.Vehicle.Name, what, needs, laid, verdict)
		}
	}
	return t, nil
}

// limited reports whether there is something that a pair's couplings can run
// out of.
func limited(p coupling.Pair) bool {
	behind, ahead := p.Behind.Front, p.Ahead.Rear
	return behind.Swing > 0 || ahead.Swing > 0 || behind.Buffers != (coupling.Buffers{})
}

// length returns the length of a vehicle's outlines.
func length(v clearance.Vehicle) measure.Length {
	var from, to measure.Length
	for _, b := range v.Bodies[0].Bands {
		for _, p := range b.Outline {
			from, to = min(from, p.Along), max(to, p.Along)
		}
	}
	return to - from
}

// widest is how wide each vehicle could be to pass everything.
func (s *site) widest(ctx context.Context) (Table, error) {
	t := Table{Name: "widest", Caption: "How wide each vehicle could be, of its length and on its own wheels, to pass everything beside the line with the running margin.", Columns: []Column{
		{"vehicle", Text, 0}, {"width", Length, 1}, {"widest", Length, 1}, {"limited by", Text, 0}, {"at", Length, 0},
	}}
	if len(s.plan.Structures) == 0 {
		return t, nil
	}
	route := limit.Route{Line: s.line, Structures: s.structures[:len(s.plan.Structures)], Margin: s.plan.Margin, Settings: s.settings()}
	for i, v := range s.stock {
		w, err := route.Widest(ctx, v)
		switch {
		case errors.Is(err, measure.ErrNoAnswer):
			why, at := "nothing that stands here", any("-")
			if f := w.By; f.Structure != "" {
				why = fmt.Sprintf("none: %s still lacks %s%s", f.Structure, s.units.say(s.plan.Margin-f.Gap, 1), pick(f.Upright, " in height", ""))
				at = f.Chainage
			}
			t.row(v.Name, s.plan.Vehicles[i].Width, "-", why, at)
		case err != nil:
			return t, fmt.Errorf("vehicles[%d]: %w", i+1, err)
		default:
			t.row(v.Name, s.plan.Vehicles[i].Width, w.Size, w.By.Structure, w.By.Chainage)
		}
	}
	return t, nil
}

// widening is what the rigid wheelbases ask of the gauge.
func (s *site) widening(context.Context) (Table, error) {
	play := 2 * s.plan.Allowances.Play
	t := Table{Name: "widening", Caption: "Gauge widening that the rigid wheelbases need on the sharpest curve: a wheelset has " + s.units.say(play, 2) + " of play in all (twice the allowance for play), an axle between the outer ones its own besides. Of two axles neither asks for any.", Columns: []Column{
		{"vehicle", Text, 0}, {"wheelbase", Length, 0}, {"radius", Length, 0}, {"inner axle stands inside by", Length, 2}, {"widening", Length, 2}, {"angle of attack", Angle, 2},
	}}
	radius, _, ok := s.sharpest()
	if !ok {
		return t, nil
	}
	for i, v := range s.stock {
		if s.plan.Vehicles[i].Wheelbase == 0 {
			continue
		}
		need, err := clearance.GaugeWidening(v, radius, play)
		if err != nil {
			return t, fmt.Errorf("vehicles[%d]: %w", i+1, err)
		}
		var inside any = need.Offset
		if need.Axle < 0 {
			inside = "no inner axle"
		}
		t.row(v.Name, s.plan.Vehicles[i].Wheelbase, radius, inside, need.Widening, need.Attack)
	}
	return t, nil
}
