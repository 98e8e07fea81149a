package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/gauge/rail"
)

// A site is a plan with its line, level and cant worked out: what every
// chapter starts from.
type site struct {
	plan        *Plan
	units       Units
	line        *curve.Alignment
	level       profile.Level
	cant        profile.Cant
	railCentres measure.Length // of the rail heads
	bends       []profile.Bend
	stock       []clearance.Vehicle
	structures  []clearance.Structure
	beside      []mass // what of the structures the plan shows
	loops       []loop
	tooSharp    []string            // what the limits' chapter says of the loops
	envelope    *clearance.Envelope // of the stock on the line, set by the clearance chapter
	demands     []order.Demand      // gathered by the chapters for the order list
	supplies    []order.Supply
	partial     bool        // a chapter failed, and so its demands are not among them
	joints      joints.Plan // of the rails
	heat        joints.Heat
}

// makeBook reads a plan and works out its book.
func makeBook(ctx context.Context, data []byte) (*Book, error) {
	plan := &Plan{}
	if err := decodePlan(data, plan); err != nil {
		return nil, Units{Inches: plan.Inches}.fault(err)
	}
	s := &site{plan: plan, units: Units{Inches: plan.Inches}}
	book, err := s.book(ctx)
	return book, s.units.fault(err)
}

// book lays the line and works out its chapters.
func (s *site) book(ctx context.Context) (*Book, error) {
	if err := s.lay(); err != nil {
		return nil, err
	}
	book := &Book{Title: s.plan.Name, Units: s.units}
	// The one chapter that takes long and needs no other is worked out beside
	// them, from a copy: the others add to the site.
	var limits Chapter
	var fault error
	done := make(chan struct{})
	alone := *s
	alone.loops = slices.Clone(s.loops)
	go func() {
		limits, fault = alone.limitChapter(ctx)
		close(done)
	}()
	place := 0
	var faults []error
	for _, chapter := range []func(context.Context) (Chapter, error){
		s.gaugeChapter,
		s.lineChapter,
		s.clearanceChapter,
		s.openingChapter,
		nil, // the limits' place
		s.railChapter,
		s.gapChapter,
		s.movementChapter,
		s.bedChapter,
		s.trackbedChapter,
		s.orderChapter,
	} {
		if chapter == nil {
			place = len(book.Chapters)
			continue
		}
		c, err := chapter(ctx)
		faults = append(faults, err)
		s.partial = s.partial || err != nil
		c.Tables = slices.DeleteFunc(c.Tables, func(t Table) bool { return len(t.Rows) == 0 })
		if c.Title != "" {
			book.Chapters = append(book.Chapters, c)
		}
	}
	<-done
	if errors.Join(faults...) == nil { // else it only says the same again
		faults = append(faults, fault)
	}
	if limits.Title != "" {
		book.Chapters = slices.Insert(book.Chapters, place, limits)
	}
	book.Chapters = append(book.Chapters, cautions())
	return book, errors.Join(faults...)
}

// lay makes the line, and all that lies on it and beside it.
func (s *site) lay() error {
	_, err := s.plan.stock() // needs no line, and so tells of its faults beside the line's
	if err := errors.Join(s.plan.check(), s.layLine(), err); err != nil {
		return err
	}
	s.bends = profile.Bends(s.line)
	s.stock, _ = s.plan.stock()
	var faults []error
	if s.level, err = s.layLevel(); err != nil {
		faults = append(faults, err)
	}
	if s.cant, err = s.layCant(); err != nil {
		faults = append(faults, err)
	}
	faults = append(faults, s.setBeside(), s.checkPoints(), s.checkTrackbed())
	if err := errors.Join(faults...); err != nil {
		return err
	}
	return s.planJoints()
}

// mostLine is the longest line that a book is made of: some hundred gardens.
const mostLine = measure.Kilometre

