package measure

// An Area is in square millimetres.
type Area float64

// Units of area.
const (
	SquareMillimetre Area = 1
	SquareCentimetre      = 100 * SquareMillimetre
	SquareMetre           = 1e6 * SquareMillimetre
	SquareInch            = 25.4 * 25.4 * SquareMillimetre
	SquareFoot            = 144 * SquareInch
)

// SquareMillimetres returns the area as a number of square millimetres.
func (a Area) SquareMillimetres() float64 { return float64(a) }

// SquareMetres returns the area as a number of square metres.
func (a Area) SquareMetres() float64 { return float64(a / SquareMetre) }

// By returns the volume of a prism of base a and length l.
func (a Area) By(l Length) Volume { return Volume(float64(a) * float64(l)) }

// A Volume is in cubic millimetres.
type Volume float64

// Units of volume. The litre is the cubic decimetre exactly.
const (
	CubicMillimetre Volume = 1
	CubicCentimetre        = 1e3 * CubicMillimetre
	Litre                  = 1e6 * CubicMillimetre
	CubicMetre             = 1e9 * CubicMillimetre
	CubicInch              = 25.4 * 25.4 * 25.4 * CubicMillimetre
	CubicFoot              = 1728 * CubicInch
	CubicYard              = 27 * CubicFoot
)

// CubicMillimetres returns the volume as a number of cubic millimetres.
func (v Volume) CubicMillimetres() float64 { return float64(v) }

// CubicMetres returns the volume as a number of cubic metres.
func (v Volume) CubicMetres() float64 { return float64(v / CubicMetre) }

// Litres returns the volume as a number of litres.
func (v Volume) Litres() float64 { return float64(v / Litre) }
