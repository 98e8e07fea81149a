package main

import (
	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
)

// A Plan is what a plan file holds. The tags are the keys and their help.
type Plan struct {
	Name       string          `key:"name" help:"!of the line, for the title page"`
	Gauge      measure.Length  `key:"gauge" help:"!of the model track, as \"45 mm\"" is:"positive"`
	Scale      gauge.Scale     `key:"scale" help:"!as \"1:20.3\" or \"16 mm/ft\""`
	Prototype  measure.Length  `key:"prototype_gauge" help:"the full-size gauge that is modelled, as \"2 ft\"" is:"positive"`
	Inches     bool            `key:"inches" help:"true: the book gives inches (to 1/64) and °F"`
	Rail       RailPlan        `key:"rail" help:"!what the track is laid with"`
	Wheels     *WheelsPlan     `key:"wheels" help:"measured or stated track and wheels, to be audited"`
	Line       LinePlan        `key:"line" help:"!the main line in plan"`
	Points     []StretchPlan   `key:"points" help:"turnouts, and whatever else brings its own rail"`
	Limits     LimitsPlan      `key:"limits" help:"your own standard for the line"`
	Levels     []LevelPlan     `key:"levels" help:"points of the rail level, in order of chainage; outside them its first and last gradients go on" most:"1000"`
	Vehicles   []VehiclePlan   `key:"vehicles" help:"!the stock that is to run" most:"30"`
	Margin     measure.Length  `key:"margin" help:"!running margin: a gap below it is tight, below 0 foul"`
	Allowances AllowancesPlan  `key:"allowances" help:"what is added to the reach of every vehicle, 0 where not given"`
	Structures []StructurePlan `key:"structures" help:"what the line passes" most:"200"`
	Loops      []LoopPlan      `key:"loops" help:"passing loops, each beside a straight of the main line; the book gives their gap, fouling points and rails, not what stands beside them nor their ballast" most:"10"`
	Climate    ClimatePlan     `key:"climate" help:"!the temperatures that rail and base will meet"`
	Bed        BedPlan         `key:"bed" help:"!the ballast"`
	Trackbed   *TrackbedPlan   `key:"trackbed" help:"what lies under the ballast or in its place"`
	Shop       []ShopPlan      `key:"shop" help:"prices of what is bought besides the ballast"`
}

// A RailPlan is the rail and what goes with it.
type RailPlan struct {
	Code      float64                       `key:"code" help:"!of the rail: its height in thousandths of an inch, as 200"`
	Head      measure.Length                `key:"head" help:"width of the rail head as measured; that of the code if not given" is:"positive"`
	Material  string                        `key:"material" help:"!brass, nickel silver, steel, stainless steel, aluminium or bronze"`
	Bar       measure.Length                `key:"bar" help:"!length of the bars as bought" is:"positive"`
	Panel     measure.Length                `key:"panel" help:"length of rail between joints, the bar if not given" is:"positive"`
	Kerf      measure.Length                `key:"kerf" help:"rail lost at each cut, at most 10 mm; 0 if not given"`
	Staggered bool                          `key:"staggered" help:"true: the joints of one rail lie midway between those of the other"`
	Joiner    measure.Length                `key:"joiner" help:"!length of a joiner (fishplate)" is:"positive"`
	Held      measure.Length                `key:"held" help:"!of the joiner that must stay on each rail"`
	Feeler    measure.Length                `key:"feeler" help:"thickness of the feeler that you have, for the hours in which it is right" is:"positive"`
	LeastGap  measure.Length                `key:"least_gap" help:"to be left at the tight end; 0 if not given"`
	WidestGap measure.Length                `key:"widest_gap" help:"!that the wheels may cross" is:"positive"`
	Base      string                        `key:"base" help:"!what the sleepers lie on: ABS, acetal, rigid PVC, softwood along the grain, softwood across the grain, concrete or felt on board"`
	Sleeper   SleeperPlan                   `key:"sleeper" help:"!the sleepers"`
	Laying    *measure.Temperature          `key:"laying" help:"!the rail's temperature on the day"`
	BaseBelow measure.TemperatureDifference `key:"base_cooler_by" help:"how much cooler the base is than the rail on the day"`
}

