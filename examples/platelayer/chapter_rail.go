package main

import (
	"context"
	"errors"
	"fmt"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
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
	spec.Level, spec.Zones = profile.Level{}, nil
	for i := range s.loops {
		l := &s.loops[i]
		spec.Objects = s.pointsOf(*l)
		if l.joints, err = joints.New(l.line, spec); err != nil {
			return fmt.Errorf("loops[%d]: %s: %w", i+1, l.plan.Name, err)
		}
	}
	return nil
}

// pointsOf returns the points at the two ends of a loop as they lie on its own
// line: as long there as on the main line.
func (s *site) pointsOf(l loop) []joints.Object {
	var out []joints.Object
	for _, x := range s.plan.Points {
		if long := s.line.Span(l.plan.From, x.To); s.inside(l.plan.From, x) && long < l.line.Length() {
			out = append(out, joints.Object{Name: x.Name, From: 0, To: long})
		}
		if long := s.line.Span(x.From, l.plan.To); long > 0 && long < l.line.Length() && (s.inside(l.plan.To, x) || x.To == l.plan.To) {
			out = append(out, joints.Object{Name: x.Name, From: l.line.Length() - long, To: l.line.Length()})
		}
	}
	return out
}

// railsOf says from where to where a loop's rails run, and at which of its ends
// the plan has no points.
func (s *site) railsOf(l loop) string {
	from, to := measure.Length(0), l.line.Length()
	leaves, back := false, false
	for _, x := range s.pointsOf(l) {
		if x.From == 0 {
			from, leaves = max(from, x.To), true
		} else {
			to, back = min(to, x.From), true
		}
	}
	said := fmt.Sprintf("Its rails run from %s to %s along it", s.units.say(from, 0), s.units.say(to, 0))
	const over = "there its rails lie over those of the main line, and the points are to come out of them."
	switch {
	case leaves && back:
		return said + ", its points left out."
	case leaves:
		return said + ", the points where it leaves the main line left out. No points of the plan stand where it is back: " + over
	case back:
		return said + ", the points where it is back left out. No points of the plan stand where it leaves the main line: " + over
	}
	return said + ", its whole length. No points of the plan stand where it leaves the main line nor where it is back: " + over
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

// jointTable tells of the joints of the main line or of a loop.
func (s *site) jointTable(name, caption string, plan joints.Plan, main bool) Table {
	t := Table{Name: name, Caption: caption, Columns: []Column{
		{"joint", Text, 0}, {"rail", Text, 0}, {"chainage", Length, 1}, {"gap", Length, 2}, {"least", AtLeast, 2}, {"most", AtMost, 2}, {"at", Text, 0},
	}}
	for _, j := range plan.Joints {
		at := j.At
		if at == "" && main {
			at = s.atTunnel(j.Chainage)
		}
		if j.Problem != "" {
			at += " " + s.units.words(j.Problem)
		}
		t.row(j.Mark, j.Rail.String(), j.Chainage, j.Gap, j.Least, j.Most, at)
	}
	return t
}

func cutList(name, caption string, plan joints.Plan) Table {
	t := Table{Name: name, Caption: caption, Columns: []Column{
		{"piece", Text, 0}, {"rail", Text, 0}, {"from", Length, 0}, {"to", Length, 0}, {"cut to", Length, 1}, {"trim", Length, 1}, {"held at", Length, 0}, {"bar", Count, 0},
	}}
	for _, p := range plan.Pieces {
		t.row(p.Mark, p.Rail.String(), p.From, p.To, p.Length, p.Trim, p.Fixed, p.Bar+1)
	}
	return t
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
	places := s.jointTable("joints", "Joints. The gap is for today's temperature.", plan, true)
	c.Tables = append(c.Tables, bends, places, cutList("cuts", "Cut list. The trim is what a piece is shorter than a full panel.", plan))
	for i, l := range s.loops {
		c.Tables = append(c.Tables,
			s.jointTable(fmt.Sprintf("joints-loop%d", i+1), "Joints of "+l.plan.Name+". Chainages are along the loop, from where it leaves the main line.", l.joints, false),
			cutList(fmt.Sprintf("cuts-loop%d", i+1), fmt.Sprintf("Cut list of %s, from %d bars of its own. %s", l.plan.Name, len(l.joints.Cutting.Bars), s.railsOf(l)), l.joints))
		for _, w := range l.joints.Warnings {
			c.Lines = append(c.Lines, l.plan.Name+": "+u.words(w)+".")
		}
	}
	c.Caution = "Clamp rail to cut it, goggles on, deburr the end; a grinder's disc can burst and its sparks light dry leaves. Where the rails carry current, bond every joint that is not meant to insulate."
	return c, nil
}
