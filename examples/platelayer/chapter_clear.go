package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// bookTolerance is what every reach in the book is right to.
const bookTolerance = measure.Millimetre / 10

// settings returns how the book sweeps a line.
func (s *site) settings() clearance.Settings {
	a := s.plan.Allowances
	return clearance.Settings{
		Tolerance: bookTolerance,
		Allowances: clearance.Allowances{
			Play: a.Play, Laying: a.Laying, Heat: a.Heat, Springs: a.Springs, RollCentre: a.RollCentre,
			Cant: s.cant, RailCentres: s.railCentres, Level: s.level,
		},
	}
}

// clearanceChapter is whether everything clears.
func (s *site) clearanceChapter(ctx context.Context) (Chapter, error) {
	u := s.units
	c := Chapter{Title: "Clearance"}
	throws, err := s.throws()
	if err != nil {
		return c, err
	}
	envelope, findings, err := s.audit(ctx)
	if err != nil {
		return c, err
	}
	s.envelope = envelope
	table := Table{Name: "clearance", Caption: "What the line passes: the least gap of each to any of the stock. Foul: the gap is below 0. Tight: it is below the running margin of " + u.say(s.plan.Margin, 1) + ". Pass: it is not.", Columns: []Column{
		{"no.", Count, 0}, {"structure", Text, 0}, {"kind", Text, 0}, {"verdict", Text, 0}, {"least gap", Length, 1}, {"at", Length, 0}, {"side", Text, 0}, {"vehicle", Text, 0}, {"point of it", Text, 0},
	}}
	remedies := Table{Name: "remedies", Caption: "The least cure, any one of them, that gives the running margin.", Columns: []Column{
		{"structure", Text, 0}, {"verdict", Text, 0}, {"widen by", Length, 1}, {"or move by", Length, 1}, {"or ease to a long curve of radius", Length, 0},
	}}
	shares := Table{Name: "allowances", Caption: "What each allowance takes of the room at those places.", Columns: []Column{
		{"no.", Count, 0}, {"structure", Text, 0}, {"allowances together", Length, 2}, {"of it", Text, 0},
	}}
	count := map[clearance.Verdict]int{}
	for i, f := range findings {
		count[f.Verdict]++
		side := f.Side.String()
		if f.Upright {
			side = "above"
		}
		table.row(i+1, f.Structure, f.Kind.String(), f.Verdict.String(), f.Gap, f.Chainage, side, f.By.Vehicle, pointOf(f.By, u))
		var together measure.Length
		var parts []string
		for _, x := range f.Shares {
			if x.Amount != 0 {
				together += x.Amount
				parts = append(parts, x.Name+" "+u.length(x.Amount, 2))
			}
		}
		if len(parts) > 0 {
			shares.row(i+1, f.Structure, together, strings.Join(parts, ", "))
		}
		if f.Verdict != clearance.Pass {
			remedies.row(f.Structure, f.Verdict.String(), orNone(f.Remedy.WidenBy), orNone(f.Remedy.MoveBy), orNone(f.Remedy.EaseTo))
		}
	}
	if len(findings) == 0 {
		c.Lines = append(c.Lines, "The plan names nothing that the line passes.")
	} else {
		c.Lines = append(c.Lines, fmt.Sprintf("%d foul, %d tight, %d pass. The gaps are what is left when every allowance of the plan is taken off, and are right to %s.",
			count[clearance.Foul], count[clearance.Tight], count[clearance.Pass], u.say(bookTolerance, 3)))
	}
	c.Tables = append(c.Tables, table)
	if len(remedies.Rows) > 0 {
		c.Tables = append(c.Tables, remedies)
	}
	if len(shares.Rows) > 0 {
		c.Tables = append(c.Tables, shares)
	}
	if loops := s.standing(); len(loops.Rows) > 0 {
		c.Tables = append(c.Tables, loops)
	}
	c.Tables = append(c.Tables, throws)
	reaches, err := s.reaches(envelope)
	if err != nil {
		return c, err
	}
	c.Tables = append(c.Tables, reaches)
	for i, f := range findings {
		drawing, err := s.drawStructure(envelope, s.structures[i], f, i+1)
		if err != nil {
			return c, err
		}
		c.Figures = append(c.Figures, Figure{fmt.Sprintf("structure%d", i+1), fmt.Sprintf("No. %d, %s: %s, gap %s at chainage %s. The line runs to the right; dashed is the space that the stock needs, wheel play in it and no other allowance.", i+1, f.Structure, f.Verdict, u.say(f.Gap, 1), u.say(f.Chainage, 0)), drawing})
	}
	return c, nil
}