// layLine makes the line in plan.
func (s *site) layLine() error {
	var faults []error
	var elements []curve.Element
	for i, e := range s.plan.Line.Elements {
		es, err := e.elements()
		if err != nil {
			faults = append(faults, fmt.Errorf("line.elements[%d]: %w", i+1, err))
		}
		elements = append(elements, es...)
	}
	section, err := s.plan.Rail.section()
	if err == nil {
		s.railCentres, err = section.HeadCentres(s.plan.Gauge)
	}
	if err != nil {
		faults = append(faults, fmt.Errorf("rail: %w", err))
	}
	if len(faults) > 0 {
		return errors.Join(faults...)
	}
	l := s.plan.Line
	start := curve.Pose{Point: r2.Vec{X: l.East.Millimetres(), Y: l.North.Millimetres()}, Heading: l.Heading}
	if l.Circuit {
		within := l.Within
		if within == 0 {
			within = measure.Millimetre
		}
		var long measure.Length
		for _, e := range elements {
			long += e.Length()
		}
		// More is not spread by package curve.
		if most := long / 1000; within > most {
			return fmt.Errorf("line.closes_within: %v: what a circuit misses its start by is spread over its length, and that may be a thousandth of it at most, %.3g mm", within, most.Millimetres())
		}
		s.line, err = curve.NewClosed(start, within, measure.Degree/10, elements...)
	} else {
		s.line, err = curve.New(start, elements...)
	}
	if err != nil && strings.Contains(err.Error(), "end of the circuit") {
		return fmt.Errorf("line.closes_within: %w", err)
	} else if err != nil {
		return fmt.Errorf("line: %w", err)
	}
	if long := s.line.Length(); long > mostLine {
		return fmt.Errorf("line.elements: together they are %v long, %v more than the %v of line that a book is made of", long, long-mostLine, mostLine)
	}
	return nil
}

// checkPoints holds the points to the line and to one another.
func (s *site) checkPoints() error {
	var faults []error
	for i, x := range s.plan.Points {
		if off := onLine(s.line, &x.From, &x.To, "from", "to"); len(off) > 0 {
			faults = append(faults, fmt.Errorf("points[%d]: %s: %w", i+1, x.Name, errors.Join(off...)))
			continue
		}
		for j, y := range s.plan.Points[:i] {
			if s.share(x, y) {
				faults = append(faults, fmt.Errorf("points[%d]: %s: from %v to %v runs into points[%d], from %v to %v", i+1, x.Name, x.From, x.To, j+1, y.From, y.To))
			}
		}
	}
	return errors.Join(faults...)
}

// checkTrackbed reports what of the trackbed lies at one place: two of a kind,
// or a deck on its posts over anything else. Concrete may lie on a trench.
func (s *site) checkTrackbed() error {
	if s.plan.Trackbed == nil {
		return nil
	}
	type piece struct {
		key, kind string
		StretchPlan
	}
	var pieces []piece
	add := func(kind string, i int, x StretchPlan) {
		pieces = append(pieces, piece{fmt.Sprintf("trackbed.%s[%d]", kind, i+1), kind, x})
	}
	for i, x := range s.plan.Trackbed.Trenches {
		add("trenches", i, StretchPlan{x.Name, x.From, x.To})
	}
	for i, x := range s.plan.Trackbed.Concrete {
		add("concrete", i, StretchPlan{x.Name, x.From, x.To})
	}
	for i, x := range s.plan.Trackbed.Decks {
		add("decks", i, StretchPlan{x.Name, x.From, x.To})
	}
	var faults []error
	for i, x := range pieces {
		for _, y := range pieces[:i] {
			if (x.kind == y.kind || x.kind == "decks") && s.share(x.StretchPlan, y.StretchPlan) {
				faults = append(faults, fmt.Errorf("%s: %s: from %v to %v runs into %s, %s, from %v to %v: let the one end where the other begins", x.key, x.Name, x.From, x.To, y.key, y.Name, y.From, y.To))
			}
		}
	}
	return errors.Join(faults...)
}

// share reports whether two stretches have some of the line in common: then one
// of them begins in the other.
func (s *site) share(x, y StretchPlan) bool { return s.inside(x.From, y) || s.inside(y.From, x) }

// inside reports whether a stretch holds a chainage, its own end left out.
func (s *site) inside(at measure.Length, x StretchPlan) bool {
	if s.line.Closed() {
		return s.line.Span(x.From, at) < s.line.Span(x.From, x.To)
	}
	return at >= x.From && at < x.To
}

