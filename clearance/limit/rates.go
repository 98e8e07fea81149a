package limit

import (
	"context"
	"slices"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
)

// rates returns how the radius changes with each input, from the lack F of a
// bend, which stays zero: dR/dp = R²·(∂F/∂p)/(∂F/∂k), by differences of 0.02 mm
// either way. The vehicle's measures are those of the one that governs.
func (q *question) rates(ctx context.Context, b Bend, k float64, at excess) ([]Rate, error) {
	lack := func(b Bend, values []float64, k float64) (float64, bool, error) {
		was := q.values
		q.values = values
		e, err := q.try(ctx, b, k)
		q.values = was
		return e.by, e.bad == nil && err == nil, err
	}
	const h = 0.02
	dk := 1e-4 * k
	f0, ok0, err := lack(b, q.values, k-dk)
	if err != nil {
		return nil, err
	}
	f1, ok1, err := lack(b, q.values, k+dk)
	if err != nil {
		return nil, err
	}
	if !ok0 || !ok1 || f1 <= f0 {
		return nil, nil
	}
	perK := (f1 - f0) / (2 * dk)
	var out []Rate
	add := func(name string, change func(d float64) (Bend, []float64)) error {
		b0, v0 := change(-h)
		b1, v1 := change(h)
		f0, ok0, err := lack(b0, v0, k)
		if err != nil {
			ok0 = false // a measure that cannot be less, or more
		}
		f1, ok1, err := lack(b1, v1, k)
		if err != nil {
			ok1 = false
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		if !ok0 || !ok1 {
			return nil
		}
		out = append(out, Rate{name, (f1 - f0) / (2 * h) / perK / (k * k)})
		return nil
	}
	for i, name := range q.names {
		err := add(name, func(d float64) (Bend, []float64) {
			v := slices.Clone(q.values)
			v[i] += d
			return b, v
		})
		if err != nil {
			return nil, err
		}
	}
	err = add("margin", func(d float64) (Bend, []float64) {
		c := b
		c.Margin += measure.Length(d)
		return c, q.values
	})
	if err != nil {
		return nil, err
	}
	i := at.from.Stock
	if i < 0 || i >= len(b.Stock) {
		return out, nil
	}
	for _, m := range []struct {
		name string
		by   [4]float64
	}{{"body length", [4]float64{1, 0, 0, 0}}, {"pivot spacing", [4]float64{0, 1, 0, 0}}, {"body width", [4]float64{0, 0, 1, 0}}, {"bogie wheelbase", [4]float64{0, 0, 0, 1}}} {
		if m.by[3] > 0 && !bogies(b.Stock[i]) {
			continue
		}
		err := add(m.name, func(d float64) (Bend, []float64) {
			c := b
			c.Stock = slices.Clone(b.Stock)
			c.Stock[i] = stretched(b.Stock[i], d*m.by[0], d*m.by[1], d*m.by[2], d*m.by[3])
			return c, q.values
		})
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

func bogies(v clearance.Vehicle) bool {
	for _, c := range v.Carriers {
		if c.Wheelbase == 0 {
			return false
		}
	}
	return true
}

// stretched returns the vehicle with its bodies longer, their pivots farther
// apart, the bodies wider and the bogies' wheelbases longer by so much.
func stretched(v clearance.Vehicle, length, pivots, width, wheelbase float64) clearance.Vehicle {
	v = v.Turned().Turned() // a copy
	for i := range v.Bodies {
		b := &v.Bodies[i]
		b.Pivots += measure.Length(pivots)
		size := extent(b.Bands)
		along, across := 1+measure.Length(length)/size.length(), 1+measure.Length(width)/size.width()
		for _, band := range b.Bands {
			for j := range band.Outline {
				band.Outline[j].Along *= along
				band.Outline[j].Across *= across
			}
		}
	}
	for i := range v.Carriers {
		if v.Carriers[i].Wheelbase > 0 {
			v.Carriers[i].Wheelbase += measure.Length(wheelbase)
		}
	}
	return v
}

// A box is how far outlines go.
type box struct{ rear, front, right, left measure.Length }

func (b box) length() measure.Length { return b.front - b.rear }
func (b box) width() measure.Length  { return b.left - b.right }

func extent(bands []clearance.Band) (e box) {
	first := true
	for _, band := range bands {
		for _, p := range band.Outline {
			if first {
				e, first = box{p.Along, p.Along, p.Across, p.Across}, false
			}
			e.rear, e.front = min(e.rear, p.Along), max(e.front, p.Along)
			e.right, e.left = min(e.right, p.Across), max(e.left, p.Across)
		}
	}
	return e
}
