package rail

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// thou is the thousandth of an inch, in which the code of a rail counts.
const thou = measure.Inch / 1000

var rp151 = gauge.Source{Title: "NMRA RP-15.1", Basis: gauge.Seen}

// tabled holds the sections of NMRA RP-15.1, in thousandths of an inch.
var tabled = []struct{ code, foot, head measure.Length }{
	{250, 224, 112},
	{208, 188, 94},
	{148, 132, 66},
	{100, 90, 45},
}

// traded holds the codes that are met besides, of which no foot or head is
// printed.
var traded = []float64{332, 215, 200, 124}

// Proportions of the sections of NMRA RP-15.1, which give the foot of each
// within 1.2 thou and the head within 0.6 (worked).
const (
	footOverHeight = 0.9
	headOverHeight = 0.45
)

// FromCode returns the model rail of a code, the height in thousandths of an
// inch. For the codes 250, 208, 148 and 100 foot and head are those of NMRA
// RP-15.1; for any other they follow its proportions, 0.9 and 0.45 of the
// height, and the source says worked: measure the rail that you have.
func FromCode(code float64) (Section, error) {
	l := fault.In("rail")
	if !fault.Between(l, "code", code, 10, 2000) {
		return Section{}, l.Err()
	}
	for _, t := range tabled {
		if float64(t.code) == code {
			return Section{Name: codeName(code), Height: t.code * thou, Foot: t.foot * thou, Head: t.head * thou, Source: rp151}, nil
		}
	}
	h := measure.Length(code) * thou
	return Section{
		Name: codeName(code), Height: h, Foot: footOverHeight * h, Head: headOverHeight * h,
		Source: gauge.Source{Title: "proportions of NMRA RP-15.1", Basis: gauge.Worked},
	}, nil
}

func codeName(code float64) string { return fmt.Sprintf("code %g", code) }

// FromNEMProfile returns the model rail of a NEM 120 profile number, ten times
// the height in millimetres (NEM 120, ed. 2010); foot and head are not stated.
func FromNEMProfile(number float64) (Section, error) {
	l := fault.In("rail")
	if !fault.Between(l, "profile number", number, 2, 500) {
		return Section{}, l.Err()
	}
	return Section{
		Name:   fmt.Sprintf("NEM profile %g", number),
		Height: measure.Length(number) / 10,
		Source: gauge.Source{Title: "NEM 120, ed. 2010", Basis: gauge.Seen},
	}, nil
}

// Code returns the height in thousandths of an inch, unrounded.
func (s Section) Code() float64 { return float64(s.Height / thou) }

// NEMProfile returns ten times the height in millimetres, unrounded.
func (s Section) NEMProfile() float64 { return float64(10 * s.Height) }

// A CodeMatch compares a code of rail with the height that is wanted.
type CodeMatch struct {
	Section
	Error measure.Length // height less that wanted: + is too high
	Off   float64        // Error over the height wanted
}

// NearestCode returns the codes of rail that are met, nearest to the height
// first.
func NearestCode(height measure.Length) ([]CodeMatch, error) {
	l := fault.In("rail")
	if !fault.Between(l, "rail height", height, measure.Millimetre/100, greatest) {
		return nil, l.Err()
	}
	var m []CodeMatch
	for _, s := range modelRails() {
		e := s.Height - height
		m = append(m, CodeMatch{s, e, float64(e / height)})
	}
	slices.SortStableFunc(m, func(a, b CodeMatch) int { return cmp.Compare(math.Abs(a.Off), math.Abs(b.Off)) })
	return m, nil
}

// modelRails returns the codes that are met, highest first.
func modelRails() []Section {
	var all []Section
	for _, t := range tabled {
		s, _ := FromCode(float64(t.code))
		all = append(all, s)
	}
	for _, c := range traded {
		s, _ := FromCode(c)
		all = append(all, s)
	}
	slices.SortFunc(all, func(a, b Section) int { return cmp.Compare(b.Height, a.Height) })
	return all
}