// A SleeperPlan is a sleeper and the spacing.
type SleeperPlan struct {
	Length     measure.Length `key:"length" help:"!across the track" is:"positive"`
	Width      measure.Length `key:"width" help:"!along the track" is:"positive"`
	Height     measure.Length `key:"height" help:"!thickness" is:"positive"`
	Pitch      measure.Length `key:"pitch" help:"!from centre to centre" is:"positive"`
	JointPitch measure.Length `key:"joint_pitch" help:"of the two on either side of a joint; as pitch if not given" is:"positive"`
	Fixings    int            `key:"fixings" help:"screws or spikes to a sleeper; 4 if not given"`
}

// A LinePlan is a line in plan.
type LinePlan struct {
	East     measure.Length `key:"east" help:"of the start" is:"signed"`
	North    measure.Length `key:"north" help:"of the start" is:"signed"`
	Heading  measure.Angle  `key:"heading" help:"of the start, anticlockwise from east"`
	Circuit  bool           `key:"circuit" help:"true: the line ends where it starts"`
	Within   measure.Length `key:"closes_within" help:"how far a circuit may miss its start; 1 mm if not given, at most a thousandth of the line" is:"positive"`
	Elements []ElementPlan  `key:"elements" help:"!in running order, together at most 1 km; each has one of straight, bend or easement" most:"10000"`
}

// An ElementPlan is a straight, a bend or a lone easement.
type ElementPlan struct {
	Straight measure.Length `key:"straight" help:"its length" is:"positive"`
	Bend     Side           `key:"bend" help:"its hand, left or right"`
	Radius   measure.Length `key:"radius" help:"of the bend, to the centreline" is:"positive"`
	Turn     measure.Angle  `key:"turn" help:"of the whole bend, easements included"`
	Ease     measure.Length `key:"ease" help:"length of the easement at each end of the bend; none if not given"`
	EaseIn   measure.Length `key:"ease_in" help:"of the first only"`
	EaseOut  measure.Length `key:"ease_out" help:"of the last only"`
	Shape    EaseShape      `key:"shape" help:"of the easements: clothoid (if not given), bloss, cosine, sine or helmert"`
	Cant     measure.Length `key:"cant" help:"of the bend at its sharpest; the inner rail stays level"`
	Easement measure.Length `key:"easement" help:"length of a lone easement, as between the arcs of a compound curve" is:"positive"`
	From     measure.Length `key:"from_radius" help:"of the lone easement's start; straight if not given"`
	To       measure.Length `key:"to_radius" help:"of the lone easement's end; straight if not given"`
	Hand     Side           `key:"hand" help:"of the lone easement"`
}

// A Side is left or right, in the running direction.
type Side struct{ curve.Hand }

// UnmarshalText reads "left" or "right".
func (s *Side) UnmarshalText(text []byte) error {
	switch string(text) {
	case "left":
		s.Hand = curve.Left
	case "right":
		s.Hand = curve.Right
	default:
		return badWord(text, "left", "right")
	}
	return nil
}

// An EaseShape is the shape of an easement.
type EaseShape struct{ curve.Shape }

// UnmarshalText reads the name of a shape.
func (e *EaseShape) UnmarshalText(text []byte) error {
	var names []string
	for s := curve.Clothoid; s.Easement(); s++ {
		if s.String() == string(text) {
			e.Shape = s
			return nil
		}
		names = append(names, s.String())
	}
	return badWord(text, names...)
}

// LimitsPlan is the builder's own standard.
type LimitsPlan struct {
	Radius   measure.Length   `key:"radius" help:"smallest radius"`
	Gradient measure.Gradient `key:"gradient" help:"steepest gradient"`
	Straight measure.Length   `key:"straight_between_reverses" help:"shortest straight between curves of opposite hand without easements"`
	Ease     measure.Length   `key:"ease" help:"shortest easement"`
	Plain    measure.Length   `key:"plain_above" help:"radius from which an arc may follow a straight without an easement"`
}

// A LevelPlan is a point of the rail level.
type LevelPlan struct {
	At       measure.Length `key:"at" help:"!chainage"`
	Level    measure.Length `key:"level" help:"!of the rail, over your datum" is:"signed"`
	Vertical measure.Length `key:"vertical_curve" help:"length of the vertical curve here"`
}

