package closing_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/closing"
	"example.org/fourfoot/gauge/measure"
)

var ctx = context.Background()

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.15g, want %.15g within %g", what, got, want, tol)
	}
}

func quarter(r float64) closing.Part {
	return closing.Part{Bend: curve.Bend{Radius: measure.Length(r), Turn: 90 * measure.Degree, Hand: curve.Left}}
}

func straight(length, by float64) closing.Part {
	return closing.Part{Straight: measure.Length(length), StraightBy: measure.Length(by)}
}

// checkClosed evaluates a closed circuit and holds it against what was asked.
func checkClosed(t *testing.T, start curve.Pose, asked []closing.Part, c closing.Closed) {
	t.Helper()
	a, err := c.Alignment()
	if err != nil {
		t.Fatalf("Alignment: %v", err)
	}
	if gap := r2.Norm(r2.Sub(a.End().Point, start.Point)); gap > 1e-9*float64(a.Length()) {
		t.Errorf("misses its start by %g mm", gap)
	}
	near(t, "heading", math.Remainder(float64(a.End().Heading-start.Heading), 2*math.Pi), 0, 1e-10)
	sum := 0.0
	for i, p := range asked {
		q, ch := c.Parts[i], c.Changes[i]
		for _, v := range [][2]float64{
			{float64(ch.Straight), float64(p.StraightBy)},
			{float64(ch.Radius), float64(p.RadiusBy)},
			{float64(ch.Turn), float64(p.TurnBy)},
		} {
			if math.Abs(v[0]) > v[1]*(1+1e-12) {
				t.Errorf("part %d changed by %v, limit %v", i, v[0], v[1])
			}
			if v[1] > 0 {
				sum += v[0] / v[1] * v[0] / v[1]
			}
		}
		near(t, "straight", float64(q.Straight), float64(p.Straight+ch.Straight), 1e-9)
		near(t, "radius", float64(q.Bend.Radius), float64(p.Bend.Radius+ch.Radius), 1e-9)
		if p.Bend.Radius > 0 {
			turn := float64(p.Bend.Turn)
			if p.Keep == closing.KeepArc { // the arc keeps its length
				turn = keptArc(t, p.Bend, q.Bend.Radius)
			}
			if p.Keep == closing.KeepArc && p.Bend.Shape <= curve.Helmert { // and the easements theirs
				arc := func(b curve.Bend) float64 {
					return float64(b.Radius)*float64(b.Turn) - float64(b.EaseIn+b.EaseOut)/2
				}
				near(t, "arc kept", arc(q.Bend)-float64(ch.Turn)*float64(q.Bend.Radius), arc(p.Bend), 1e-8)
			}
			near(t, "turn", float64(q.Bend.Turn), turn+float64(ch.Turn), 1e-12)
		}
	}
	near(t, "sum", c.Sum, sum, 1e-9*(1+sum))
}

// A rectangle one of whose sides is 10 mm too long: the two parallel sides
// share it in the ratio of their limits squared, 1 : 4 (worked).
func TestRectangleSharesByLimitSquared(t *testing.T) {
	parts := []closing.Part{
		straight(4010, 10), quarter(1500), straight(2000, 10), quarter(1500),
		straight(4000, 20), quarter(1500), straight(2000, 10), quarter(1500),
	}
	c, err := closing.Close(ctx, curve.Pose{}, parts...)
	if err != nil {
		t.Fatal(err)
	}
	checkClosed(t, curve.Pose{}, parts, c)
	for i, want := range []float64{-2, 0, 0, 0, 8, 0, 0, 0} {
		near(t, "change", float64(c.Changes[i].Straight), want, 1e-9)
	}
	near(t, "misclosure along", float64(c.Before.Along), 10, 1e-9)
	near(t, "misclosure across", float64(c.Before.Across), 0, 1e-9)
	near(t, "misclosure heading", float64(c.Before.Heading), 0, 1e-12)
}

// Where one limit is reached the other takes the rest.
func TestRectangleAtLimit(t *testing.T) {
	parts := []closing.Part{
		straight(4010, 10), quarter(1500), straight(2000, 10), quarter(1500),
		straight(4000, 2), quarter(1500), straight(2000, 10), quarter(1500),
	}
	c, err := closing.Close(ctx, curve.Pose{}, parts...)
	if err != nil {
		t.Fatal(err)
	}
	checkClosed(t, curve.Pose{}, parts, c)
	near(t, "first side", float64(c.Changes[0].Straight), -10*100.0/104, 1e-9)
	parts[4].StraightBy = 20
	parts[0].StraightBy = 3
	parts[4].StraightBy = 8
	c, err = closing.Close(ctx, curve.Pose{}, parts...)
	if err != nil {
		t.Fatal(err)
	}
	// 9 : 64 would ask 0.0 + 1.23 of the first and 8.77 of the other; the other
	// stops at 8, the first takes 2.
	near(t, "first side", float64(c.Changes[0].Straight), -2, 1e-9)
	near(t, "other side", float64(c.Changes[4].Straight), 8, 1e-9)
	near(t, "share", c.Changes[4].Share, 1, 1e-12)
}

