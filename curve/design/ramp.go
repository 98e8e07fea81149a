package design

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// A ramp evaluates the ends of many easements of one shape: the searches ask
// for tens of thousands, and only the line that is found is made of elements.
// It holds the shape's ∫f at the nodes of a Gauss-Legendre rule on each half
// of the length (Helmert's law changes in the middle). Against the elements'
// own ends it is within 1e-13 of the length up to a turn of 2π (tested).
type ramp struct {
	shape               curve.Shape
	u, weight, integral [2 * rampNodes]float64
	along, shift        [rampTerms]float64 // series in the turn, see half
}

const (
	rampNodes = 16
	rampTerms = 17
)

func newRamp(shape curve.Shape) (*ramp, error) {
	r := &ramp{shape: shape}
	quad.Legendre{}.FixedLocations(r.u[:rampNodes], r.weight[:rampNodes], 0, 0.5)
	quad.Legendre{}.FixedLocations(r.u[rampNodes:], r.weight[rampNodes:], 0.5, 1)
	if lever(shape) {
		return r, nil
	}
	// An easement from 0 to 1 of unit length: its heading at u is ∫f.
	e, err := curve.NewEasement(shape, 1, 0, 1)
	if err != nil {
		return nil, err
	}
	a, err := curve.New(curve.Pose{}, e)
	if err != nil {
		return nil, err
	}
	for i, u := range r.u {
		r.integral[i] = float64(a.At(measure.Length(u)).Heading)
	}
	// M_n = ∫ (2 ∫f)ⁿ du.
	var moment [2 * rampTerms]float64
	for i := range r.u {
		p := r.weight[i]
		for n := range moment {
			moment[n] += p
			p *= 2 * r.integral[i]
		}
	}
	factorial := 1.0 // of 2n, with its sign
	for n := range rampTerms {
		r.along[n] = (moment[2*n] - 1/float64(2*(2*n+1))) / factorial
		factorial *= float64(2*n + 1)
		r.shift[n] = (moment[2*n+1] - 1/float64(2*(2*n+2))) / factorial
		factorial *= -float64(2*n + 2)
	}
	return r, nil
}

// end returns the end and the turn of an easement from the origin, heading +x.
func (r *ramp) end(length, k0, k1 float64) (end r2.Vec, turn float64) {
	if length == 0 {
		return r2.Vec{}, 0
	}
	for i, u := range r.u {
		sin, cos := math.Sincos(length * (k0*u + (k1-k0)*r.integral[i]))
		end.X += r.weight[i] * cos
		end.Y += r.weight[i] * sin
	}
	return r2.Scale(length, end), length * (k0 + k1) / 2
}

// half returns the end of an eased curve of curvature k, 1/k signed: along is
// forward, shift and turn are left positive. Both are power series in the
// turn τ, since the heading is 2τ∫f and 1/k = L/2τ:
//
//	along/L = Σ (-1)ⁿ τ²ⁿ/(2n)! (M_2n - 1/(2(2n+1)))
//	shift/L = Σ (-1)ⁿ τ²ⁿ⁺¹/(2n+1)! (M_2n+1 - 1/(2(2n+2))),  M_n = ∫(2∫f)ⁿ du
func (r *ramp) half(length, k float64) half {
	if length == 0 || k == 0 {
		return half{length: length, along: length / 2}
	}
	if lever(r.shape) {
		return r.leverHalf(length, k)
	}
	if turn := length * k / 2; math.Abs(turn) < 3.2 {
		var along, shift float64
		for n := rampTerms - 1; n >= 0; n-- {
			along = along*turn*turn + r.along[n]
			shift = shift*turn*turn + r.shift[n]
		}
		return half{length, turn, length * along, length * turn * shift}
	}
	end, turn := r.end(length, 0, k)
	sin := math.Sin(turn / 2)
	return half{length, turn, end.X - math.Sin(turn)/k, end.Y - 2*sin*sin/k}
}

// leverHalf is half for the two shapes that go by their abscissa x = uX: the
// cubic parabola has y = x³/6RX, the lath sin θ = x²/2RX.
func (r *ramp) leverHalf(abscissa, k float64) half {
	c := abscissa * math.Abs(k) / 2 // tangent of the parabola's last heading, sine of the lath's
	var y, length float64
	switch {
	case r.shape == curve.CubicParabola && 2*c < parabolaEnds:
		y = c / 3
		for i, u := range r.u {
			length += r.weight[i] * math.Hypot(1, c*u*u)
		}
	case r.shape == curve.Lath && c < 1:
		for i, u := range r.u {
			sin := c * u * u
			cos := math.Sqrt(1 - sin*sin)
			y += r.weight[i] * sin / cos
			length += r.weight[i] / cos
		}
	default:
		nan := math.NaN()
		return half{nan, nan, nan, nan}
	}
	turn := easementTurn(r.shape, abscissa, 1/math.Abs(k))
	sin := math.Sin(turn / 2)
	h := half{abscissa * length, turn, abscissa - math.Sin(turn)/math.Abs(k), abscissa*y - 2*sin*sin/math.Abs(k)}
	h.turn, h.shift = math.Copysign(h.turn, k), math.Copysign(h.shift, k)
	return h
}