// A VehiclePlan is a vehicle on bogies or on a rigid wheelbase.
type VehiclePlan struct {
	Name      string         `key:"name" help:"!as it is to be called in the book"`
	Length    measure.Length `key:"length" help:"!of the body, over its ends without couplings" is:"positive"`
	Width     measure.Length `key:"width" help:"!of the body at its widest, handrails and steps included" is:"positive"`
	Bottom    measure.Length `key:"bottom" help:"of the body above the rails"`
	Height    measure.Length `key:"height" help:"!of the top above the rails" is:"positive"`
	Wheelbase measure.Length `key:"wheelbase" help:"of a rigid vehicle, its outer axles" is:"positive"`
	Inner     []AxlePlan     `key:"inner_axles" help:"of a rigid vehicle, those between its outer ones" most:"20"`
	Centres   measure.Length `key:"bogie_centres" help:"of a bogie vehicle" is:"positive"`
	Bogie     measure.Length `key:"bogie_wheelbase" help:"of each bogie"`
	EndWidth  measure.Length `key:"end_width" help:"of a body whose ends are tapered in plan" is:"positive"`
	Taper     measure.Length `key:"taper" help:"length of each tapered end" is:"positive"`
	Bands     []BandPlan     `key:"bands" help:"parts of other width higher or lower, as a footplate, a cab or a chimney"`
	Coupling  *CouplingPlan  `key:"coupling" help:"asked about where two vehicles that follow one another in this list have one"`
}

// An AxlePlan is an axle between the outer ones.
type AxlePlan struct {
	Ahead measure.Length `key:"ahead" help:"!how far it is ahead of midway between the outer ones" is:"signed"`
	Play  measure.Length `key:"play" help:"sideways in its boxes, each way from the middle"`
}

// A CouplingPlan is what couples a vehicle, alike at both ends.
type CouplingPlan struct {
	Hinge   measure.Length `key:"hinge" help:"of what the coupler swings about, inside the end of the body"`
	Length  measure.Length `key:"length" help:"!from there to where it meets the other coupler" is:"positive"`
	Swing   measure.Angle  `key:"swing" help:"that it has, each way from the middle; not limited if not given"`
	Buffers *BuffersPlan   `key:"buffers" help:"if it has any"`
}

// A BuffersPlan is the buffers of one end.
type BuffersPlan struct {
	Length  measure.Length `key:"length" help:"!of the faces beyond the end of the body"`
	Centres measure.Length `key:"centres" help:"from head to head; one in the middle if not given"`
	Width   measure.Length `key:"width" help:"!of a head" is:"positive"`
	Overlap measure.Length `key:"overlap" help:"that is to remain of two heads"`
}

// A BandPlan is a part of a vehicle between two heights.
type BandPlan struct {
	Name   string         `key:"name" help:"!as footplate, cylinders, roof"`
	Bottom measure.Length `key:"bottom" help:"!above the rails"`
	Top    measure.Length `key:"top" help:"!above the rails"`
	Length measure.Length `key:"length" help:"!of the part" is:"positive"`
	Width  measure.Length `key:"width" help:"!of the part" is:"positive"`
	Ahead  measure.Length `key:"ahead" help:"how far its middle is ahead of the middle of the body" is:"signed"`
}

// A ClimatePlan is the range of temperatures.
type ClimatePlan struct {
	RailLow  *measure.Temperature `key:"rail_low" help:"!coldest that the rail will be"`
	RailHigh *measure.Temperature `key:"rail_high" help:"!hottest that the rail will be, in sun"`
	BaseLow  *measure.Temperature `key:"base_low" help:"!coldest that the base will be"`
	BaseHigh *measure.Temperature `key:"base_high" help:"!hottest that the base will be"`
}

// A LoopPlan is a passing loop: two equal reverse curves lead out to the
// spacing and back.
type LoopPlan struct {
	Name    string         `key:"name" help:"!as it is to be called in the book"`
	From    measure.Length `key:"from" help:"!chainage at which it leaves the main line"`
	To      measure.Length `key:"to" help:"!chainage at which it is back"`
	Side    Side           `key:"side" help:"!left or right of the main line"`
	Spacing measure.Length `key:"spacing" help:"!of the tracks, from centre to centre" is:"positive"`
	Radius  measure.Length `key:"radius" help:"!of its reverse curves" is:"positive"`
}

