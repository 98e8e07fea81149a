package trackbed

import (
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// each returns a line for so many pieces, or none for nothing.
func each(item string, n int, of string, cautions []string) []order.Demand {
	if n == 0 {
		return nil
	}
	return []order.Demand{{Item: item, Unit: "each", Quantity: float64(n), Range: of, Cautions: cautions}}
}

// Demands returns the trench's layers as lines for an order list: one material
// for each layer, from the bottom up.
func (g Dug) Demands(materials ...ballast.Material) ([]order.Demand, error) {
	l := fault.In("trackbed")
	if len(materials) != len(g.Layers) {
		l.Add("materials", len(materials), fmt.Sprintf("must be one for each layer, %d", len(g.Layers)))
		return nil, l.Err()
	}
	var ds []order.Demand
	for i, m := range materials {
		n, err := m.Need(g.Layers[i])
		if err != nil {
			l.Join(err)
			continue
		}
		d := n.Demand(g.Name)
		d.Cautions = slices.Concat(g.Cautions, d.Cautions)
		ds = append(ds, d)
	}
	if !l.OK() {
		return nil, l.Err()
	}
	return ds, nil
}

// Demands returns slabs and sand as lines for an order list.
func (p Paving) Demands(slab string, sand ballast.Material) ([]order.Demand, error) {
	ds := each(slab, p.Count, p.Name, p.Cautions)
	if p.Sand > 0 {
		n, err := sand.Need(p.Sand)
		if err != nil {
			return nil, err
		}
		ds = append(ds, n.Demand(p.Name))
	}
	return ds, nil
}

// Demands returns pipes, when their length was given, and gravel as lines for an
// order list.
func (d Drainage) Demands(pipe string, gravel ballast.Material) ([]order.Demand, error) {
	n, err := gravel.Need(d.Gravel)
	if err != nil {
		return nil, err
	}
	return append(each(pipe, d.Pipes, d.Name, d.Cautions), n.Demand(d.Name)), nil
}

// Demands returns the rolls as a line for an order list, in square metres of
// sheet used, so that what several ranges leave over is shared.
func (c Covering) Demands(of string) []order.Demand {
	return []order.Demand{{Item: c.Name, Unit: "m²", Quantity: c.Sheet.SquareMetres(), Range: of, Cautions: c.Cautions}}
}

// Demands returns posts by the length they are cut from, and bearers, each
// rounded up to whole steps, as lines for an order list: "posts, 704 mm".
func (s Schedule) Demands(post, bearer, of string) []order.Demand {
	step := s.Step
	if step == 0 {
		step = measure.Millimetre
	}
	up := func(l measure.Length) int { return int(math.Ceil(float64(l/step) * (1 - 1e-12))) }
	line := func(item string, steps, count int) []order.Demand {
		return each(fmt.Sprintf("%s, %v", item, measure.Length(steps)*step), count, of, s.Cautions)
	}
	count := map[int]int{}
	var lengths []int
	for _, p := range s.Posts {
		n := up(p.Buy)
		if count[n] == 0 {
			lengths = append(lengths, n)
		}
		count[n] += s.Rows
	}
	slices.Sort(lengths)
	var ds []order.Demand
	for _, n := range lengths {
		ds = append(ds, line(post, n, count[n])...)
	}
	return append(ds, line(bearer, up(s.Bearer), s.Bearers)...)
}

// Demands returns the planks as a line for an order list; none when no stock
// length was given.
func (p BoardPlan) Demands(plank, of string) []order.Demand {
	return each(plank, p.Planks, of, p.Cautions)
}

// Demands returns the planks as a line for an order list.
func (r BoardRun) Demands(plank, of string) []order.Demand {
	return each(plank, r.Planks, of, r.Cautions)
}
