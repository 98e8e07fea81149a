package rail_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/gauge/rail"
)

func near(got, want, within float64) bool { return math.Abs(got-want) <= within }

// Code heights: thousandths of an inch, millimetres to the last figure listed.
func TestCodeHeights(t *testing.T) {
	for code, mm := range map[float64]float64{332: 8.433, 250: 6.350, 215: 5.461, 200: 5.080, 124: 3.150, 100: 2.540} {
		s, err := rail.FromCode(code)
		if err != nil || !near(float64(s.Height), mm, 0.0005) || !near(s.Code(), code, 1e-9) {
			t.Errorf("FromCode(%v) is %v high, code %v, %v; listed %v mm", code, s.Height, s.Code(), err, mm)
		}
	}
}

// NMRA RP-15.1: code, height, base and head in inches (seen).
func TestRP151(t *testing.T) {
	for _, tc := range []struct{ code, height, foot, head float64 }{
		{250, .250, .224, .112},
		{208, .208, .188, .094},
		{148, .148, .132, .066},
		{100, .100, .090, .045},
	} {
		s, err := rail.FromCode(tc.code)
		if err != nil || !near(s.Height.Inches(), tc.height, 1e-12) || !near(s.Foot.Inches(), tc.foot, 1e-12) || !near(s.Head.Inches(), tc.head, 1e-12) {
			t.Errorf("FromCode(%v) = %+v, %v; want %+v", tc.code, s, err, tc)
		}
		if s.Source.Basis != gauge.Seen {
			t.Errorf("code %v is %v", tc.code, s.Source)
		}
		// The proportions used for other codes reproduce the table.
		o, err := rail.FromCode(tc.code + 1e-9)
		if err != nil || o.Source.Basis != gauge.Worked || !near(o.Foot.Inches(), tc.foot, 0.00121) || !near(o.Head.Inches(), tc.head, 0.00061) {
			t.Errorf("by proportion, code %v = %+v, %v; want foot and head of %+v", tc.code, o, err, tc)
		}
	}
	for _, code := range []float64{0, -100, 9, 2001, math.NaN(), math.Inf(1)} {
		if _, err := rail.FromCode(code); !errors.Is(err, measure.ErrInput) {
			t.Errorf("FromCode(%v): %v", code, err)
		}
	}
}

func TestNEMProfile(t *testing.T) {
	// NEM 120, ed. 2010: ten times the height; joiner at least four heights.
	s, err := rail.FromNEMProfile(25)
	if err != nil || s.Height != 2.5 || s.NEMProfile() != 25 || s.LeastJoiner() != 10 || s.Foot != 0 || s.Head != 0 {
		t.Errorf("FromNEMProfile(25) = %+v, %v", s, err)
	}
	if _, err := rail.FromNEMProfile(math.NaN()); !errors.Is(err, measure.ErrInput) {
		t.Errorf("FromNEMProfile(NaN): %v", err)
	}
}

func TestFullSize(t *testing.T) {
	s, ok := rail.Named("60E1")
	if !ok || s.Height != 172 || s.Foot != 150 || s.Head != 72 || s.Web != 16.5 || !near(float64(s.Area), 7670, 1e-9) || s.Mass != 60.21 {
		t.Errorf("60E1 = %+v", s)
	}
	// 76.70 cm² × 7.85 g/cm³ = 60.21 kg/m (worked in the table).
	if m, err := s.MassOf(7850); err != nil || !near(float64(m), 60.21, 0.005) {
		t.Errorf("60E1 in steel of 7.85 g/cm³: %v, %v; printed 60.21 kg/m", m, err)
	}
	u, ok := rail.Named("UIC 54")
	if !ok || u.Height != 159 || u.Foot != 140 || u.Head != 70 || u.Web != 16 || u.Mass != 54.43 || u.Area != 0 {
		t.Errorf("UIC 54 = %+v", u)
	}
	for _, s := range append(rail.FullSize(), rail.ModelRails()...) {
		if err := s.Validate(); err != nil {
			t.Errorf("%s: %v", s.Name, err)
		}
	}
	rail.FullSize()[0].Height = 1
	if rail.FullSize()[0].Height != 172 {
		t.Error("the table is not copied out")
	}
}

