package main

import (
	"context"
	"fmt"

	"example.org/fourfoot/expansion/movement"
)

// movementChapter is what heat and cold move, and how far.
func (s *site) movementChapter(context.Context) (Chapter, error) {
	u := s.units
	c := Chapter{Title: "Movement between summer and winter"}
	plan, err := movement.New(s.line, s.joints, s.heat)
	if err != nil {
		return c, fmt.Errorf("movement: %w", err)
	}
	held := 0
	moves := Table{Name: "movement", Caption: "What every joint comes to, laid with today's gap.", Columns: []Column{
		{"joint", Text, 0}, {"smallest gap", Length, 2}, {"widest gap", Length, 2}, {"takes up", Length, 2}, {"verdict", Text, 0}, {"lacks", Length, 2},
	}}
	for _, j := range plan.Joints {
		if j.Verdict == movement.Absorbs {
			held++
		}
		moves.row(j.Mark, j.Gap.Low, j.Gap.High, j.Takes, j.Verdict.String(), j.Lacks)
	}
	c.Lines = append(c.Lines, fmt.Sprintf("%d of %d joints take up all that their rails move.", held, len(plan.Joints)))
	for _, r := range plan.Runs {
		if r.Lacks > 0 {
			c.Lines = append(c.Lines, fmt.Sprintf("Run %d, %s rail, lacks %s of room: it wants more joints or another gap.", r.Run+1, r.Rail, u.say(r.Lacks, 2)))
		}
	}
	seized, err := movement.Seized(s.line, s.heat)
	if err != nil {
		return c, fmt.Errorf("movement: %w", err)
	}
	sideways := Table{Name: "sideways", Caption: "If the joints seize: how far each stretch would move sideways over its base at worst, its ends holding. Keep this much room, or keep the joints free.", Columns: []Column{
		{"from", Length, 0}, {"to", Length, 0}, {"stretch", Text, 0}, {"to the", Text, 0}, {"by", Length, 1}, {"worst with", Text, 0}, {"taken as", Text, 0},
	}}
	for _, x := range seized {
		stretch, side := "straight", "either side"
		if x.Curve {
			stretch, side = "curve", x.Outwards.String()
		}
		sideways.row(x.From, x.To, stretch, side, x.Allowance, x.At.Name, x.Shape)
	}
	c.Tables = append(c.Tables, moves)
	ends := Table{Name: "turnouts", Caption: "What the rail's ends at the points move between the extremes, towards higher chainage positive.", Columns: []Column{
		{"at", Text, 0}, {"joint", Text, 0}, {"least", Length, 2}, {"most", Length, 2},
	}}
	for _, e := range plan.Ends {
		ends.row(e.Object, e.Joint, e.Move.Low, e.Move.High)
	}
	if len(ends.Rows) > 0 {
		c.Tables = append(c.Tables, ends)
	}
	panels := Table{Name: "panels", Caption: "What each panel's ends move between the extremes, towards higher chainage positive.", Columns: []Column{
		{"piece", Text, 0}, {"its beginning, least", Length, 2}, {"most", Length, 2}, {"its end, least", Length, 2}, {"most", Length, 2},
	}}
	for _, p := range plan.Panels {
		panels.row(p.Mark, p.Back.Low, p.Back.High, p.Ahead.Low, p.Ahead.High)
	}
	c.Tables = append(c.Tables, panels, sideways)
	c.Caution = "A seized joint lets go of its push at once: do not stand over it. Rail in the sun burns the hand; free a joint when it is cool."
	return c, nil
}
