package clearance

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Vehicle is a body, or a few bodies joined to one another, on carriers.
// Plain data; Validate says whether it can be used, and every function that
// takes a vehicle asks it. The bodies go from rear to front; body i rests on
// carrier i behind and carrier i+1 ahead, so there is one carrier more than
// there are bodies, and carriers between two bodies are shared.
//
// Rigid and Bogie make the two common kinds.
type Vehicle struct {
	Name     string
	Bodies   []Body
	Carriers []Carrier
}

// A Body is a rigid body on two pivots.
type Body struct {
	Name   string         // for messages; may be empty
	Pivots measure.Length // from rear pivot to front pivot: bogie centres, or the wheelbase of outer axles
	Bands  []Band         // its outline at each height, one or more
	Inner  []Axle         // of a rigid wheelbase, the axles between the outer ones
	Trucks []Truck
}

// An Axle is one of a rigid wheelbase's inner axles.
type Axle struct {
	Along measure.Length // in the body's axes
	Play  measure.Length // sideways in its boxes, each way from the middle
}

// A Carrier is what stands on the rails and carries the end of a body: a bogie,
// an engine unit, or (the zero Carrier) an axle fixed in the body.
type Carrier struct {
	Wheelbase measure.Length // between its outer axles; 0 is one axle
	Pin       measure.Length // how far the pivot is ahead of the carrier's middle; 0 for a single axle
	Apart     measure.Length // carrier of two bodies: from the pivot of the body behind to that of the body ahead, Pin midway; 0 is one pivot for both
	Bands     []Band         // the carrier's own outline, Along from its middle; none if the body covers it
}

// A Truck is a leading or trailing truck on a radius bar: it guides itself and
// carries no part of the body's position. Its middle stands on the track
// centreline at the bar's length from the hinge.
type Truck struct {
	Hinge measure.Length // where on the body the bar turns, Along in the body's axes
	Bar   measure.Length // from the hinge to the truck's middle; negative is behind the hinge
	Bands []Band         // the truck's own outline, Along forward from its middle
}

// Rigid returns a vehicle on a rigid wheelbase: its two outer axles, or the
// only two.
func Rigid(name string, wheelbase measure.Length, bands ...Band) Vehicle {
	return Vehicle{Name: name, Bodies: []Body{{Pivots: wheelbase, Bands: bands}}, Carriers: make([]Carrier, 2)}
}

// Bogie returns a vehicle on two like bogies, the pins in their middles.
func Bogie(name string, centres, bogieWheelbase measure.Length, bands ...Band) Vehicle {
	c := Carrier{Wheelbase: bogieWheelbase}
	return Vehicle{Name: name, Bodies: []Body{{Pivots: centres, Bands: bands}}, Carriers: []Carrier{c, c}}
}

// Turned returns the vehicle turned end for end.
func (v Vehicle) Turned() Vehicle {
	t := Vehicle{Name: v.Name}
	for i := len(v.Bodies) - 1; i >= 0; i-- {
		b := v.Bodies[i]
		b.Bands = turned(b.Bands)
		inner := make([]Axle, len(b.Inner))
		for j, a := range b.Inner {
			inner[len(inner)-1-j] = Axle{-a.Along, a.Play}
		}
		b.Inner = inner
		trucks := make([]Truck, len(b.Trucks))
		for j, k := range b.Trucks {
			trucks[len(trucks)-1-j] = Truck{-k.Hinge, -k.Bar, turned(k.Bands)}
		}
		b.Trucks = trucks
		t.Bodies = append(t.Bodies, b)
	}
	for i := len(v.Carriers) - 1; i >= 0; i-- {
		c := v.Carriers[i]
		c.Pin, c.Bands = -c.Pin, turned(c.Bands)
		t.Carriers = append(t.Carriers, c)
	}
	return t
}

func turned(bands []Band) []Band {
	t := make([]Band, len(bands))
	for i, b := range bands {
		o := make(Outline, len(b.Outline))
		for j, p := range b.Outline {
			o[j] = Point{-p.Along, -p.Across}
		}
		b.Outline = o
		t[i] = b
	}
	return t
}

// Validate reports everything that is wrong with the vehicle:
//
//  1. there is at least one body and one carrier more than bodies, within MaxBodies;
//  2. every length is finite; pivot spacings are above zero, wheelbases zero or more;
//  3. a single axle has its pivot on the axle;
//  4. a body's pivots and hinges lie within its outline's length, but for a pivot
//     where another body is joined, which may stand between the two;
//  5. a body has at least one band; every band has its top above its bottom and
//     a sound outline;
//  6. a bar has a length; an inner axle stands between the pivots;
//  7. two neighbouring carriers do not stand on the same stretch of rail, and
//     only a shared carrier has its two pivots apart;
//  8. a body is at most MaxOverhang times as long as its pivots are apart.
func (v Vehicle) Validate() error {
	l := fault.In("clearance")
	v.check(l, v.field())
	return l.Err()
}

func (v Vehicle) field() string {
	if v.Name == "" {
		return "vehicle"
	}
	return "vehicle " + v.Name
}

