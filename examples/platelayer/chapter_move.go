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
	c.Lines = append(c.Lines, plan.Warnings...)
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
	sideways := Table{Name: "sideways", Caption: "If the joints seize: how far each stretch would move sideways in the greatest heat, its ends holding. Keep this much room, or keep the joints free.", Columns: []Column{
		{"from", Length, 0}, {"to", Length, 0}, {"stretch", Text, 0}, {"to the", Text, 0}, {"by", Length, 1}, {"taken as", Text, 0},
	}}
	for _, x := range seized {
		stretch, side := "straight", "either side"
		if x.Curve {
			stretch, side = "curve", x.Outwards.String()
		}
		sideways.row(x.From, x.To, stretch, side, x.Allowance, x.Shape)
	}
	c.Tables = append(c.Tables, moves, sideways)
	return c, nil
}