// What bends keep: a made curve of 88° on each corner must gain 2°. Bent anew
// with its arc kept, its radius shrinks to 88/90.
func TestKeepArcTurnsByRadius(t *testing.T) {
	corner := closing.Part{
		Bend:     curve.Bend{Radius: 1500, Turn: 88 * measure.Degree, Hand: curve.Left},
		RadiusBy: 60, Keep: closing.KeepArc,
	}
	var parts []closing.Part
	for range 4 {
		parts = append(parts, straight(3000, 0), corner)
	}
	c, err := closing.Close(ctx, curve.Pose{}, parts...)
	if err != nil {
		t.Fatal(err)
	}
	checkClosed(t, curve.Pose{}, parts, c)
	for i := 1; i < 8; i += 2 {
		near(t, "radius", float64(c.Parts[i].Bend.Radius), 1500*88.0/90, 1e-6)
	}
	for i := range parts {
		parts[i].Keep = closing.KeepTurn
	}
	_, err = closing.Close(ctx, curve.Pose{}, parts...)
	if !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "8° are missing") {
		t.Errorf("turns kept: error %v, want 8° missing", err)
	}
}

func randomCircuit(rng *rand.Rand) []closing.Part {
	shapes := []curve.Shape{curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert, curve.CubicParabola, curve.Lath}
	n := 3 + rng.IntN(4)
	hand := curve.Hand(2*rng.IntN(2) - 1)
	var parts []closing.Part
	for range n {
		parts = append(parts, straight(2500+20*rng.Float64(), 40*float64(rng.IntN(2))+10))
		b := closing.Part{
			Bend: curve.Bend{
				Radius: measure.Length(1500 + 30*rng.Float64()), Turn: measure.Angle(2*math.Pi/float64(n) + 0.01*(rng.Float64()-0.5)),
				Hand: hand, EaseIn: measure.Length(200 * rng.Float64()), EaseOut: measure.Length(200 * rng.Float64()), Shape: shapes[rng.IntN(7)],
			},
			RadiusBy: measure.Length(float64(rng.IntN(2)) * 40), TurnBy: measure.Angle(0.03 * rng.Float64()), Keep: closing.Keep(rng.IntN(2)),
		}
		parts = append(parts, b)
	}
	return parts
}

// keptArc returns the turn of a bend whose radius has changed and whose arc has
// kept its length, by its own elements.
func keptArc(t *testing.T, b curve.Bend, radius measure.Length) float64 {
	t.Helper()
	arc := func(b curve.Bend) (arc, rest measure.Angle) {
		e, err := b.Elements()
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range e {
			if x.Shape() == curve.CircularArc {
				arc += x.Turn()
			} else {
				rest += x.Turn()
			}
		}
		return arc * measure.Angle(b.Hand), rest * measure.Angle(b.Hand)
	}
	was, _ := arc(b)
	n := b
	n.Radius, n.Turn = radius, 3
	_, eased := arc(n)
	return float64(eased + was*measure.Angle(b.Radius/radius))
}

// ends runs the parts with the changes given and returns the misclosure.
func ends(t *testing.T, parts []closing.Part, ch []closing.Change) [3]float64 {
	t.Helper()
	var el []curve.Element
	for i, p := range parts {
		if p.Straight > 0 {
			e, err := curve.NewStraight(p.Straight + ch[i].Straight)
			if err != nil {
				t.Fatal(err)
			}
			el = append(el, e)
			continue
		}
		b := p.Bend
		b.Radius += ch[i].Radius
		if p.Keep == closing.KeepArc {
			b.Turn = measure.Angle(keptArc(t, p.Bend, b.Radius))
		}
		b.Turn += ch[i].Turn
		e, err := b.Elements()
		if err != nil {
			t.Fatal(err)
		}
		el = append(el, e...)
	}
	a, err := curve.New(curve.Pose{}, el...)
	if err != nil {
		t.Fatal(err)
	}
	return [3]float64{a.End().Point.X, a.End().Point.Y, math.Remainder(float64(a.End().Heading), 2*math.Pi)}
}

