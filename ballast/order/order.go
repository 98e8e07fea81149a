package order

// A Demand is a quantity of an item wanted by one range of the line.
type Demand struct {
	Item     string
	Unit     string // "kg", "m", "each"
	Quantity float64
	Range    string // where it is for
}