// setBeside sets what stands and lies beside the line.
func (s *site) setBeside() error {
	var faults []error
	for i, p := range s.plan.Structures {
		x, err := p.structure(s.line)
		if err == nil {
			var m []mass
			m, err = s.masses(x, i+1)
			s.beside = append(s.beside, m...)
		}
		if err != nil {
			faults = append(faults, fmt.Errorf("structures[%d]: %s: %w", i+1, p.Name, err))
		}
		s.structures = append(s.structures, x)
	}
	for i, p := range s.plan.Loops {
		if off := onLine(s.line, &p.From, &p.To, "from", "to"); len(off) > 0 {
			faults = append(faults, fmt.Errorf("loops[%d]: %s: %w", i+1, p.Name, errors.Join(off...)))
			continue
		}
		l, err := p.lay(s.line)
		if err != nil {
			faults = append(faults, fmt.Errorf("loops[%d]: %s: %w", i+1, p.Name, err))
			continue
		}
		for j, q := range s.plan.Loops[:i] {
			if at, apart, ok := s.tooNear(p, q); ok {
				faults = append(faults, fmt.Errorf("loops[%d]: %s: at chainage %.0f mm of the main line it lies %.0f mm from the middle of loops[%d], %s, and a sleeper is %v long: change the side or the spacing of one, or let it begin where the other is back", i+1, p.Name, at.Millimetres(), apart.Millimetres(), j+1, q.Name, s.plan.Rail.Sleeper.Length))
			}
		}
		s.loops = append(s.loops, l)
	}
	return errors.Join(faults...)
}

// tooNear reports whether and where two loops lie over one another: nearer,
// square to the main line, than a sleeper is long.
func (s *site) tooNear(p, q LoopPlan) (at, apart measure.Length, near bool) {
	if p.Side != q.Side {
		return 0, 0, false
	}
	apart = s.plan.Rail.Sleeper.Length
	long, other := s.line.Span(p.From, p.To), s.line.Span(q.From, q.To)
	look := func(x measure.Length) { // so far into the first loop
		c := p.From + x
		if into := s.line.Span(q.From, c); s.inside(c, StretchPlan{From: q.From, To: q.To}) {
			d := p.offset(x, long) - q.offset(into, other)
			if d = max(d, -d); d < apart {
				at, apart, near = onLap(s.line, c), d, true
			}
		}
	}
	const places = 2000
	for i := range places {
		look(long * measure.Length(i) / places)
	}
	if s.inside(q.From, StretchPlan{From: p.From, To: p.To}) {
		look(s.line.Span(p.From, q.From))
	}
	return at, apart, near
}

func (s *site) layLevel() (profile.Level, error) {
	var points []profile.Point
	for i, p := range s.plan.Levels {
		if p.At > s.line.Length() {
			return profile.Level{}, fmt.Errorf("levels[%d].at: %v is past the end of the line at %v", i+1, p.At, s.line.Length())
		}
		points = append(points, profile.Point{Chainage: p.At, Level: p.Level, Curve: p.Vertical})
	}
	if len(points) == 0 {
		return profile.Level{}, nil
	}
	level, err := profile.NewLevel(points...)
	if s.line.Closed() {
		level, err = profile.NewClosedLevel(s.line.Length(), measure.Millimetre, points...)
	}
	if err != nil {
		err = fmt.Errorf("levels: %w", err)
	}
	return level, err
}

// layCant gives each bend of the line the largest cant that the plan states
// for an element within it.
func (s *site) layCant() (profile.Cant, error) {
	cants := make([]measure.Length, len(s.bends))
	at, canted := measure.Length(0), false
	var of []int // the plan's element that each of the line's is of
	for n, e := range s.plan.Line.Elements {
		es, err := e.elements()
		if err != nil {
			return profile.Cant{}, err
		}
		var length measure.Length
		for _, x := range es {
			length += x.Length()
			of = append(of, n)
		}
		if e.Cant != 0 {
			canted = true
			for i, b := range s.bends {
				if s.line.Span(b.From, at+length/2) <= s.line.Span(b.From, b.To) && (s.line.Closed() || at+length/2 >= b.From) {
					cants[i] = max(cants[i], e.Cant)
				}
			}
		}
		at += length
	}
	if !canted {
		return profile.Cant{}, nil
	}
	cant, err := profile.NewBendCant(s.line, profile.InnerRail, cants...)
	if err != nil {
		return cant, s.cantFault(err, of)
	}
	return cant, nil
}

