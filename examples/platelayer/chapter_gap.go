package main

import (
	"context"
	"errors"
	"fmt"
	"math"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// climate returns the states of the plan's climate.
func (s *site) climate() ([]expansion.State, error) {
	c := s.plan.Climate
	states, err := expansion.Corners(*c.RailLow, *c.RailHigh, *c.BaseLow, *c.BaseHigh)
	if err != nil {
		return nil, fmt.Errorf("climate: %w", err)
	}
	return states, nil
}

// joint returns the joint between two full panels, each held at its middle.
func (s *site) joint() (expansion.Joint, error) {
	r := s.plan.Rail
	rail, err1 := expansion.FindMaterial(r.Material)
	base, err2 := expansion.FindMaterial(r.Base)
	if err := errors.Join(err1, err2); err != nil {
		return expansion.Joint{}, fmt.Errorf("rail: %w", err)
	}
	j := expansion.EqualPanels(s.panel(), rail.Expansion.Value, base.Expansion.Value)
	j.Least, j.Widest = r.LeastGap, r.WidestGap
	j.Joiner = expansion.Joiner{Length: r.Joiner, Engagement: r.Held}
	return j, nil
}

// panel returns the length of rail between joints.
func (s *site) panel() measure.Length {
	if s.plan.Rail.Panel != 0 {
		return s.plan.Rail.Panel
	}
	return s.plan.Rail.Bar
}

// today returns the temperatures on the day of laying.
func (s *site) today() expansion.State {
	t := *s.plan.Rail.Laying
	return expansion.State{Name: "today", Rail: t, Base: t.Add(-s.plan.Rail.BaseBelow)}
}

// gapChapter is the gap to leave at a joint.
func (s *site) gapChapter(context.Context) (Chapter, error) {
	u, r := s.units, s.plan.Rail
	c := Chapter{Title: "Gaps at the joints"}
	climate, err := s.climate()
	if err != nil {
		return c, err
	}
	joint, err := s.joint()
	if err != nil {
		return c, err
	}
	c.Lines = append(c.Lines, fmt.Sprintf("%s rail in panels of %s on %s, each panel held at its middle; rail from %s to %s, base from %s to %s.",
		r.Material, u.say(s.panel(), 0), r.Base, u.sayTemp(*s.plan.Climate.RailLow), u.sayTemp(*s.plan.Climate.RailHigh), u.sayTemp(*s.plan.Climate.BaseLow), u.sayTemp(*s.plan.Climate.BaseHigh)))
	c.Caution = "Rail in the sun burns the hand. Clamp rail to cut it, wear goggles, deburr the end; a grinder's disc can burst. Where the rails carry current, bond every joint."

	gaps, err := joint.Gaps(s.today(), climate)
	if errors.Is(err, measure.ErrNoAnswer) {
		c.Lines = append(c.Lines, "No gap suits both summer and winter: "+u.words(err.Error())+".")
		return c, nil
	} else if err != nil {
		return c, fmt.Errorf("rail: %w", err)
	}
	longest, err := joint.Longest(climate)
	if err != nil {
		return c, fmt.Errorf("rail: %w", err)
	}
	c.Lines = append(c.Lines,
		fmt.Sprintf("Today, rail at %s and base at %s, leave from %s to %s at a joint between full panels; aim at %s.",
			u.sayTemp(s.today().Rail), u.sayTemp(s.today().Base), u.say(u.inwards(gaps.Least, 2, math.Ceil), 2), u.say(u.inwards(gaps.Most, 2, math.Floor), 2), u.say(gaps.Aim(), 2)),
		fmt.Sprintf("The tight end comes with the %s, the wide end with the %s. The widest gap allowed is %s, set by the %s.", gaps.Tight.Name, gaps.Wide.Name, u.say(u.inwards(gaps.Reach, 2, math.Floor), 2), gaps.By),
		fmt.Sprintf("The longest panel for which any gap would do is %s.", u.say(longest, 0)))
	if r.Feeler != 0 {
		w, err := joint.LayingWindow(r.Feeler, r.BaseBelow, climate)
		switch {
		case errors.Is(err, measure.ErrNoAnswer):
			c.Lines = append(c.Lines, fmt.Sprintf("Your feeler of %s is right at no rail temperature of this climate; the table below tells what is.", u.say(r.Feeler, 2)))
		case err != nil:
			return c, fmt.Errorf("rail.feeler: %w", err)
		default:
			c.Lines = append(c.Lines, fmt.Sprintf("Your feeler of %s is right while the rail is from %s to %s.", u.say(r.Feeler, 2), u.sayTemp(w.Low), u.sayTemp(w.High)))
		}
	}
	card, err := joint.Card(expansion.CardOptions{Title: s.plan.Name, BaseBelow: r.BaseBelow, Inches: u.Inches}, climate)
	if err != nil {
		return c, fmt.Errorf("rail: %w", err)
	}
	t := Table{Name: "gap-card", Caption: "Gap to leave by the temperature of the rail.", Columns: []Column{
		{"rail", Temp, 0}, {"base", Temp, 0}, {"least", AtLeast, 2}, {"aim at", Length, 2}, {"most", AtMost, 2},
	}}
	for _, row := range card.Rows {
		t.row(row.Rail, row.Base, row.Least, row.Aim, row.Most)
	}
	c.Tables = append(c.Tables, t)
	c.Figures = append(c.Figures, Figure{"gap-card", "The same as a card for the garden: print it at its true size.", card.SVG()})
	return c, nil
}