// A BedPlan is the ballast and what it is made of.
type BedPlan struct {
	Depth     measure.Length `key:"depth" help:"!of ballast under the sleepers"`
	Shoulder  measure.Length `key:"shoulder" help:"!from the sleeper's end to the edge of the top"`
	Slope     float64        `key:"slope" help:"of the sides, horizontal over vertical; 1.25 if not given"`
	Crib      measure.Length `key:"crib" help:"height of ballast between the sleepers; flush with their tops if not given"`
	Formation measure.Length `key:"formation" help:"width of the prepared ground; not checked if not given"`
	Ranges    []RangePlan    `key:"ranges" help:"stretches of line with their own section; the whole line in one if not given"`
	Gaps      []StretchPlan  `key:"gaps" help:"left without ballast, as bridges; the points are left out too"`
	Loose     []StretchPlan  `key:"loose" help:"to be left loose in a bonded bed: points, lift-outs, expansion gaps"`
	Grit      GritPlan       `key:"grit" help:"!what the bed is made of"`
	Bond      *BondPlan      `key:"bond" help:"if the ballast is to be bonded"`
}

// A TrackbedPlan is what is dug, poured and built for the line to lie on.
type TrackbedPlan struct {
	Ground   []GroundPlan   `key:"ground" help:"points of the ground's level under the line, needed for decks" most:"1000"`
	Trenches []TrenchPlan   `key:"trenches" help:"dug along the line and filled in layers"`
	Concrete []ConcretePlan `key:"concrete" help:"strips poured under the line"`
	Decks    []DeckPlan     `key:"decks" help:"boards on bearers and posts"`
	Waste    float64        `key:"waste" help:"part of the concrete added for what is lost, as 0.05; 0 if not given"`
}

// A GroundPlan is a point of the ground's level.
type GroundPlan struct {
	At    measure.Length `key:"at" help:"!chainage"`
	Level measure.Length `key:"level" help:"!of the ground, over the datum of the rail levels" is:"signed"`
}

// A TrenchPlan is a stretch of trench.
type TrenchPlan struct {
	Name   string         `key:"name" help:"!as it is to be called in the book"`
	From   measure.Length `key:"from" help:"!chainage"`
	To     measure.Length `key:"to" help:"!chainage"`
	Width  measure.Length `key:"width" help:"!at the bottom" is:"positive"`
	Depth  measure.Length `key:"depth" help:"!below the ground" is:"positive"`
	Slope  float64        `key:"slope" help:"of the sides, horizontal over vertical; upright if not given"`
	Layers []LayerPlan    `key:"layers" help:"what it is filled with, from the bottom up"`
}

// A LayerPlan is one filling of a trench.
type LayerPlan struct {
	Name      string          `key:"name" help:"!as it is to be called in the book and in the order list; the grit's name if it is that"`
	Thickness measure.Length  `key:"thickness" help:"!compacted" is:"positive"`
	Compacted measure.Density `key:"compacted_density" help:"in place, as \"1700 kg/m³\"; ordered by litres in place if not given"`
}

// A ConcretePlan is a strip of concrete, by loose parts.
type ConcretePlan struct {
	Name      string           `key:"name" help:"!as it is to be called in the book"`
	From      measure.Length   `key:"from" help:"!chainage"`
	To        measure.Length   `key:"to" help:"!chainage"`
	Width     measure.Length   `key:"width" help:"!across the line" is:"positive"`
	Thickness measure.Length   `key:"thickness" help:"!at its thin edge" is:"positive"`
	Fall      measure.Gradient `key:"fall" help:"of its top across the line, to the right; level if not given"`
	Cement    float64          `key:"cement" help:"!parts by volume"`
	Sand      float64          `key:"sand" help:"!parts by volume"`
	Stone     float64          `key:"stone" help:"parts by volume; none in mortar"`
}

