package main

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// trackbedChapter is what is dug, poured and built under the ballast or in its
// place.
func (s *site) trackbedChapter(context.Context) (Chapter, error) {
	c := Chapter{Title: "Trackbed"}
	if s.plan.Trackbed == nil {
		return Chapter{}, nil
	}
	var cautions []string
	caution := func(more []string) {
		for _, m := range more {
			if !slices.Contains(cautions, m) {
				cautions = append(cautions, m)
			}
		}
	}
	concrete, err1 := s.concrete(caution)
	trenches, err2 := s.trenches(caution)
	if err := errors.Join(err1, err2); err != nil {
		return c, err
	}
	decks, err := s.decks(caution)
	if err != nil {
		return c, err
	}
	for _, t := range append([]Table{trenches, concrete}, decks...) {
		if len(t.Rows) > 0 {
			c.Tables = append(c.Tables, t)
		}
	}
	c.Caution = sentences(cautions)
	return c, nil
}

func (s *site) trenches(caution func([]string)) (Table, error) {
	t := Table{Name: "trenches", Caption: "Trenches. What is dug is measured in the ground, spoil loose, fillings compacted.", Columns: []Column{
		{"stretch", Text, 0}, {"length", Length, 0}, {"dig", Volume, 1}, {"spoil", Volume, 1}, {"filled with", Text, 0}, {"thick", Length, 0}, {"filling", Volume, 1},
	}}
	for i, p := range s.plan.Trackbed.Trenches {
		trench := trackbed.Trench{Width: p.Width, Depth: p.Depth, Slope: p.Slope}
		for _, l := range p.Layers {
			trench.Layers = append(trench.Layers, trackbed.Layer{Name: l.Name, Thickness: l.Thickness})
		}
		dug, err := trench.Along(s.line, ballast.Stretch{Name: p.Name, From: p.From, To: p.To})
		if err != nil {
			return t, fmt.Errorf("trackbed.trenches[%d]: %w", i+1, err)
		}
		caution(dug.Cautions)
		if len(p.Layers) == 0 {
			t.row(p.Name, dug.Length, dug.Excavated, dug.Spoil, "nothing", "-", "-")
		}
		for k, l := range p.Layers {
			d, err := s.filling(l, dug.Layers[k])
			if err != nil {
				return t, fmt.Errorf("trackbed.trenches[%d].layers[%d]: %w", i+1, k+1, err)
			}
			d.Range, d.Cautions = p.Name, slices.Concat(dug.Cautions, d.Cautions)
			s.demands = append(s.demands, d)
			if k == 0 {
				t.row(p.Name, dug.Length, dug.Excavated, dug.Spoil, l.Name, l.Thickness, dug.Layers[k])
				continue
			}
			t.row("", "", "", "", l.Name, l.Thickness, dug.Layers[k])
		}
	}
	return t, nil
}

// inPlace is the unit of a filling of which no density is known.
const inPlace = "L in place"

// filling returns what a layer of a trench takes: by weight where its density
// is known, as the grit's is.
func (s *site) filling(l LayerPlan, v measure.Volume) (order.Demand, error) {
	d := order.Demand{Item: l.Name, Unit: inPlace, Quantity: v.Litres()}
	switch grit := s.plan.Bed.Grit.grit(); {
	case l.Compacted != 0:
		d.Unit, d.Quantity = "kg", l.Compacted.Of(v).Kilograms()
	case l.Name == grit.Name:
		need, err := grit.Need(v)
		if err != nil {
			return d, err
		}
		d = need.Demand("")
	}
	k := slices.IndexFunc(s.demands, func(x order.Demand) bool { return x.Item == d.Item })
	if k >= 0 && s.demands[k].Unit != d.Unit {
		return d, fmt.Errorf("compacted_density: %s is ordered by %s elsewhere and by %s here: give it here and for every filling of that name, or use another name", l.Name, s.demands[k].Unit, d.Unit)
	}
	return d, nil
}