// AREA 1939: lb/yd, height in inches, and at 1:22.5 in inches (seen).
func TestAREA(t *testing.T) {
	for _, tc := range []struct {
		lb             int
		height, scaled float64
	}{{90, 5.625, .250}, {100, 6, .267}, {110, 6.25, .278}, {130, 6.75, .300}, {140, 7, .311}} {
		s, ok := rail.Named(fmt.Sprintf("AREA %d lb/yd", tc.lb))
		m := s.AtScale(gauge.MustParseScale("1:22.5"))
		if !ok || !near(s.Height.Inches(), tc.height, 1e-12) || !near(m.Height.Inches(), tc.scaled, 0.0005) ||
			!near(float64(s.Mass/measure.PoundPerYard), float64(tc.lb), 1e-9) {
			t.Errorf("%d lb/yd: %+v, at 1:22.5 %v in; listed %+v", tc.lb, s, m.Height.Inches(), tc)
		}
	}
}

// Mills, Railway Construction, p. 112: 2 × 1760 yd × 45 lb/yd = 70 tons 14 cwt
// 1 qr of rail a mile.
func TestRailAMile(t *testing.T) {
	s := rail.Section{Name: "45 lb/yd", Height: 4 * measure.Inch, Mass: 45 * measure.PoundPerYard}
	got, err := s.PairMass(measure.Mile)
	const quarter = measure.Hundredweight / 4
	want := 70*measure.Ton + 14*measure.Hundredweight + quarter
	if err != nil || got < want || got >= want+quarter {
		t.Errorf("a mile of 45 lb/yd weighs %v tons, %v; published 70 tons 14 cwt 1 qr", float64(got/measure.Ton), err)
	}
	if !near(float64(got/measure.Pound), 2*1760*45, 1e-6) {
		t.Errorf("a mile of 45 lb/yd is %v lb, want 158400", float64(got/measure.Pound))
	}
}

func TestAtScale(t *testing.T) {
	full, _ := rail.Named("60E1")
	s := full.AtScale(gauge.MustParseScale("1:32"))
	if !near(float64(s.Height), 172/32., 1e-12) || !near(float64(s.Foot), 150/32., 1e-12) || !near(float64(s.Head), 72/32., 1e-12) ||
		!near(float64(s.Web), 16.5/32, 1e-12) || !near(float64(s.Area), 7670/1024., 1e-12) || !near(float64(s.Mass), 60.21/1024, 1e-12) {
		t.Errorf("60E1 at 1:32 = %+v", s)
	}
	if s.Name != "60E1 at 1:32" || s.Source.Basis != gauge.Worked {
		t.Errorf("60E1 at 1:32 is named %q, %v", s.Name, s.Source)
	}
	// The same stuff: scaled mass is scaled area in the same density.
	m, err := s.MassOf(7850)
	if err != nil || !near(float64(m/s.Mass), 1, 1e-4) {
		t.Errorf("mass from the scaled area %v, %v; scaled mass %v", m, err, s.Mass)
	}
	c, err := rail.NearestCode(s.Height)
	if err != nil || !near(c[0].Code(), 215, 1e-9) || !near(float64(c[0].Error), 215*0.0254-5.375, 1e-9) {
		t.Errorf("nearest code to %v is %+v, %v; want 215", s.Height, c[0], err)
	}
	for i := range c[1:] {
		if math.Abs(c[i+1].Off) < math.Abs(c[i].Off) {
			t.Errorf("codes are not nearest first at %d", i+1)
		}
	}
}

func TestModelRails(t *testing.T) {
	var names []string
	for _, s := range rail.ModelRails() {
		names = append(names, s.Name)
	}
	if got, want := strings.Join(names, ", "), "code 332, code 250, code 215, code 208, code 200, code 148, code 124, code 100"; got != want {
		t.Errorf("model rails are %s; want %s", got, want)
	}
}