// A DeckPlan is a stretch of line on boards, which lie on bearers from post to
// post.
type DeckPlan struct {
	Name    string           `key:"name" help:"!as it is to be called in the book"`
	From    measure.Length   `key:"from" help:"!chainage"`
	To      measure.Length   `key:"to" help:"!chainage"`
	Width   measure.Length   `key:"width" help:"!of the boards" is:"positive"`
	Margin  measure.Length   `key:"margin" help:"from a sleeper's end to the edge of a board"`
	Gap     measure.Length   `key:"gap" help:"between two boards"`
	Kerf    measure.Length   `key:"kerf" help:"wood lost at each cut"`
	Plank   measure.Length   `key:"plank" help:"!length of the planks as bought" is:"positive"`
	Spacing measure.Length   `key:"post_spacing" help:"!of the posts along the line, at most" is:"positive"`
	Below   measure.Length   `key:"below" help:"!top of the posts below the rail level"`
	Embed   measure.Length   `key:"embed" help:"!least depth of the posts in the ground" is:"positive"`
	Frost   measure.Length   `key:"frost" help:"depth to which your ground freezes; not asked for if not given"`
	Posts   []measure.Length `key:"posts" help:"lengths in which posts are sold; cut to measure if not given"`
}

// A RangePlan is a stretch of bed; what it does not state is the bed's.
type RangePlan struct {
	Name     string         `key:"name" help:"!as it is to be called in the book"`
	From     measure.Length `key:"from" help:"!chainage"`
	To       measure.Length `key:"to" help:"!chainage"`
	Depth    measure.Length `key:"depth" help:"of ballast under the sleepers" is:"positive"`
	Shoulder measure.Length `key:"shoulder" help:"from the sleeper's end to the edge of the top" is:"positive"`
	TaperTo  measure.Length `key:"taper_to_depth" help:"depth at its end, if that differs" is:"positive"`
}

// A StretchPlan is a named piece of the line.
type StretchPlan struct {
	Name string         `key:"name" help:"!as it is to be called in the book"`
	From measure.Length `key:"from" help:"!chainage"`
	To   measure.Length `key:"to" help:"!chainage"`
}

// A GritPlan is a ballast as bought. Two of loose density, compacted density
// and bulking are needed.
type GritPlan struct {
	Name      string          `key:"name" help:"!as it is to be called in the book"`
	Small     measure.Length  `key:"small" help:"!size of its smallest stones"`
	Large     measure.Length  `key:"large" help:"!size of its largest stones"`
	Loose     measure.Density `key:"loose_density" help:"as it falls from the bag, as \"1500 kg/m³\"; two are needed of this, compacted_density and bulking"`
	Compacted measure.Density `key:"compacted_density" help:"in place"`
	Bulking   float64         `key:"bulking" help:"loose volume over compacted volume, as 1.12"`
	Moisture  float64         `key:"moisture" help:"mass of water over dry mass; 0 if not given"`
	Waste     float64         `key:"waste" help:"part added for what is lost, as 0.05; 0 if not given"`
	Bags      []BagPlan       `key:"bags" help:"!sizes in which it is sold"`
}

// A BagPlan is a buying unit.
type BagPlan struct {
	Name   string         `key:"name" help:"!as \"20 kg bag\""`
	Mass   measure.Mass   `key:"mass" help:"of the bag as delivered"`
	Volume measure.Volume `key:"volume" help:"of the bag, instead of its mass"`
	Price  PricePlan      `key:"price" help:"!of one"`
}

// A PricePlan is an amount in whole minor units of a currency.
type PricePlan struct {
	Minor    int    `key:"minor" help:"!whole number of pence, cents or what the minor unit is"`
	Currency string `key:"currency" help:"!its text, as \"EUR\""`
	Places   int    `key:"places" help:"decimal places of the minor unit; 0 if not given"`
}

// A BondPlan is bonded ballast, by loose parts.
type BondPlan struct {
	Grit   float64 `key:"grit" help:"!parts by volume"`
	Cement float64 `key:"cement" help:"parts by volume"`
	Resin  float64 `key:"resin" help:"parts by volume, instead of cement"`
}

