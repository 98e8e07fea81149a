package main

import (
	"context"
	"errors"
	"fmt"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/clearance/drawing"
	"example.org/fourfoot/clearance/limit"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// openingChapter is the least that each tunnel and portal must be, and what to
// build it and try it by.
func (s *site) openingChapter(ctx context.Context) (Chapter, error) {
	u := s.units
	c := Chapter{Title: "Openings, and which vehicle may run"}
	if s.envelope == nil {
		return c, nil // the clearance chapter has said why
	}
	sizes := Table{Name: "openings", Caption: "The smallest clear openings that give the running margin, every allowance in them. Offsets are from the track centreline, heights above the head of the rail that stays level; the bed is not in them.", Columns: []Column{
		{"no.", Count, 0}, {"structure", Text, 0}, {"form", Text, 0}, {"left", Length, 1}, {"right", Length, 1}, {"width or bore", Length, 1}, {"springing", Length, 1}, {"top", Length, 1},
	}}
	for i, x := range s.structures {
		if x.Kind != clearance.Tunnel && x.Kind != clearance.Portal || x.Faces[0].From == x.Faces[0].To {
			continue
		}
		from, to := x.Faces[0].From, x.Faces[0].To
		tunnel, err := opening.NewTunnel(ctx, s.envelope, from, to, opening.CurvedWalls)
		if err != nil {
			return c, fmt.Errorf("structures[%d]: %w", i+1, err)
		}
		section := tunnel.Section()
		box, err1 := section.Rectangle(s.plan.Margin, opening.Free)
		arch, err2 := section.Arch(opening.ArchForm{}, s.plan.Margin)
		bore, err3 := section.Circle(s.plan.Margin, opening.Free)
		pegs, err4 := tunnel.Layout(box.Left, box.Right, pegEvery(u))
		if err := errors.Join(err1, err2, err3, err4); err != nil {
			return c, fmt.Errorf("structures[%d]: %w", i+1, err)
		}
		sizes.row(i+1, x.Name, "rectangle", box.Left, box.Right, box.Width(), "-", box.Height)
		sizes.row(i+1, x.Name, "semicircular arch, track in its middle", arch.Left(), arch.Right(), arch.Span, arch.Springing, arch.Crown)
		sizes.row(i+1, x.Name, "round bore", bore.Radius+bore.Offset, bore.Radius-bore.Offset, 2*bore.Radius, "-", bore.Height+bore.Radius)
		layout := Table{Name: fmt.Sprintf("pegs%d", i+1), Caption: fmt.Sprintf("No. %d, %s: walls of the rectangular opening, to set out square to the line.", i+1, x.Name), Columns: []Column{
			{"chainage", Length, 0}, {"left face from centre", Length, 1}, {"right face from centre", Length, 1}, {"left face east", Length, 1}, {"north", Length, 1}, {"right face east", Length, 1}, {"north", Length, 1},
		}}
		for _, p := range pegs {
			layout.row(p.Chainage, p.Left, p.Right, measure.Length(p.LeftPlace.X), measure.Length(p.LeftPlace.Y), measure.Length(p.RightPlace.X), measure.Length(p.RightPlace.Y))
		}
		c.Tables = append(c.Tables, layout)
		if err := s.drawOpening(ctx, &c, i+1, x, section, box, arch); err != nil {
			return c, fmt.Errorf("structures[%d]: %w", i+1, err)
		}
	}
	if len(sizes.Rows) > 0 {
		c.Tables = append([]Table{sizes}, c.Tables...)
	}
	if len(s.plan.Structures) > 0 {
		matrix, err := limit.NewMatrix(ctx, s.envelope, s.structures[:len(s.plan.Structures)], s.plan.Margin)
		if err != nil {
			return c, fmt.Errorf("structures: %w", err)
		}
		for i, name := range matrix.Stock {
			if matrix.Runs(i) {
				c.Lines = append(c.Lines, name+" passes every structure with the running margin.")
			}
		}
		for _, no := range matrix.Nos() {
			f := no.Finding
			c.Lines = append(c.Lines, fmt.Sprintf("%s does not: %s is %s, gap %s at chainage %s, by the %s.",
				matrix.Stock[no.Stock], matrix.Structures[no.Structure], f.Verdict, u.say(f.Gap, 1), u.say(f.Chainage, 0), pointOf(f.By, u)))
		}
	}
	spacing, err := s.spacing(ctx)
	if err != nil {
		return c, fmt.Errorf("vehicles: %w", err)
	}
	c.Tables = append(c.Tables, spacing)
	couplings, err := s.couplings(ctx)
	if err != nil {
		return c, err
	}
	if len(couplings.Rows) > 0 {
		c.Tables = append(c.Tables, couplings)
	}
	return c, nil
}

// pegEvery is how far apart the walls of a tunnel are set out.
func pegEvery(u Units) measure.Length {
	if u.Inches {
		return measure.Foot
	}
	return measure.Metre / 4
}

// drawOpening draws the section of a tunnel with its openings, and the former.
func (s *site) drawOpening(ctx context.Context, c *Chapter, number int, x clearance.Structure, section opening.Section, box opening.Rectangle, arch opening.Arch) error {
	f := x.Faces[0]
	left, right := s.cant.Rails(f.From + s.line.Span(f.From, f.To)/2)
	name := fmt.Sprintf("opening%d", number)
	d := drawing.Section{
		Sheet: drawing.Sheet{Name: name, Title: x.Name, Inches: s.units.Inches}, Section: section, Gauge: s.plan.Gauge, RailCentres: s.railCentres, LeftRail: left, RightRail: right,
		Openings: []drawing.Face{{Name: "rectangle", Outline: box.Outline(0)}, {Name: "arch", Outline: arch.Outline(measure.Millimetre / 10)}},
	}
	out, err := d.SVG()
	if err != nil {
		return err
	}
	c.Figures = append(c.Figures, Figure{name, fmt.Sprintf("No. %d, %s: the section that the stock needs over its whole length, and the smallest rectangle and arch round it.", number, x.Name), string(out)})
	card := opening.Card{Margin: s.plan.Margin, Gauge: s.plan.Gauge, RailCentres: s.railCentres}
	former, err := opening.NewFormer(ctx, s.envelope, f.From, f.To, card)
	if err != nil {
		return err
	}
	name = fmt.Sprintf("former%d", number)
	if out, err = drawing.Former(drawing.Sheet{Name: name, Inches: s.units.Inches}, former); err != nil {
		return err
	}
	c.Figures = append(c.Figures, Figure{name, fmt.Sprintf("No. %d, %s: gauging former at full size. Cut it from card, stand it on the rails and push it through instead of a train: what it touches is nearer than the margin.", number, x.Name), string(out)})
	return nil
}

// spacing is what two tracks need on the straight and on concentric curves of
// the line's radii, and the bar that sets them apart.
func (s *site) spacing(ctx context.Context) (Table, error) {
	t := Table{Name: "spacing", Caption: "Should a second track lie beside the line: the spacing at which any two of the stock pass with the running margin, without cant, and the spacer bar for it.", Columns: []Column{
		{"inner radius", Length, 0}, {"from centre to centre", Length, 1}, {"bar between near rails", Length, 1}, {"bar over near rails", Length, 1}, {"bar over all rails", Length, 1}, {"inner vehicle", Text, 0}, {"outer vehicle", Text, 0},
	}}
	rail, err := s.plan.Rail.section()
	if err != nil {
		return t, err
	}
	allowances := s.settings().Allowances
	allowances.Cant, allowances.Level = profile.Cant{}, profile.Level{}
	stocks := passing.Stocks{Inner: s.stock, Margin: s.plan.Margin, Allowances: allowances}
	row := func(radius any, need passing.Spacing, err error) error {
		if err != nil {
			return err
		}
		bar, err := passing.SpacerBar(need.Centres, s.plan.Gauge, rail.Head)
		t.row(radius, need.Centres, bar.BetweenRails, bar.OverNearRails, bar.OverAllRails, need.InnerVehicle, need.OuterVehicle)
		return err
	}
	need, err := stocks.Straight(ctx)
	faults := []error{row("straight", need, err)}
	done := map[measure.Length]bool{}
	for _, b := range s.bends {
		if done[b.Sharpest] || len(done) == 12 {
			continue
		}
		done[b.Sharpest] = true
		need, err := stocks.Concentric(ctx, b.Sharpest)
		faults = append(faults, row(b.Sharpest, need, err))
	}
	return t, errors.Join(faults...)
}

// couplings is how two vehicles that follow one another in the plan are coupled
// where the line and each loop are hardest on them.
func (s *site) couplings(ctx context.Context) (Table, error) {
	t := Table{Name: "couplings", Caption: "Couplings where the line is hardest on them, of vehicles that follow one another in the list of the plan; list them in another order to ask of other pairs. What is to spare is negative where a coupler would have to swing farther than it can, or where buffer heads part. Chainages of a loop are along it, from where it leaves the main line.", Columns: []Column{
		{"behind", Text, 0}, {"ahead", Text, 0}, {"on", Text, 0}, {"most sideways offset", Length, 1}, {"at", Length, 0}, {"most swing", Angle, 1}, {"swing to spare", Text, 0}, {"buffer overlap to spare", Text, 0},
	}}
	row := func(p coupling.Pair, on string, line *curve.Alignment, start measure.Length) error {
		f, err := coupling.Along(ctx, line, p)
		if err != nil {
			return fmt.Errorf("coupling: %w", err)
		}
		swing, overlap := "not limited", "no buffers"
		if left, ok := f.Swing(); ok {
			swing = fixed(left.Degrees(), 1) + "°"
		}
		if left, ok := f.Buffers(); ok {
			overlap = s.units.say(left, 1)
		}
		most := max(f.SwingBehind.SwingBehind, -f.SwingBehind.SwingBehind, f.SwingAhead.SwingAhead, -f.SwingAhead.SwingAhead)
		offset := max(f.Offset.Offset, -f.Offset.Offset)
		t.row(p.Behind.Vehicle.Name, p.Ahead.Vehicle.Name, on, offset, f.Offset.Chainage-start, most, swing, overlap)
		return nil
	}
	for _, p := range s.pairs() {
		if err := row(p, "the line", s.line, 0); err != nil {
			return t, fmt.Errorf("vehicles: %w", err)
		}
		for i, l := range s.loops {
			if err := row(p, l.plan.Name, l.route, s.line.Span(l.begin, l.plan.From)); err != nil {
				return t, fmt.Errorf("loops[%d]: %s: vehicles: %w", i+1, l.plan.Name, err)
			}
		}
	}
	return t, nil
}

// pairs returns the vehicles that follow one another in the plan and have
// couplings; one alone is coupled to its like.
func (s *site) pairs() []coupling.Pair {
	var cars []coupling.Car
	for i, v := range s.plan.Vehicles {
		if v.Coupling != nil {
			cars = append(cars, v.Coupling.car(s.stock[i], v.Length))
		}
	}
	if len(cars) == 1 {
		cars = append(cars, cars[0])
	}
	var pairs []coupling.Pair
	for i := 1; i < len(cars); i++ {
		pairs = append(pairs, coupling.Pair{Behind: cars[i-1], Ahead: cars[i]})
	}
	return pairs
}

// car returns a vehicle with its couplings.
func (p CouplingPlan) car(v clearance.Vehicle, length measure.Length) coupling.Car {
	end := func(way measure.Length) coupling.End {
		e := coupling.End{Hinge: way * (length/2 - p.Hinge), Length: p.Length, Swing: p.Swing}
		if b := p.Buffers; b != nil {
			e.Buffers = coupling.Buffers{Face: way * (length/2 + b.Length), Centres: b.Centres, Width: b.Width, Least: b.Overlap}
		}
		return e
	}
	return coupling.Car{Vehicle: v, Rear: end(-1), Front: end(1)}
}
