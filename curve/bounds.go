package curve

import (
	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/internal/solve"
)

// Bounds returns the least box, sides along x and y, that holds the line:
// exact, crowns of arcs and easements included.
func (a *Alignment) Bounds() r2.Box {
	b := noBox()
	for i := range a.pieces {
		p := &a.pieces[i]
		b.take(p.place(p.lo))
		b.take(p.place(p.hi))
		switch p.form {
		case formArc:
			p.crests(&b)
		case formPoly:
			p.polyCrests(&b)
		}
	}
	return r2.Box{Min: r2.Vec{X: b.x0, Y: b.y0}, Max: r2.Vec{X: b.x1, Y: b.y1}}
}

// polyCrests takes the places where the polynomial runs along an axis. It
// turns one way before and one way after the place, if there is one, where its
// curvature changes sign, and at most 0.6: so that each component of its
// direction has at most one zero on either side.
func (p *piece) polyCrests(b *box) {
	ends := [...]float64{-1, 1, 1}
	if t, ok := solve.Brent(p.curvature, -1, 1, 1e-12); ok {
		ends[1] = t
	}
	for i := range 2 {
		for axis := range 2 {
			direction := func(t float64) float64 {
				_, _, vx, vy := p.q.moving(0, 0, t)
				if axis == 0 {
					return vx
				}
				return vy
			}
			if t, ok := solve.Brent(direction, ends[i], ends[i+1], 1e-12); ok {
				b.take(p.q.at(p.x, p.y, t))
			}
		}
	}
}