func (s *site) concrete(caution func([]string)) (Table, error) {
	t := Table{Name: "concrete", Caption: "Concrete strips. Cement, sand and stone are dry and with what is lost; joints are cut while the strip is green.", Columns: []Column{
		{"stretch", Text, 0}, {"length", Length, 0}, {"concrete", Volume, 1}, {"cement", Mass, 1}, {"sand", Mass, 1}, {"stone", Mass, 1}, {"water", Mass, 1}, {"joints every", Length, 0}, {"and deep", Length, 0},
	}}
	for i, p := range s.plan.Trackbed.Concrete {
		fail := func(err error) error { return fmt.Errorf("trackbed.concrete[%d]: %w", i+1, err) }
		poured, err := trackbed.Strip{Width: p.Width, Thickness: p.Thickness, Fall: p.Fall}.Along(s.line, ballast.Stretch{Name: p.Name, From: p.From, To: p.To})
		if err != nil {
			return t, fail(err)
		}
		batch, err := trackbed.Concrete{Cement: p.Cement, Sand: p.Sand, Stone: p.Stone}.For(poured.Volume, s.plan.Trackbed.Waste)
		if err != nil {
			return t, fail(err)
		}
		caution(poured.Cautions)
		caution(batch.Cautions)
		t.row(p.Name, poured.Length, poured.Volume, batch.Cement, batch.Sand, batch.Stone, batch.Water, poured.Panel, poured.CutDepth)
		s.demands = append(s.demands, batch.Demands(p.Name)...)
	}
	return t, nil
}

// decks returns the boards and the posts.
func (s *site) decks(caution func([]string)) ([]Table, error) {
	boards := Table{Name: "boards", Caption: "Boards: each a trapezium, its ends cut off square by the mitres, left positive; the sleepers keep their margin all along. The last two are square from the board's left edge to the track's centreline: where the board meets its neighbours, and halfway. Set a pair of posts out from the centreline, equally to either side.", Columns: []Column{
		{"deck", Text, 0}, {"from", Length, 0}, {"to", Length, 0}, {"left edge", Length, 1}, {"right edge", Length, 1}, {"mitre at its beginning", Angle, 2}, {"at its end", Angle, 2}, {"left edge to the track at both ends", Length, 1}, {"halfway", Length, 1},
	}}
	posts := Table{Name: "posts", Caption: "Posts, by pairs. Levels are over your datum.", Columns: []Column{
		{"deck", Text, 0}, {"at", Length, 0}, {"top", Length, 1}, {"ground", Length, 1}, {"foot", Length, 1}, {"length", Cut, 0}, {"cut from", Cut, 0},
	}}
	if len(s.plan.Trackbed.Decks) == 0 {
		return nil, nil
	}
	ground, err := s.ground()
	if err != nil {
		return nil, fmt.Errorf("trackbed.ground: %w", err)
	}
	sleeper := s.plan.Rail.Sleeper
	for i, p := range s.plan.Trackbed.Decks {
		fail := func(err error) error { return fmt.Errorf("trackbed.decks[%d]: %w", i+1, err) }
		stretch := ballast.Stretch{Name: p.Name, From: p.From, To: p.To}
		run, err := trackbed.Board{
			Width: p.Width, SleeperLength: sleeper.Length, SleeperWidth: sleeper.Width, Margin: p.Margin, Gap: p.Gap, Kerf: p.Kerf, Stock: p.Plank,
		}.Along(s.line, stretch)
		if err != nil {
			return nil, fail(err)
		}
		for _, b := range run.Boards {
			boards.row(p.Name, b.From, b.To, b.Left, b.Right, b.FromMitre, b.ToMitre, b.EndLine, b.MidLine)
		}
		stand, err := trackbed.Posts{Spacing: p.Spacing, Below: p.Below, Frost: p.Frost, Embed: p.Embed, Rows: 2, Stock: p.Posts, Step: s.units.cutTo()}.Along(s.line, stretch, s.level, ground)
		if err != nil && len(s.plan.Levels) == 0 {
			err = fmt.Errorf("without levels the rail lies at 0 mm of the datum of ground: %w", err)
		}
		if err != nil {
			return nil, fail(err)
		}
		for _, x := range stand.Posts {
			posts.row(p.Name, x.Chainage, x.Top, x.Ground, x.Foot, x.Length, x.Buy)
		}
		caution(run.Cautions)
		caution(stand.Cautions)
		s.demands = append(s.demands, run.Demands("planks", p.Name)...)
		for _, d := range stand.Demands("posts", "bearers", p.Name) {
			d.Item = s.units.words(d.Item) // "posts, 704 mm"
			s.demands = append(s.demands, d)
		}
	}
	return []Table{boards, posts}, nil
}

// ground returns the level of the ground under the line.
func (s *site) ground() (profile.Level, error) {
	var points []profile.Point
	for _, g := range s.plan.Trackbed.Ground {
		points = append(points, profile.Point{Chainage: g.At, Level: g.Level})
	}
	switch {
	case len(points) == 0:
		return profile.Level{}, errors.New("must be given for decks to stand on")
	case s.line.Closed():
		return profile.NewClosedLevel(s.line.Length(), measure.Millimetre, points...)
	}
	return profile.NewLevel(points...)
}