func (v Vehicle) check(l *fault.List, field string) {
	if len(v.Bodies) == 0 {
		l.Add(field+": bodies", "none", "needs at least one body")
		return
	}
	if len(v.Bodies) > MaxBodies {
		l.Over(field+": bodies", len(v.Bodies), fmt.Sprintf("must be at most %d", MaxBodies))
		return
	}
	if len(v.Carriers) != len(v.Bodies)+1 {
		l.Add(field+": carriers", len(v.Carriers), fmt.Sprintf("must be one more than the bodies: %d", len(v.Bodies)+1))
		return
	}
	for i, c := range v.Carriers {
		c.check(l, fmt.Sprintf("%s: carrier %d", field, i+1), i == 0 || i == len(v.Bodies))
	}
	for i, b := range v.Bodies {
		f := field
		if b.Name != "" {
			f += ": " + b.Name
		} else if len(v.Bodies) > 1 {
			f += fmt.Sprintf(": body %d", i+1)
		}
		b.check(l, f, i > 0, i < len(v.Bodies)-1)
		rear, front := v.Carriers[i], v.Carriers[i+1]
		if s := rear.Wheelbase/2 - rear.Pin - rear.Apart/2 + front.Wheelbase/2 + front.Pin - front.Apart/2; b.Pivots > 0 && b.Pivots <= s {
			l.Add(f+": pivot spacing", b.Pivots, fmt.Sprintf("must be more than %v, or its carriers stand on the same rails", s))
		}
	}
}

func (c Carrier) check(l *fault.List, field string, end bool) {
	fault.NotNegative(l, field+": wheelbase", c.Wheelbase)
	fault.Finite(l, field+": pin", c.Pin)
	fault.NotNegative(l, field+": pivots apart", c.Apart)
	if c.Wheelbase == 0 && c.Pin != 0 {
		l.Add(field+": pin", c.Pin, "must be 0 mm on a single axle")
	}
	if (end || c.Wheelbase == 0) && c.Apart > 0 {
		l.Add(field+": pivots apart", c.Apart, "must be 0 mm on a carrier of one body and on a single axle")
	}
	checkBands(l, field, c.Bands)
}

// check checks a body; behind and ahead say whether another is joined there.
func (b Body) check(l *fault.List, field string, behind, ahead bool) {
	okPivots := fault.Positive(l, field+": pivot spacing", b.Pivots)
	if len(b.Bands) == 0 {
		l.Add(field+": bands", "none", "needs at least one outline")
	}
	checkBands(l, field, b.Bands)
	if len(b.Inner) > MaxAxles {
		l.Over(field+": inner axles", len(b.Inner), fmt.Sprintf("must be at most %d", MaxAxles))
	}
	if len(b.Trucks) > MaxTrucks {
		l.Over(field+": trucks", len(b.Trucks), fmt.Sprintf("must be at most %d", MaxTrucks))
	}
	rear, front := b.extent()
	if long := (front - rear) / MaxOverhang; okPivots && b.Pivots < long {
		l.Add(field+": pivot spacing", b.Pivots, fmt.Sprintf("must be at least %v, a %dth of the body's length", long, MaxOverhang))
	}
	within := func(name string, at measure.Length) {
		if fault.Finite(l, field+": "+name, at) && rear < front && (at < rear || at > front) {
			l.Add(field+": "+name, at, fmt.Sprintf("must be within the body, from %v to %v", rear, front))
		}
	}
	if okPivots && !behind {
		within("rear pivot", -b.Pivots/2)
	}
	if okPivots && !ahead {
		within("front pivot", b.Pivots/2)
	}
	for i, a := range b.Inner {
		f := fmt.Sprintf("inner axle %d", i+1)
		fault.NotNegative(l, field+": "+f+": play", a.Play)
		if fault.Finite(l, field+": "+f, a.Along) && okPivots && measure.Length(math.Abs(float64(a.Along))) >= b.Pivots/2 {
			l.Add(field+": "+f, a.Along, fmt.Sprintf("must stand between the outer axles, from %v to %v", -b.Pivots/2, b.Pivots/2))
		}
	}
	for i, t := range b.Trucks {
		f := fmt.Sprintf("%s: truck %d", field, i+1)
		within(fmt.Sprintf("truck %d: hinge", i+1), t.Hinge)
		if fault.Finite(l, f+": bar", t.Bar) && t.Bar == 0 {
			l.Add(f+": bar", t.Bar, "must not be 0 mm")
		}
		checkBands(l, f, t.Bands)
	}
}

func checkBands(l *fault.List, field string, bands []Band) {
	if len(bands) > MaxBands {
		l.Over(field+": bands", len(bands), fmt.Sprintf("must be at most %d", MaxBands))
		return
	}
	for i, b := range bands {
		f := fmt.Sprintf("%s: band %d", field, i+1)
		if b.Name != "" {
			f = field + ": " + b.Name
		}
		b.check(l, f)
	}
}

// extent returns the rearmost and foremost Along over all of the body's bands.
func (b Body) extent() (rear, front measure.Length) {
	for i, band := range b.Bands {
		r, f := band.Outline.Extent()
		if i == 0 {
			rear, front = r, f
		}
		rear, front = min(rear, r), max(front, f)
	}
	return rear, front
}