// Every other set of changes that closes the circuit and stays within its
// limits is larger: random sets near the answer are closed again by Newton
// steps of the test's own, through three quantities at a time.
func TestCloseIsLeast(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 20))
	compared, active := 0, 0
	for range 30 {
		parts := randomCircuit(rng)
		c, err := closing.Close(ctx, curve.Pose{}, parts...)
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) {
				t.Error(err)
			}
			continue
		}
		checkClosed(t, curve.Pose{}, parts, c)
		type ref struct {
			part, kind int
			limit      float64
		}
		var vars []ref
		for i, p := range parts {
			for k, l := range []float64{float64(p.StraightBy), float64(p.RadiusBy), float64(p.TurnBy)} {
				if l > 0 {
					vars = append(vars, ref{i, k, l})
				}
			}
		}
		get := func(ch []closing.Change, v ref) float64 {
			return []float64{float64(ch[v.part].Straight), float64(ch[v.part].Radius), float64(ch[v.part].Turn)}[v.kind] / v.limit
		}
		add := func(ch []closing.Change, v ref, u float64) {
			switch v.kind {
			case 0:
				ch[v.part].Straight += measure.Length(u * v.limit)
			case 1:
				ch[v.part].Radius += measure.Length(u * v.limit)
			case 2:
				ch[v.part].Turn += measure.Angle(u * v.limit)
			}
		}
		for _, v := range vars {
			if math.Abs(get(c.Changes, v)) > 1-1e-9 {
				active++
			}
		}
		for range 60 {
			ch := append([]closing.Change(nil), c.Changes...)
			size := math.Pow(10, -1-3*rng.Float64())
			perm := rng.Perm(len(vars))
			for _, k := range perm[3:] {
				u := get(ch, vars[k])
				to := min(max(u+size*(rng.Float64()-0.5), -1), 1)
				add(ch, vars[k], to-u)
			}
			solved := false
			for range 12 {
				m := ends(t, parts, ch)
				if math.Hypot(m[0], m[1]) < 1e-7 && math.Abs(m[2]) < 1e-11 {
					solved = true
					break
				}
				var j [3][3]float64
				for col, k := range perm[:3] {
					const h = 1e-5
					up := append([]closing.Change(nil), ch...)
					add(up, vars[k], h)
					e := ends(t, parts, up)
					for row := range 3 {
						j[row][col] = (e[row] - m[row]) / h
					}
				}
				x, ok := cramer(j, m)
				if !ok {
					break
				}
				step := 0.0
				for col := range x {
					step = max(step, math.Abs(x[col]))
				}
				if step > 0.5 {
					break
				}
				for col, k := range perm[:3] {
					add(ch, vars[k], -x[col])
				}
			}
			if !solved {
				continue
			}
			sum, within := 0.0, true
			for _, v := range vars {
				u := get(ch, v)
				within = within && math.Abs(u) <= 1
				sum += u * u
			}
			if !within {
				continue
			}
			compared++
			if sum < c.Sum*(1-1e-7)-1e-10 {
				t.Errorf("other changes close with a sum of %.12g, the least was said to be %.12g", sum, c.Sum)
			}
		}
	}
	if compared < 200 || active < 5 {
		t.Errorf("compared %d, %d limits reached: too few to tell", compared, active)
	}
}

func cramer(j [3][3]float64, b [3]float64) (x [3]float64, ok bool) {
	det := func(m [3][3]float64) float64 {
		return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
	}
	d := det(j)
	if math.Abs(d) < 1e-9 {
		return x, false
	}
	for c := range 3 {
		m := j
		for r := range 3 {
			m[r][c] = b[r]
		}
		x[c] = det(m) / d
	}
	return x, true
}

// Nothing changes when the start is put elsewhere, or the circuit is mirrored.
func TestCloseFromAnyStartAndMirrored(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 21))
	for range 10 {
		parts := randomCircuit(rng)
		want, err := closing.Close(ctx, curve.Pose{}, parts...)
		if err != nil {
			continue
		}
		// Where the start is put elsewhere the gap lies at another place, so
		// the answer may differ by the gap's own turning: by its square.
		k := 1 + rng.IntN(len(parts)-1)
		start := curve.Pose{Point: r2.Vec{X: 1e4, Y: -3e3}, Heading: 2}
		got, err := closing.Close(ctx, start, append(append([]closing.Part(nil), parts[k:]...), parts[:k]...)...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "sum from another start", got.Sum, want.Sum, 1e-6*(1+want.Sum))
		mirrored := append([]closing.Part(nil), parts...)
		for i := range mirrored {
			mirrored[i].Bend.Hand = -mirrored[i].Bend.Hand
		}
		got, err = closing.Close(ctx, curve.Pose{}, mirrored...)
		if err != nil {
			t.Fatal(err)
		}
		for i := range parts {
			near(t, "mirrored turn", float64(got.Changes[i].Turn), float64(want.Changes[i].Turn), 1e-8)
			near(t, "mirrored length", float64(got.Changes[i].Straight), float64(want.Changes[i].Straight), 1e-5)
		}
	}
}

