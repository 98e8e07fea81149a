package main

import (
	"context"
	"fmt"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/wheelset"
)

// gaugeChapter is what the model's gauge stands for at its scale.
func (s *site) gaugeChapter(context.Context) (Chapter, error) {
	u, p := s.units, s.plan
	c := Chapter{Title: "Scale and gauge"}
	matches, err := gauge.StandsFor(p.Scale, p.Gauge)
	if err != nil {
		return c, fmt.Errorf("gauge: %w", err)
	}
	nearest := matches[0]
	c.Lines = append(c.Lines, fmt.Sprintf("%s track at %s (1:%s) stands for a full-size gauge of %s; the nearest in the tables is %s, %s, and the model is %s.",
		u.say(p.Gauge, 2), p.Scale, fixed(p.Scale.Ratio(), 3), u.sayGauge(nearest.StandsFor), nearest.Prototype.Name, u.sayGauge(nearest.Prototype.Gauge), off(nearest.Off)))
	if p.Prototype != 0 {
		want, err := gauge.WantedGauge(p.Scale, p.Prototype)
		if err != nil {
			return c, fmt.Errorf("prototype_gauge: %w", err)
		}
		c.Lines = append(c.Lines, fmt.Sprintf("The prototype's %s would want a model gauge of %s.", u.sayGauge(p.Prototype), u.say(want, 2)))
	}
	if p.Wheels != nil {
		t, err := p.Wheels.audit(u)
		if err != nil {
			return c, fmt.Errorf("wheels: %w", err)
		}
		c.Tables = append(c.Tables, t)
	}
	return c, nil
}

// audit holds the wheels of the plan against its track.
func (w WheelsPlan) audit(u Units) (Table, error) {
	t := Table{Name: "wheels", Caption: "Audit of track and wheels at the worst corners of the stated limits.", Columns: []Column{
		{"rule", Text, 0}, {"in letters", Text, 0}, {"verdict", Text, 0}, {"margin", Length, 2}, {"worst pair, or what is missing", Text, 0},
	}}
	report, err := wheelset.Audit(
		wheelset.Track{
			Gauge: wheelset.Limits(w.Gauge), CheckGauge: wheelset.Limits(w.CheckGauge), CheckSpan: wheelset.Limits(w.CheckSpan),
			Flangeway: wheelset.Limits(w.Flangeway), FlangewayDepth: wheelset.Limits(w.FlangewayDepth),
		},
		wheelset.Wheels{
			BackToBack: wheelset.Limits(w.BackToBack), FlangeWidth: wheelset.Limits(w.FlangeWidth),
			FlangeDepth: wheelset.Limits(w.FlangeDepth), Width: wheelset.Limits(w.WheelWidth),
		})
	if err != nil {
		return t, err
	}
	for _, f := range report {
		var margin any = ""
		if f.Verdict != wheelset.NotStated {
			margin = f.Margin
		}
		worst := f.Worst
		if len(f.Missing) > 0 {
			worst = list(f.Missing)
		}
		t.row(f.Rule.String(), f.Rule.Formula(), f.Verdict.String(), margin, u.words(worst))
	}
	return t, nil
}

// off says by what part a model gauge is off.
func off(part float64) string {
	percent := fixed(max(part, -part)*100, 1)
	switch {
	case percent == "0.0":
		return "right"
	case part > 0:
		return percent + " % too wide"
	}
	return percent + " % too narrow"
}
