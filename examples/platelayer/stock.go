package main

import (
	"errors"
	"fmt"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
)

// stock returns the vehicles of the plan.
func (p *Plan) stock() ([]clearance.Vehicle, error) {
	var stock []clearance.Vehicle
	var faults []error
	for i, v := range p.Vehicles {
		vehicle, err := v.vehicle()
		if err == nil {
			err = vehicle.Validate()
		}
		if err != nil {
			faults = append(faults, fmt.Errorf("vehicles[%d]: %s: %w", i+1, v.Name, err))
		}
		stock = append(stock, vehicle)
	}
	if len(stock) == 0 {
		faults = append(faults, errors.New("vehicles: none given; what clears is asked of the stock that is to run"))
	}
	return stock, errors.Join(faults...)
}

func (v VehiclePlan) vehicle() (clearance.Vehicle, error) {
	width := v.EndWidth
	if width == 0 {
		width = v.Width
	}
	body := clearance.Box(v.Length, v.Width)
	if v.Taper != 0 {
		body = clearance.Tapered(v.Length, v.Width, v.Taper, v.Taper, width)
	}
	bands := []clearance.Band{{Name: "body", Bottom: v.Bottom, Top: v.Height, Outline: body}}
	for _, b := range v.Bands {
		bands = append(bands, clearance.Band{Name: b.Name, Bottom: b.Bottom, Top: b.Top, Outline: clearance.Box(b.Length, b.Width).Moved(b.Ahead)})
	}
	switch {
	case v.Centres != 0 && v.Wheelbase != 0:
		return clearance.Vehicle{}, errors.New("has bogie_centres and wheelbase; it must have one of them")
	case v.Centres != 0 && len(v.Inner) > 0:
		return clearance.Vehicle{}, errors.New("inner_axles: only for a rigid vehicle")
	case v.Centres != 0:
		return clearance.Bogie(v.Name, v.Centres, v.Bogie, bands...), nil
	case v.Wheelbase != 0:
		rigid := clearance.Rigid(v.Name, v.Wheelbase, bands...)
		for _, a := range v.Inner {
			rigid.Bodies[0].Inner = append(rigid.Bodies[0].Inner, clearance.Axle{Along: a.Ahead, Play: a.Play})
		}
		return rigid, nil
	}
	return clearance.Vehicle{}, errors.New("needs bogie_centres, or the wheelbase of a rigid vehicle")
}

// throws is the throw of each vehicle on the sharpest curve of the line and its
// loops.
func (s *site) throws() (Table, error) {
	radius, of, ok := s.sharpest()
	t := Table{Name: "throw", Caption: "Throw and reach on a long curve of the smallest radius of " + of + ", " + s.units.say(radius, 0) + ", the wheels in the middle of the track: without their play. The envelope below takes easements, reversals and ends of curves as they are.", Columns: []Column{
		{"vehicle", Text, 0},
		{"centre throw", Length, 2},
		{"end throw", Length, 2},
		{"reach inside", Length, 2},
		{"reach outside", Length, 2},
		{"centre by C²/8R", Length, 2},
		{"end by (L²-C²)/8R", Length, 2},
		{"bogie swing", Angle, 2},
		{"angle of attack", Angle, 2},
	}}
	if !ok {
		return t, nil
	}
	for _, v := range s.stock {
		throws, err := clearance.Throws(v, radius)
		if err != nil {
			return t, err
		}
		for _, x := range throws {
			t.row(v.Name, x.Centre, x.End(), x.Inside, x.Outside, x.CentreApprox, x.EndApprox, max(x.RearSwing, x.FrontSwing), x.Attack)
		}
	}
	return t, nil
}

// sharpest returns the smallest radius of the line and its loops, and which of
// them has it, if there is a curve.
func (s *site) sharpest() (radius measure.Length, of string, ok bool) {
	for _, b := range s.bends {
		if !ok || b.Sharpest < radius {
			radius, of, ok = b.Sharpest, "the line", true
		}
	}
	for _, l := range s.loops {
		if !ok || l.plan.Radius < radius {
			radius, of, ok = l.plan.Radius, l.plan.Name, true
		}
	}
	return radius, of, ok
}
