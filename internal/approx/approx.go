// Package approx compares values in tests with go-cmp, floats within a
// tolerance. Unlike cmpopts.EquateApprox it also sees named float types, such
// as the quantities of gauge/measure.
package approx

import (
	"math"
	"reflect"

	"github.com/google/go-cmp/cmp"
)

// Within returns an option that takes two floats of one type, named or not,
// as equal when they differ by at most abs, or by at most rel of the larger.
// NaN equals nothing.
func Within(abs, rel float64) cmp.Option {
	return cmp.FilterPath(func(p cmp.Path) bool {
		t := p.Last().Type()
		return t != nil && t.Kind() == reflect.Float64
	}, cmp.Comparer(func(x, y any) bool {
		a, b := reflect.ValueOf(x).Float(), reflect.ValueOf(y).Float()
		d := math.Abs(a - b)
		return a == b || d <= abs || d <= rel*max(math.Abs(a), math.Abs(b))
	}))
}

// Diff returns how got differs from want, "" when all floats agree within abs.
func Diff(want, got any, abs float64) string {
	return cmp.Diff(want, got, Within(abs, 0), cmp.AllowUnexported())
}