func TestCloseNoAnswer(t *testing.T) {
	rect := func(by float64) []closing.Part {
		return []closing.Part{
			straight(4030, by), quarter(1500), straight(2000, by), quarter(1500),
			straight(4000, by), quarter(1500), straight(2000, by), quarter(1500),
		}
	}
	_, err := closing.Close(ctx, curve.Pose{}, rect(10)...)
	if !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "10 mm") || !strings.Contains(err.Error(), "1.5 times") {
		t.Errorf("limits too small: %v", err)
	}
	if _, err := closing.Close(ctx, curve.Pose{}, rect(15.001)...); err != nil {
		t.Errorf("limits of half the misclosure: %v", err)
	}
	parts := rect(0)
	parts[2].StraightBy, parts[6].StraightBy = 50, 50 // square to the misclosure
	_, err = closing.Close(ctx, curve.Pose{}, parts...)
	if !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "other directions") {
		t.Errorf("only sides square to the gap are free: %v", err)
	}
	_, err = closing.Close(ctx, curve.Pose{}, rect(0)...)
	if !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "nothing may change") {
		t.Errorf("nothing free: %v", err)
	}
	parts = rect(50)
	parts[1].Bend.Turn = 80 * measure.Degree
	parts[3].TurnBy = 4 * measure.Degree
	_, err = closing.Close(ctx, curve.Pose{}, parts...)
	if !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "10° are missing") || !strings.Contains(err.Error(), "at most 4°") {
		t.Errorf("turns that cannot reach: %v", err)
	}
}