// audit sweeps the stock along the line and compares the space that it needs
// with everything that the line passes.
func (s *site) audit(ctx context.Context) (*clearance.Envelope, []clearance.Finding, error) {
	envelope, err := clearance.Sweep(ctx, s.line, s.stock, s.settings())
	if errors.Is(err, measure.ErrLimit) {
		return nil, nil, fmt.Errorf("vehicles: %d with their bands are too many for a line of %v: a shorter line, fewer of them or fewer bands would do", len(s.stock), s.line.Length())
	} else if err != nil {
		return nil, nil, fmt.Errorf("vehicles: %w", err)
	}
	findings, err := envelope.Audit(ctx, s.structures, s.plan.Margin)
	if err != nil {
		return nil, nil, fmt.Errorf("structures: %w", err)
	}
	for i := range s.loops {
		f, x, err := s.passLoop(ctx, &s.loops[i])
		if err != nil {
			return nil, nil, fmt.Errorf("loops[%d]: %s: %w", i+1, s.loops[i].plan.Name, err)
		}
		findings, s.structures = append(findings, f), append(s.structures, x)
	}
	return envelope, findings, nil
}

// passLoop compares the main line's stock with a loop's: the gap midway, where
// the two run side by side, and the fouling points. The loop is laid level.
func (s *site) passLoop(ctx context.Context, l *loop) (clearance.Finding, clearance.Structure, error) {
	f := clearance.Finding{Structure: l.plan.Name, Kind: clearance.NeighbouringTrack}
	x := clearance.Structure{Name: l.plan.Name, Kind: clearance.NeighbouringTrack}
	set := s.settings()
	set.Allowances.Cant, set.Allowances.Level = profile.Cant{}, profile.Level{}
	var err error
	if x.Neighbour, err = clearance.Sweep(ctx, l.route, s.stock, set); err != nil {
		return f, x, err
	}
	set.From, set.To = l.begin, l.end
	main, err := clearance.Sweep(ctx, s.line, s.stock, set)
	if err != nil {
		return f, x, err
	}
	gaps, err := passing.Gaps(ctx, main, x.Neighbour, l.plan.Side.Hand)
	if err != nil {
		return f, x, err
	}
	midway, err := gaps.At(onLap(s.line, l.plan.From+s.line.Span(l.plan.From, l.plan.To)/2))
	if err != nil {
		return f, x, err
	}
	f.Gap, f.Verdict = midway.Gap, clearance.Judge(midway.Gap, s.plan.Margin)
	f.Chainage, f.Side, f.Place, f.By = midway.Chainage, gaps.Side(), midway.To, midway.Reach.By
	f.Remedy.MoveBy = max(s.plan.Margin-midway.Gap, 0)
	l.fouling, err = gaps.FoulingPoints(ctx, s.plan.Margin)
	if errors.Is(err, measure.ErrNoAnswer) {
		err = nil
	}
	return f, x, err
}

// standing is where trains on a loop and on the main line stand clear of one
// another.
func (s *site) standing() Table {
	t := Table{Name: "loops", Caption: "Loops: between its fouling points each track is clear of whatever stands or runs on the other. What stands beside a loop, what runs on another loop, and its ballast, are not in this book.", Columns: []Column{
		{"loop", Text, 0}, {"clear on the main line from", Length, 0}, {"to", Length, 0}, {"standing room there", Length, 0}, {"standing room on the loop", Length, 0},
	}}
	for _, l := range s.loops {
		if len(l.fouling) < 2 {
			t.row(l.plan.Name, "nowhere", "-", "-", "-")
			continue
		}
		first, last := l.fouling[0], l.fouling[len(l.fouling)-1]
		t.row(l.plan.Name, first.First.Chainage, last.First.Chainage,
			s.line.Span(first.First.Chainage, last.First.Chainage), last.Second.Chainage-first.Second.Chainage)
	}
	return t
}

// orNone returns a cell that says nothing where there is no such remedy.
func orNone(l measure.Length) any {
	if l == 0 {
		return "-"
	}
	return l
}

// pointOf says which point of a vehicle governs.
func pointOf(g clearance.Governor, u Units) string {
	what := "side"
	if g.Corner {
		what = "corner"
	}
	end := "ahead of"
	along := g.Point.Along
	if along < 0 {
		end, along = "behind", -along
	}
	if far := u.length(along, 0); far == u.length(0, 0) {
		return fmt.Sprintf("%s of %s, at its middle", what, g.Band)
	}
	return fmt.Sprintf("%s of %s, %s %s its middle", what, g.Band, u.say(along, 0), end)
}

// reaches is how far the stock comes out along the line.
func (s *site) reaches(e *clearance.Envelope) (Table, error) {
	t := Table{Name: "reach", Caption: "Reach of the stock from the track centreline, all heights, wheel play in it and no other allowance: keep everything farther away than this, the allowances and the margin.", Columns: []Column{
		{"chainage", Length, 0}, {"left", Length, 1}, {"by", Text, 0}, {"right", Length, 1}, {"by", Text, 0},
	}}
	step := measure.Metre / 2
	if s.units.Inches {
		step = 2 * measure.Foot
	}
	for at := measure.Length(0); ; at = min(at+step, s.line.Length()) {
		left, err1 := e.At(at, curve.Left, clearance.Heights{})
		right, err2 := e.At(at, curve.Right, clearance.Heights{})
		if err := errors.Join(err1, err2); err != nil {
			return t, err
		}
		t.row(at, left.Reach, left.By.Vehicle, right.Reach, right.By.Vehicle)
		if at == s.line.Length() {
			return t, nil
		}
	}
}