// cantFault says of a cant that has nothing to rise on which bend of the plan
// wants an easement.
func (s *site) cantFault(err error, of []int) error {
	var faults []error
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		for _, one := range many.Unwrap() {
			faults = append(faults, s.cantFault(one, of))
		}
		return errors.Join(faults...)
	}
	var fault *measure.FieldError
	n := 0
	if !errors.As(err, &fault) {
		return fmt.Errorf("cant: %w", err)
	} else if got, _ := fmt.Sscanf(fault.Field, "cant at element %d,", &n); got != 1 || n < 1 || n > len(of) {
		return fmt.Errorf("cant: %w", err)
	}
	i := of[n-1]
	if e := s.plan.Line.Elements[i]; e.Bend.Hand == 0 || e.Ease != 0 || e.EaseIn != 0 {
		i = of[(n-2+len(of))%len(of)] // it is the end of the bend before that has none
	}
	return fmt.Errorf("line.elements[%d].ease: the cant changes at once at chainage %v: it needs an easement there to rise on", i+1, s.line.Boundaries()[n-1])
}

// elements returns the elements of the line that a plan's element stands for.
func (e ElementPlan) elements() ([]curve.Element, error) {
	var forms []string
	for _, f := range []struct {
		form  string
		given bool
	}{{"straight", e.Straight != 0}, {"bend", e.Bend.Hand != 0}, {"easement", e.Easement != 0}} {
		if f.given {
			forms = append(forms, f.form)
		}
	}
	if len(forms) > 1 {
		return nil, errors.New("must have only one of straight, bend or easement, not " + list(forms))
	}
	if len(forms) == 0 {
		return nil, errors.New("must have one of straight, bend or easement")
	}
	form := forms[0]
	var faults []error
	for _, k := range []struct {
		key, forms string
		given      bool
	}{
		{"radius", "bend", e.Radius != 0},
		{"turn", "bend", e.Turn != 0},
		{"ease", "bend", e.Ease != 0},
		{"ease_in", "bend", e.EaseIn != 0},
		{"ease_out", "bend", e.EaseOut != 0},
		{"cant", "bend", e.Cant != 0},
		{"shape", "bend easement", e.Shape.Shape != 0},
		{"from_radius", "easement", e.From != 0},
		{"to_radius", "easement", e.To != 0},
		{"hand", "easement", e.Hand.Hand != 0},
	} {
		switch belongs := strings.Contains(k.forms, form); {
		case k.given && !belongs:
			faults = append(faults, fmt.Errorf("%s: not for a %s", k.key, form))
		case !k.given && form == "bend" && (k.key == "radius" || k.key == "turn"):
			faults = append(faults, fmt.Errorf("%s: missing for a bend", k.key))
		}
	}
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	one := func(x curve.Element, err error) ([]curve.Element, error) { return []curve.Element{x}, err }
	switch form {
	case "straight":
		return one(curve.NewStraight(e.Straight))
	case "easement":
		from, err1 := curvature("from_radius", e.From, e.Hand.Hand)
		to, err2 := curvature("to_radius", e.To, e.Hand.Hand)
		if err := errors.Join(err1, err2); err != nil {
			return nil, err
		}
		return one(curve.NewEasement(e.shape(), e.Easement, from, to))
	}
	b := curve.Bend{Radius: e.Radius, Turn: e.Turn, Hand: e.Bend.Hand, EaseIn: e.Ease, EaseOut: e.Ease, Shape: e.shape()}
	if e.EaseIn != 0 {
		b.EaseIn = e.EaseIn
	}
	if e.EaseOut != 0 {
		b.EaseOut = e.EaseOut
	}
	return b.Elements()
}

func (e ElementPlan) shape() curve.Shape {
	if e.Shape.Shape == 0 {
		return curve.Clothoid
	}
	return e.Shape.Shape
}

// curvature returns the curvature of a radius, none given being straight.
func curvature(field string, radius measure.Length, hand curve.Hand) (measure.Curvature, error) {
	if radius == 0 {
		return 0, nil
	}
	k, err := hand.Curvature(radius)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", field, err)
	}
	return k, nil
}

// section returns the section of the plan's rail.
func (r RailPlan) section() (rail.Section, error) {
	section, err := rail.FromCode(r.Code)
	if err == nil && r.Head != 0 {
		section.Head = r.Head
		err = section.Validate()
	}
	return section, err
}
