package main

import (
	"context"
	"errors"
	"fmt"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

// planJoints plans the joints of the line.
func (s *site) planJoints() error {
	p := s.plan.Rail
	climate, err := s.climate()
	if err != nil {
		return err
	}
	joint, err := s.joint()
	if err != nil {
		return err
	}
	s.heat = joints.Heat{
		Rail: joint.Before.Rail, Base: joint.Before.Base, Least: joint.Least, Widest: joint.Widest,
		Joiner: joint.Joiner, Laying: s.today(), Climate: climate,
	}
	spec := joints.Spec{
		Level:       s.level,
		RailCentres: s.railCentres,
		Stock:       []joints.Stock{{Length: p.Bar}},
		Panel:       p.Panel,
		Kerf:        p.Kerf,
		Sleepers:    joints.Sleepers{Pitch: p.Sleeper.Pitch, JointPitch: p.Sleeper.JointPitch, Fixings: p.Sleeper.Fixings},
		Heat:        &s.heat,
	}
	if p.Staggered {
		spec.Pattern = joints.Staggered
	}
	for _, x := range s.plan.Points {
		spec.Objects = append(spec.Objects, joints.Object{Name: x.Name, From: x.From, To: x.To})
	}
	for _, x := range s.structures {
		if x.Kind == clearance.Tunnel {
			spec.Zones = append(spec.Zones, joints.Zone{Name: x.Name, From: x.Faces[0].From, To: x.Faces[0].To})
		}
	}
	if s.joints, err = joints.New(s.line, spec); err != nil {
		return fmt.Errorf("rail: %w", err)
	}
	return nil
}

// atTunnel says why a joint stands where a tunnel begins or ends, and which one
// stands inside.
func (s *site) atTunnel(joint measure.Length) string {
	const near = 0.01 * measure.Millimetre
	for _, x := range s.structures {
		if x.Kind != clearance.Tunnel {
			continue
		}
		from, to := x.Faces[0].From, x.Faces[0].To
		into, length := joint-from, s.line.Span(from, to)
		if s.line.Closed() {
			if into = s.line.Span(from, joint); into > s.line.Length()-near {
				into -= s.line.Length()
			}
		}
		switch {
		case into > -near && into < near:
			return "where " + x.Name + " begins: as few inside as can be"
		case into > length-near && into < length+near:
			return "where " + x.Name + " ends: as few inside as can be"
		case into > 0 && into < length:
			return "inside " + x.Name
		}
	}
	return ""
}

// railChapter is the rails: how long, where the joints come, how to cut.
func (s *site) railChapter(context.Context) (Chapter, error) {
	u := s.units
	c := Chapter{Title: "Rails and joints"}
	plan := s.joints
	cut := plan.Cutting
	c.Lines = append(c.Lines,
		fmt.Sprintf("The rail heads are %s apart from centre to centre.",
			u.say(s.railCentres, 2)),
		fmt.Sprintf("Left rail %s, right rail %s: %d pieces from %d bars of %s; their length alone is that of %d. Waste %s, saw kerfs included.",
			u.say(plan.Left.Rail, 1), u.say(plan.Right.Rail, 1), len(plan.Pieces), len(cut.Bars), u.say(s.plan.Rail.Bar, 0), cut.Bound, u.say(cut.Waste, 0)))
	for _, w := range plan.Warnings {
		c.Lines = append(c.Lines, u.words(w)+".")
	}

	bends := Table{Name: "bends", Caption: "Rails in the bends: by how much the inner rail is to be shorter.", Columns: []Column{
		{"from", Length, 0}, {"to", Length, 0}, {"left rail", Length, 1}, {"right rail", Length, 1}, {"inner", Text, 0}, {"trim", Length, 1},
	}}
	for _, b := range s.bends {
		left, err1 := s.line.RailLength(curve.Left, b.From, b.To, s.railCentres)
		right, err2 := s.line.RailLength(curve.Right, b.From, b.To, s.railCentres)
		if err := errors.Join(err1, err2); err != nil {
			return c, err
		}
		bends.row(b.From, b.To, left, right, b.Hand.String(), max(left-right, right-left))
	}
	places := Table{Name: "joints", Caption: "Joints. The gap is for today's temperature.", Columns: []Column{
		{"joint", Text, 0}, {"rail", Text, 0}, {"chainage", Length, 1}, {"gap", Length, 2}, {"least", AtLeast, 2}, {"most", AtMost, 2}, {"at", Text, 0},
	}}
	for _, j := range plan.Joints {
		at := j.At
		if at == "" {
			at = s.atTunnel(j.Chainage)
		}
		if j.Problem != "" {
			at += " " + u.words(j.Problem)
		}
		places.row(j.Mark, j.Rail.String(), j.Chainage, j.Gap, j.Least, j.Most, at)
	}
	cuts := Table{Name: "cuts", Caption: "Cut list. The trim is what a piece is shorter than a full panel.", Columns: []Column{
		{"piece", Text, 0}, {"rail", Text, 0}, {"from", Length, 0}, {"to", Length, 0}, {"cut to", Length, 1}, {"trim", Length, 1}, {"held at", Length, 0}, {"bar", Count, 0},
	}}
	for _, p := range plan.Pieces {
		cuts.row(p.Mark, p.Rail.String(), p.From, p.To, p.Length, p.Trim, p.Fixed, p.Bar+1)
	}
	c.Tables = append(c.Tables, bends, places, cuts)
	c.Caution = "Clamp rail to cut it, goggles on, deburr the end; a grinder's disc can burst and its sparks light dry leaves. Where the rails carry current, bond every joint that is not meant to insulate."
	return c, nil
}
