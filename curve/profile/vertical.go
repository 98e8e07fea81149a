package profile

import "math"

// vertical is a gradient or a vertical curve, x = s - at from its anchor:
//
//	parabola  z + i·x + bend·x²/2                       (bend = d²z/ds²)
//	circle    z + x·(sin φ0 + sin φ)/(cos φ0 + cos φ)    (bend = curvature)
//
// with tan φ0 = i and sin φ = sin φ0 + bend·x. The circle's form is
// (cos φ0 - cos φ)/bend rearranged so that it loses nothing as bend goes to 0.
type vertical struct {
	at, z, i float64
	bend     float64
	form     Form
}

// slope returns sine and cosine of the slope at x, of a circle.
func (v vertical) slope(x float64) (sin, cos float64) {
	sin = v.i/math.Sqrt(1+v.i*v.i) + v.bend*x
	return sin, math.Sqrt((1 - sin) * (1 + sin))
}

func (v vertical) level(s float64) float64 {
	x := s - v.at
	if v.form == Circle {
		s0, c0 := v.slope(0)
		s1, c1 := v.slope(x)
		return v.z + x*(s0+s1)/(c0+c1)
	}
	return v.z + x*(v.i+v.bend*x/2)
}

func (v vertical) gradient(s float64) float64 {
	x := s - v.at
	if v.form == Circle {
		if v.bend == 0 || x == 0 {
			return v.i
		}
		sin, cos := v.slope(x)
		return sin / cos
	}
	return v.i + v.bend*x
}

func (v vertical) curvature(s float64) float64 {
	if v.form == Circle {
		return v.bend
	}
	i := v.gradient(s)
	return v.bend / math.Pow(1+i*i, 1.5)
}

// flat returns where between a and b the gradient is zero.
func (v vertical) flat(a, b float64) (float64, bool) {
	i := v.i
	if v.form == Circle {
		i, _ = v.slope(0)
	}
	s := v.at - i/v.bend
	return s, s > a && s < b // false for the NaN and Inf of bend = 0
}

// along returns the length along the slope between a and b: ∫√(1+i²) ds.
func (v vertical) along(a, b float64) float64 {
	i0, i1, x := v.gradient(a), v.gradient(b), b-a
	if v.form == Circle {
		// The circle's angle over its curvature; t = sin Δφ.
		s0, c0 := v.slope(a - v.at)
		s1, c1 := v.slope(b - v.at)
		g := c0 + s0*(s0+s1)/(c0+c1)
		t := v.bend * x * g
		if t == 0 {
			return x * g
		}
		return x * g * math.Atan2(t, c0*c1+s0*s1) / t
	}
	if d := i1 - i0; math.Abs(d) > 0.01 {
		// ∫√(1+i²) di = (i√(1+i²) + asinh i)/2.
		f := func(i float64) float64 { return (i*math.Hypot(1, i) + math.Asinh(i)) / 2 }
		return x * (f(i1) - f(i0)) / d
	}
	// The same as a series about the middle gradient; the first term left out
	// is below 2e-16 of the length.
	m, h := (i0+i1)/2, (i1-i0)/2
	q := 1 + m*m
	r := math.Sqrt(q)
	return x * (r + h*h/(6*q*r) + h*h*h*h*(12*m*m-3)/(120*q*q*q*r))
}

func (v vertical) moved(by float64) vertical {
	v.at += by
	return v
}

func (v vertical) reversed(length float64) vertical {
	v.at, v.i = length-v.at, -v.i
	return v
}

func (v vertical) scaled(by float64) vertical {
	v.at, v.z, v.bend = v.at*by, v.z*by, v.bend/by
	return v
}

func (v vertical) beyond(s float64) vertical {
	return vertical{at: s, z: v.level(s), i: v.gradient(s)}
}

func (v vertical) meets(next vertical, s float64) bool {
	return v.bend == next.bend && v.gradient(s) == next.gradient(s) && v.level(s) == next.level(s)
}
