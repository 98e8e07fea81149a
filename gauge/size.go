package gauge

import (
	"slices"
	"strconv"
	"strings"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Size is a named scale on a named model gauge.
type Size struct {
	Name  string // "IIm", "16 mm on 32 mm"
	Scale Scale
	Gauge measure.Length // of the model
	// FullMin to FullMax is the range of full-size gauges that the size stands
	// for, FullMax itself left out below 1700 mm; both 0 when the source states
	// none.
	FullMin, FullMax measure.Length
	Source           Source
}

var (
	nem010  = Source{Title: "NEM 010, ed. 2011", Basis: Seen}
	byFoot  = Source{Title: "scales on imperial proportions", Basis: CommonPractice}
	fromMem = Source{Title: "scales on imperial proportions", Basis: FromMemory}
)

// nemRow is one column of the table of NEM 010, smallest first.
type nemRow struct {
	name  string
	scale string
	gauge measure.Length
}

var nemRows = []nemRow{
	{"Z", "1:220", 6.5},
	{"N", "1:160", 9},
	{"TT", "1:120", 12},
	{"H0", "1:87", 16.5},
	{"S", "1:64", 22.5},
	{"0", "1:45", 32},
	{"I", "1:32", 45},
	{"II", "1:22.5", 64},
	{"III", "1:16", 89},
	{"V", "1:11", 127},
	{"VII", "1:8", 184},
	{"X", "1:5.5", 260},
}

// narrow is one suffix of NEM 010: so many sizes smaller in the table is the
// gauge; the range is of the full-size gauge, its upper end left out.
type narrow struct {
	suffix   string
	smaller  int
	min, max measure.Length
}

var narrows = []narrow{
	{"", 0, 1250, 1700},
	{"m", 1, 850, 1250},
	{"e", 2, 650, 850},
	{"i", 3, 400, 650},
	{"p", 4, 300, 400},
}

// NEMSizes returns the sizes of NEM 010 for the normal gauges, smallest first.
// The narrow-gauge sizes come from NEMSize and NEMSizeFor. Size S is 1:64 here,
// not the 1:60 of one copy in circulation; NEM 103 reckons size 0 at 1:43.5.
func NEMSizes() []Size {
	sizes := make([]Size, len(nemRows))
	for i := range nemRows {
		sizes[i], _ = nemSize(i, narrows[0])
	}
	return sizes
}

func nemSize(row int, n narrow) (Size, bool) {
	if row < n.smaller {
		return Size{}, false
	}
	r := nemRows[row]
	return Size{
		Name:    r.name + n.suffix,
		Scale:   MustParseScale(r.scale),
		Gauge:   nemRows[row-n.smaller].gauge,
		FullMin: n.min, FullMax: n.max,
		Source: nem010,
	}, true
}

// NEMSize returns the size of NEM 010 of that name: "II", "IIm", "0e". The
// suffix m takes the gauge of the next smaller size and stands for full-size
// gauges of 850 to under 1250 mm, e that of the second smaller (650 to 850), i
// of the third (400 to 650), p of the fourth (300 to 400).
func NEMSize(name string) (Size, error) {
	l := fault.In("gauge")
	for row, r := range nemRows {
		suffix, found := strings.CutPrefix(name, r.name)
		i := slices.IndexFunc(narrows, func(n narrow) bool { return n.suffix == suffix })
		if !found || i < 0 {
			continue
		}
		if z, ok := nemSize(row, narrows[i]); ok {
			return z, nil
		}
		l.Add("size", strconv.Quote(name), "must be one whose narrow gauge is in NEM 010; its table begins at Z")
		return Size{}, l.Err()
	}
	l.Add("size", strconv.Quote(clip(name)), "must be one of NEM 010 (Z N TT H0 S 0 I II III V VII X), alone or with a suffix m e i p")
	return Size{}, l.Err()
}

// NEMSizeFor returns the size, narrow suffix and all, in which NEM 010 models a
// full-size gauge at the scale of the named normal size: "II" and 1000 mm is
// IIm.
func NEMSizeFor(name string, full measure.Length) (Size, error) {
	l := fault.In("gauge")
	row := slices.IndexFunc(nemRows, func(r nemRow) bool { return r.name == name })
	if row < 0 {
		l.Add("size", strconv.Quote(clip(name)), "must be one of NEM 010: Z N TT H0 S 0 I II III V VII X")
	}
	if fault.Between(l, "full-size gauge", full, 300, 1700) && row >= 0 {
		for _, n := range narrows {
			if full < n.min || full >= n.max && n.suffix != "" {
				continue
			}
			if z, ok := nemSize(row, n); ok {
				return z, nil
			}
			l.NoAnswer("size", name+n.suffix, "has no gauge in NEM 010: take a larger size than "+name)
		}
	}
	return Size{}, l.Err()
}

// clip shortens text that is quoted in an error.
func clip(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// ImperialSizes returns the sizes whose scale is so much to the foot.
func ImperialSizes() []Size {
	return []Size{
		{Name: "2 mm finescale", Scale: MustParseScale("2 mm/ft"), Gauge: 9.42, Source: byFoot},
		{Name: "OO", Scale: MustParseScale("4 mm/ft"), Gauge: 16.5, Source: byFoot},
		{Name: "EM", Scale: MustParseScale("4 mm/ft"), Gauge: 18.2, Source: fromMem},
		{Name: "P4", Scale: MustParseScale("4 mm/ft"), Gauge: 18.83, Source: byFoot},
		{Name: "O", Scale: MustParseScale("7 mm/ft"), Gauge: 32, Source: byFoot},
		{Name: "ScaleSeven", Scale: MustParseScale("7 mm/ft"), Gauge: 33, Source: byFoot},
		{Name: "Gauge 1, 10 mm to the foot", Scale: MustParseScale("10 mm/ft"), Gauge: 45, Source: byFoot},
		{Name: "Gauge 1, 3/8 in to the foot", Scale: MustParseScale("3/8 in/ft"), Gauge: 45, Source: byFoot},
		{Name: "16 mm on 32 mm", Scale: MustParseScale("16 mm/ft"), Gauge: 32, Source: byFoot},
		{Name: "16 mm on 45 mm", Scale: MustParseScale("16 mm/ft"), Gauge: 45, Source: byFoot},
		{Name: "1:20.3 on 45 mm", Scale: MustParseScale("1:20.3"), Gauge: 45, Source: byFoot},
		{Name: "7/8 in on 45 mm", Scale: MustParseScale("7/8 in/ft"), Gauge: 45, Source: byFoot},
	}
}
