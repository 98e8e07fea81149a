package limit

import (
	"context"
	"fmt"
	"math"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Matrix says which vehicle of the stock passes which structure.
type Matrix struct {
	Stock      []string // names, or "vehicle 1"
	Structures []string // names, or the kind and "structure 1"
	Margin     measure.Length
	Cells      [][]clearance.Finding // of each vehicle, of each structure
}

// NewMatrix audits every vehicle of the envelope's stock by itself against every
// structure.
func NewMatrix(ctx context.Context, e *clearance.Envelope, structures []clearance.Structure, margin measure.Length) (Matrix, error) {
	l := fault.In("limit")
	if e == nil {
		l.Add("envelope", "none", "must be given")
		return Matrix{}, l.Err()
	}
	m := Matrix{Margin: margin}
	for i, s := range structures {
		n := s.Name
		if n == "" {
			n = fmt.Sprintf("%v, structure %d", s.Kind, i+1)
		}
		m.Structures = append(m.Structures, n)
	}
	for i, v := range e.Stock() {
		n := v.Name
		if n == "" {
			n = fmt.Sprintf("vehicle %d", i+1)
		}
		m.Stock = append(m.Stock, n)
		f, err := e.AuditOf(ctx, i, structures, margin)
		if err != nil {
			return Matrix{}, err
		}
		m.Cells = append(m.Cells, f)
	}
	return m, nil
}

// Runs reports whether a vehicle passes every structure with the margin.
func (m Matrix) Runs(stock int) bool {
	for _, f := range m.Cells[stock] {
		if f.Verdict != clearance.Pass {
			return false
		}
	}
	return true
}

// A No is a vehicle that does not pass a structure, and why.
type No struct {
	Stock, Structure int
	Finding          clearance.Finding
	Text             string // as a sentence
}

// Nos returns every no of the matrix, vehicle by vehicle, with its reason:
// which structure, by how much, where, and which point of the vehicle.
func (m Matrix) Nos() []No {
	var out []No
	for i, row := range m.Cells {
		for j, f := range row {
			if f.Verdict == clearance.Pass {
				continue
			}
			out = append(out, No{i, j, f, m.why(i, j, f)})
		}
	}
	return out
}

func (m Matrix) why(i, j int, f clearance.Finding) string {
	where := "on the left"
	switch {
	case f.Upright:
		where = "in height"
	case f.Side == curve.Right:
		where = "on the right"
	}
	g := fmt.Sprintf("is foul by %s %s", mm(-f.Gap), where)
	if f.Verdict == clearance.Tight {
		g = fmt.Sprintf("has only %s %s, %s less than the margin,", mm(f.Gap), where, mm(m.Margin-f.Gap))
	}
	point := "side"
	if f.By.Corner {
		point = "corner"
	}
	ahead := "ahead of"
	if f.By.Point.Along < 0 {
		ahead = "behind"
	}
	part := f.By.Part
	if f.By.Band != part {
		part += ", " + f.By.Band
	}
	return fmt.Sprintf("%s: %s %s at chainage %.0f mm: %s of its %s, %s %s the middle of its pivots",
		m.Structures[j], m.Stock[i], g, float64(f.Chainage), point, part, mm(measure.Length(math.Abs(float64(f.By.Point.Along)))), ahead)
}

func mm(l measure.Length) string { return fmt.Sprintf("%.1f mm", float64(l)) }