// An AllowancesPlan is what is added to the reach of every vehicle.
type AllowancesPlan struct {
	Play       measure.Length `key:"play" help:"sideways freedom of a wheelset in the track, each way from the middle; at most a quarter of the gauge"`
	Laying     measure.Length `key:"laying" help:"how far the track may lie from its line, each way"`
	Heat       measure.Length `key:"heat" help:"sideways movement of the track with heat"`
	Springs    measure.Angle  `key:"springs" help:"roll of a body on its springs, each way"`
	RollCentre measure.Length `key:"roll_centre" help:"height above the rails that it rolls about"`
}

// A WheelsPlan is the track where wheels meet it, and the wheels; what is not
// known is left out.
type WheelsPlan struct {
	Gauge          LimitsOf `key:"gauge" help:"of the track as laid"`
	CheckGauge     LimitsOf `key:"check_gauge" help:"from the face of the check rail to the running edge of the crossing nose"`
	CheckSpan      LimitsOf `key:"over_check_rails" help:"span over the check rails"`
	Flangeway      LimitsOf `key:"flangeway" help:"width"`
	FlangewayDepth LimitsOf `key:"flangeway_depth" help:"depth"`
	BackToBack     LimitsOf `key:"back_to_back" help:"of a wheelset"`
	FlangeWidth    LimitsOf `key:"flange_width" help:"thickness of a flange"`
	FlangeDepth    LimitsOf `key:"flange_depth" help:"depth of a flange"`
	WheelWidth     LimitsOf `key:"wheel_width" help:"of a wheel over tread and flange"`
}

// LimitsOf is the least and the most that a dimension may be.
type LimitsOf struct {
	Min measure.Length `key:"min" help:"least; not known if not given"`
	Max measure.Length `key:"max" help:"most; not known if not given"`
}

// A ShopPlan is how something besides the ballast is sold.
type ShopPlan struct {
	Item    string    `key:"item" help:"!rail bars, joiners, sleepers, fixings, cement or resin, or what the trackbed takes by its name in the order list, as planks"`
	Pack    string    `key:"pack" help:"!what it is sold in, as \"box of 100\""`
	Holds   float64   `key:"holds" help:"!how many are in the pack, or how many of the unit of the order list: kg of cement, litres in place of a trench's filling"`
	Price   PricePlan `key:"price" help:"!of the pack"`
	Reserve float64   `key:"reserve" help:"part added on purpose, as 0.05; 0 if not given"`
}

// A StructurePlan is something that the line passes, by chainage and offset.
type StructurePlan struct {
	Name     string          `key:"name" help:"!as it is to be called in the book"`
	Kind     StructureKind   `key:"kind" help:"!tunnel, portal, wall, fence, tree, post, platform edge, girder, cutting side or overbridge"`
	From     *measure.Length `key:"from" help:"chainage at which it begins"`
	To       *measure.Length `key:"to" help:"chainage at which it ends"`
	At       *measure.Length `key:"at" help:"chainage of what stands at one place, instead of from and to"`
	Side     Side            `key:"side" help:"left or right: of a wall, fence, tree, post, platform edge, girder or cutting side"`
	Offset   *measure.Length `key:"offset" help:"of its face from the track centreline" is:"positive"`
	OffsetTo *measure.Length `key:"offset_to" help:"of the face at its end; as offset if not given" is:"positive"`
	Left     *measure.Length `key:"left" help:"of a tunnel, portal or overbridge: offset of the left face" is:"positive"`
	Right    *measure.Length `key:"right" help:"of a tunnel, portal or overbridge: offset of the right face" is:"positive"`
	Bottom   measure.Length  `key:"bottom" help:"of the face above the rails; the ground if not given"`
	Top      measure.Length  `key:"top" help:"of the face above the rails; as high as any vehicle if not given"`
	Height   *measure.Length `key:"height" help:"of the underside of a roof or a bridge above the rails; none if not given" is:"positive"`
}

// A StructureKind is the kind of a structure.
type StructureKind struct{ clearance.Kind }

// UnmarshalText reads a kind in words.
func (k *StructureKind) UnmarshalText(text []byte) error {
	var names []string
	for x := clearance.Tunnel; x <= clearance.Overbridge; x++ {
		if x.String() == string(text) {
			k.Kind = x
			return nil
		}
		names = append(names, x.String())
	}
	return badWord(text, names...)
}