func TestCloseRefuses(t *testing.T) {
	nan := measure.Length(math.NaN())
	bend := quarter(1500)
	with := func(f func(*closing.Part)) closing.Part { p := bend; f(&p); return p }
	for name, row := range map[string]struct {
		parts []closing.Part
		kind  error
	}{
		"none":               {nil, measure.ErrInput},
		"empty part":         {[]closing.Part{{}}, measure.ErrInput},
		"NaN straight":       {[]closing.Part{{Straight: nan}}, measure.ErrInput},
		"limit over length":  {[]closing.Part{straight(10, 11)}, measure.ErrInput},
		"both":               {[]closing.Part{with(func(p *closing.Part) { p.Straight = 5 })}, measure.ErrInput},
		"turn of a straight": {[]closing.Part{{Straight: 5, TurnBy: 1}}, measure.ErrInput},
		"radius limit":       {[]closing.Part{with(func(p *closing.Part) { p.RadiusBy = 1400 })}, measure.ErrInput},
		"turn limit":         {[]closing.Part{with(func(p *closing.Part) { p.TurnBy = 2 })}, measure.ErrInput},
		"negative":           {[]closing.Part{with(func(p *closing.Part) { p.TurnBy = -2 })}, measure.ErrInput},
		"keep":               {[]closing.Part{with(func(p *closing.Part) { p.Keep = 9 })}, measure.ErrInput},
		"no radius":          {[]closing.Part{with(func(p *closing.Part) { p.Bend.Radius = 0 })}, measure.ErrInput},
		"too many":           {make([]closing.Part, closing.MaxParts+1), measure.ErrLimit},
	} {
		if _, err := closing.Close(ctx, curve.Pose{}, row.parts...); !errors.Is(err, row.kind) {
			t.Errorf("%s: error %v, want %v", name, err, row.kind)
		}
	}
	if _, err := closing.Close(ctx, curve.Pose{Heading: measure.Angle(nan)}, bend); !errors.Is(err, measure.ErrInput) {
		t.Errorf("NaN start: %v", err)
	}
	done, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := closing.Close(done, curve.Pose{}, straight(10, 5), bend, bend, bend, bend); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

func FuzzClose(f *testing.F) {
	f.Add(4010.0, 2000.0, 4000.0, 1990.0, 1500.0, 1.57, 100.0, 20.0, 30.0, 0.02, uint8(1), uint8(3))
	f.Fuzz(func(t *testing.T, a, b, c, d, r, turn, ease, by, rby, tby float64, keep, shape uint8) {
		bend := closing.Part{
			Bend:     curve.Bend{Radius: measure.Length(r), Turn: measure.Angle(turn), Hand: curve.Left, EaseIn: measure.Length(ease), Shape: curve.Shape(shape)},
			RadiusBy: measure.Length(rby), TurnBy: measure.Angle(tby), Keep: closing.Keep(keep),
		}
		parts := []closing.Part{straight(a, by), bend, straight(b, by), bend, straight(c, by), bend, straight(d, by), bend}
		got, err := closing.Close(ctx, curve.Pose{}, parts...)
		if err != nil {
			return
		}
		if _, err := got.Alignment(); err != nil {
			t.Errorf("closed, but: %v", err)
		}
		for i, ch := range got.Changes {
			if ch.Share > 1+1e-12 || math.Abs(float64(ch.Straight)) > float64(parts[i].StraightBy)*(1+1e-12) {
				t.Errorf("part %d changed by %+v beyond %+v", i, ch, parts[i])
			}
		}
	})
}

func BenchmarkClose(b *testing.B) {
	rng := rand.New(rand.NewPCG(3, 22))
	var parts []closing.Part
	for range 40 {
		parts = append(parts, straight(500+rng.Float64(), 10), closing.Part{
			Bend:     curve.Bend{Radius: 3000, Turn: 2 * math.Pi / 40, Hand: curve.Left, EaseIn: 100, EaseOut: 100},
			RadiusBy: 30, TurnBy: 0.01,
		})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := closing.Close(ctx, curve.Pose{}, parts...); err != nil {
			b.Fatal(err)
		}
	}
}

// The largest limit of the turn that the error tells leaves an arc at every
// radius within its limit, and no larger one does.
func TestTurnLimitTold(t *testing.T) {
	for _, keep := range []closing.Keep{closing.KeepTurn, closing.KeepArc} {
		p := closing.Part{
			Bend:     curve.Bend{Radius: 1000, Turn: 1, Hand: curve.Left, EaseIn: 300, EaseOut: 200},
			RadiusBy: 400, TurnBy: 3, Keep: keep,
		}
		_, err := closing.Close(ctx, curve.Pose{}, p)
		_, rest, ok := strings.Cut(errString(err), "may be at most ")
		if !ok {
			t.Fatalf("error %v tells no limit", err)
		}
		number, _, _ := strings.Cut(rest, "°")
		told, err := strconv.ParseFloat(number, 64)
		if err != nil {
			t.Fatal(err)
		}
		fits := func(turn float64) bool {
			for _, by := range []measure.Length{-400, 0, 400} {
				b := p.Bend
				b.Radius += by
				if keep == closing.KeepArc {
					b.Turn *= measure.Angle(p.Bend.Radius / b.Radius) // turn times radius is kept
				}
				b.Turn -= measure.Angle(turn) * measure.Degree
				if _, err := b.Elements(); err != nil {
					return false
				}
			}
			return true
		}
		if !fits(told*0.9999) || fits(told*1.001) {
			t.Errorf("keep %v: told %v°: fits %v, more fits %v", keep, told, fits(told*0.9999), fits(told*1.001))
		}
	}
}

func errString(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// The misclosure of a line that runs north is told along and across that: it
// ends 30 mm east and 20 mm north of its start.
func TestMisclosureOfALineThatRunsNorth(t *testing.T) {
	arc, err := curve.NewArc(1000, 2*math.Pi, curve.Right)
	if err != nil {
		t.Fatal(err)
	}
	on, err := curve.NewStraight(20)
	if err != nil {
		t.Fatal(err)
	}
	turn, err := curve.NewArc(1e-3, math.Pi/2, curve.Right)
	if err != nil {
		t.Fatal(err)
	}
	aside, err := curve.NewStraight(30)
	if err != nil {
		t.Fatal(err)
	}
	a, err := curve.New(curve.Pose{Point: r2.Vec{X: 5, Y: 7}, Heading: math.Pi / 2}, arc, on, turn, aside)
	if err != nil {
		t.Fatal(err)
	}
	m := closing.MisclosureOf(a)
	near(t, "gap east", m.Gap.X, 30, 0.002)
	near(t, "gap north", m.Gap.Y, 20, 0.002)
	near(t, "along", float64(m.Along), 20, 0.002)
	near(t, "across", float64(m.Across), -30, 0.002)
	near(t, "distance", float64(m.Distance()), math.Hypot(20, 30), 0.002)
	near(t, "heading", float64(m.Heading), -math.Pi/2, 1e-12)
}