func TestBounds(t *testing.T) {
	for code, ok := range map[float64]bool{10: true, 9.99: false, 2000: true, 2000.1: false} {
		if s, err := rail.FromCode(code); ok != (err == nil) || !ok && s != (rail.Section{}) {
			t.Errorf("FromCode(%v) = %v, %v; want taken %v", code, s, err, ok)
		}
	}
	for n, ok := range map[float64]bool{2: true, 1.99: false, 500: true, 500.1: false} {
		if s, err := rail.FromNEMProfile(n); ok != (err == nil) || !ok && s != (rail.Section{}) {
			t.Errorf("FromNEMProfile(%v) = %v, %v; want taken %v", n, s, err, ok)
		}
	}
	for g, ok := range map[measure.Length]bool{1: true, 0.99: false, 3000: true, 3000.1: false} {
		if c, err := rail.HeadCentres(g, 1); ok != (err == nil) || !ok && c != 0 {
			t.Errorf("HeadCentres(%v, 1) = %v, %v; want taken %v", g, c, err, ok)
		}
	}
	// A full block of its height and width is the most area that there can be,
	// and a web as thick as the head is the thickest.
	block := rail.Section{Height: 2, Foot: 3, Head: 1, Web: 1, Area: 6}
	if err := block.Validate(); err != nil {
		t.Error(err)
	}
	block.Area = 6.01
	if err := block.Validate(); err == nil || !strings.Contains(err.Error(), "height times width, 6 mm²") {
		t.Errorf("area above the block's: %v", err)
	}
}

func TestHeadCentres(t *testing.T) {
	if g, err := rail.HeadCentres(45, 2.5); err != nil || g != 47.5 {
		t.Errorf("HeadCentres(45, 2.5) = %v, %v; want 47.5", g, err)
	}
	s, _ := rail.FromCode(250)
	if g, err := s.HeadCentres(45); err != nil || !near(float64(g), 45+.112*25.4, 1e-12) {
		t.Errorf("code 250 on 45 mm: %v, %v", g, err)
	}
	n, _ := rail.FromNEMProfile(25)
	if _, err := n.HeadCentres(-1); !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), "head width") || !strings.Contains(err.Error(), "gauge") {
		t.Errorf("NEM profile on gauge -1: %v; want both faults", err)
	}
	if _, err := rail.HeadCentres(measure.Length(math.NaN()), 0); err == nil || strings.Count(err.Error(), "\n") != 1 {
		t.Errorf("HeadCentres(NaN, 0): %v; want two faults", err)
	}
}

func TestRefuses(t *testing.T) {
	nan := math.NaN()
	bad := rail.Section{Height: -1, Foot: measure.Length(nan), Head: 2, Web: 3, Area: -1, Mass: measure.LinearMass(nan)}
	err := bad.Validate()
	for _, field := range []string{"rail height", "foot width", "web thickness", "sectional area", "mass per length"} {
		if err == nil || !strings.Contains(err.Error(), "rail: "+field) {
			t.Errorf("Validate: %v; want a fault of the %s", err, field)
		}
	}
	if err := (rail.Section{Height: 2, Foot: 2, Head: 1, Area: 4.1}).Validate(); !errors.Is(err, measure.ErrInput) {
		t.Errorf("an area above height times width: %v", err)
	}
	good, _ := rail.FromCode(200)
	if _, err := good.MassOf(8500); err == nil || !strings.Contains(err.Error(), "sectional area") {
		t.Errorf("MassOf without an area: %v", err)
	}
	if _, err := good.PairMass(1000); err == nil || !strings.Contains(err.Error(), "mass per length") {
		t.Errorf("PairMass without a mass: %v", err)
	}
	if _, err := rail.NearestCode(0); !errors.Is(err, measure.ErrInput) {
		t.Errorf("NearestCode(0): %v", err)
	}
	if s, ok := rail.Named("code 83"); ok {
		t.Errorf("Named(code 83) = %v", s)
	}
}

func ExampleNearestCode() {
	full, _ := rail.Named("AREA 90 lb/yd")
	model := full.AtScale(gauge.MustParseScale("1:22.5"))
	codes, err := rail.NearestCode(model.Height)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range codes[:2] {
		fmt.Printf("%s: %+.1f %%\n", c.Name, 100*c.Off)
	}
	// Output:
	// code 250: +0.0 %
	// code 215: -14.0 %
}

func ExampleHeadCentres() {
	g, err := rail.HeadCentres(45*measure.Millimetre, 2.5*measure.Millimetre)
	fmt.Println(g.Millimetres(), err)
	// Output:
	// 47.5 <nil>
}
