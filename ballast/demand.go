package ballast

import (
	"fmt"

	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/internal/fault"
)

// Demands returns the material of every range as lines for an order list, in
// kilograms as delivered; the material's waste is their reserve.
func (q Quantities) Demands(m Material) ([]order.Demand, error) {
	l := fault.In("ballast")
	var ds []order.Demand
	for i, r := range q.Ranges {
		n, err := m.Need(r.Net)
		if err != nil {
			l.Join(err)
			break
		}
		ds = append(ds, n.Demand(r.name(i)))
	}
	if !l.OK() {
		return nil, l.Err()
	}
	return ds, nil
}

// BinderDemands returns the binder for the bonded part of every range as lines
// for an order list, in kilograms: the grit is in Demands already.
func (q Quantities) BinderDemands(mix Mix, grit Material) ([]order.Demand, error) {
	l := fault.In("ballast")
	var ds []order.Demand
	for i, r := range q.Ranges {
		b, err := mix.Bond(r.Bonded, grit)
		if err != nil {
			l.Join(err)
			break
		}
		if b.BinderMass > 0 {
			kg := b.BinderMass.Kilograms()
			waste := kg * float64(b.Grit.Waste/b.Grit.Loose)
			ds = append(ds, order.Demand{Item: mix.Kind.String(), Unit: "kg", Quantity: kg - waste, Reserve: waste, Range: r.name(i), Cautions: b.Cautions})
		}
	}
	if !l.OK() {
		return nil, l.Err()
	}
	return ds, nil
}

// SleeperDemands returns the sleepers of every range as lines for an order
// list, under the name given: the same count as was taken off the bed.
func (q Quantities) SleeperDemands(item string) []order.Demand {
	var ds []order.Demand
	for i, r := range q.Ranges {
		if r.Count > 0 {
			ds = append(ds, order.Demand{Item: item, Unit: "each", Quantity: float64(r.Count), Range: r.name(i)})
		}
	}
	return ds
}

func (q Quantity) name(i int) string {
	if q.Name != "" {
		return q.Name
	}
	return fmt.Sprintf("range %d", i+1)
}
