package measure_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// nearest returns the float64 nearest to the sum of products of rationals
// given as text, "8.5" or "3/8": the slow way that the parsers must agree with.
func nearest(t *testing.T, terms ...[2]string) float64 {
	t.Helper()
	sum := new(big.Rat)
	for _, x := range terms {
		a, ok1 := new(big.Rat).SetString(x[0])
		b, ok2 := new(big.Rat).SetString(x[1])
		if !ok1 || !ok2 {
			t.Fatalf("bad rational in %v", x)
		}
		sum.Add(sum, a.Mul(a, b))
	}
	v, _ := sum.Float64()
	return v
}

// Every value is rounded once, from the exact one, whatever the way it takes:
// short integers, strconv or big rationals.
func TestRoundedOnce(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	digits := func(n int) string {
		var b strings.Builder
		b.WriteByte(byte('1' + rnd.IntN(9)))
		for range n - 1 {
			b.WriteByte(byte('0' + rnd.IntN(10)))
		}
		return b.String()
	}
	units := [][2]string{
		{"mm", "1"},
		{"cm", "10"},
		{"m", "1000"},
		{"km", "1e6"},
		{"um", "1/1000"},
		{"thou", "127/5000"},
		{"in", "25.4"},
		{"ft", "304.8"},
		{"yd", "914.4"},
		{"chains", "20116.8"},
		{"miles", "1609344"},
	}
	for range 20000 {
		num := digits(1+rnd.IntN(22)) + "." + digits(1+rnd.IntN(6))
		if rnd.IntN(3) == 0 {
			num += fmt.Sprintf("e%d", rnd.IntN(40)-20)
		}
		u := units[rnd.IntN(len(units))]
		text := num + " " + u[0]
		got, err := measure.ParseLength(text)
		if want := nearest(t, [2]string{num, u[1]}); err != nil || float64(got) != want {
			t.Errorf("ParseLength(%q) = %v, %v, want %v", text, float64(got), err, want)
		}
	}
	for range 20000 {
		ft, in := fmt.Sprint(rnd.IntN(5000)), fmt.Sprint(rnd.IntN(12))
		q := 2 + rnd.IntN(63)
		p := rnd.IntN(q)
		text := fmt.Sprintf(`%s' %s %d/%d"`, ft, in, p, q)
		got, err := measure.ParseLength(text)
		want := nearest(t, [2]string{ft, "304.8"}, [2]string{in, "25.4"}, [2]string{fmt.Sprintf("%d/%d", p, q), "25.4"})
		if err != nil || float64(got) != want {
			t.Errorf("ParseLength(%q) = %v, %v, want %v", text, float64(got), err, want)
		}
	}
	for range 20000 {
		f := digits(1+rnd.IntN(4)) + "." + digits(1+rnd.IntN(14))
		sign := []string{"", "-"}[rnd.IntN(2)]
		got, err := measure.ParseTemperature(sign + f + " °F")
		if want := nearest(t, [2]string{sign + f, "5/9"}, [2]string{"-160", "1/9"}); err != nil || float64(got) != want {
			t.Errorf("ParseTemperature(%q) = %v, %v, want %v", sign+f+" °F", float64(got), err, want)
		}
		n := digits(1+rnd.IntN(4)) + "." + digits(1+rnd.IntN(14))
		g, err := measure.ParseGradient("1 in " + n)
		a, _ := new(big.Rat).SetString(n)
		if want, _ := a.Inv(a).Float64(); err != nil || float64(g) != want {
			t.Errorf("ParseGradient(1 in %s) = %v, %v, want %v", n, float64(g), err, want)
		}
	}
}
