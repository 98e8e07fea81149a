package clearance_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// Without a cant the edge is the reach and the plain allowances; with one, the
// corners of the section turned about the rail that stays level.
func TestEdges(t *testing.T) {
	l, err := line()
	if err != nil {
		t.Fatal(err)
	}
	coach := clearance.Bogie("coach", 443, 80, clearance.Band{Bottom: 20, Top: 120, Outline: clearance.Box(614, 88)})
	low := clearance.Rigid("flat", 150, clearance.Band{Bottom: 10, Top: 40, Outline: clearance.Box(200, 140)})
	stock := []clearance.Vehicle{coach, low}
	e, err := clearance.Sweep(context.Background(), l, stock, clearance.Settings{Allowances: clearance.Allowances{Play: 1, Laying: 2, Heat: 3, Running: 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	between := []clearance.Heights{{}, {From: 50, To: 60}, {From: 130, To: 140}}
	for _, side := range []curve.Hand{curve.Left, curve.Right} {
		edges, err := e.Edges(context.Background(), side, between)
		if err != nil {
			t.Fatal(err)
		}
		for j, edge := range edges {
			for i, p := range edge {
				if j == 2 {
					if !p.None {
						t.Fatalf("something at %v", between[j])
					}
					continue
				}
				at, err := e.At(p.Chainage, side, between[j])
				if err != nil {
					t.Fatal(err)
				}
				if math.Abs(float64(p.Reach-at.Reach-5.5)) > 1e-9 {
					t.Fatalf("%v point %d: %v, want %v and 5.5", between[j], i, p.Reach, at.Reach)
				}
				if q := l.Offset(p.Chainage, p.Reach*measure.Length(side)); r2.Norm(r2.Sub(q, p.Place)) > 1e-9 {
					t.Fatalf("%v point %d is at %v, want %v", between[j], i, p.Place, q)
				}
				n, err := e.Needs(p.Chainage, side, between[j])
				if err != nil || math.Abs(float64(n.Reach-p.Reach)) > 1e-9 || n.By.Vehicle != at.By.Vehicle {
					t.Fatalf("needs at %v: %+v, %v, want %v of %s", p.Chainage, n, err, p.Reach, at.By.Vehicle)
				}
			}
		}
	}
	if _, err := e.Needs(100, curve.Left, between[2]); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("needs where nothing is: %v", err)
	}
	if _, err := e.Edges(context.Background(), 0, []clearance.Heights{{From: 2, To: 1}}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("edges of no side: %v", err)
	}

	cant, err := profile.NewCant(profile.InnerRail, profile.CantPoint{Chainage: 0, Cant: 3})
	if err != nil {
		t.Fatal(err)
	}
	flat, err := curve.NewStraight(3000)
	if err != nil {
		t.Fatal(err)
	}
	track, err := curve.New(curve.Pose{}, flat)
	if err != nil {
		t.Fatal(err)
	}
	e, err = clearance.Sweep(context.Background(), track, stock[:1], clearance.Settings{Allowances: clearance.Allowances{Cant: cant, RailCentres: 48}})
	if err != nil {
		t.Fatal(err)
	}
	lean := math.Asin(3.0 / 48)
	for _, c := range []struct {
		side      curve.Hand
		y, z, out float64
	}{{curve.Left, 44, 120, 1}, {curve.Right, -44, 20, -1}} {
		// Turned about the left rail's head, 24 to the left: the lower one.
		want := c.out * (24 + (c.y-24)*math.Cos(lean) + c.z*math.Sin(lean))
		n, err := e.Needs(1500, c.side, clearance.Heights{})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(n.Reach)-want) > 1e-9 {
			t.Errorf("canted, %v: %v, want %v", c.side, n.Reach, want)
		}
	}
}
