package curve

// A Hand says to which side a curve turns, seen in the running direction.
// The zero value is neither.
type Hand int8

// The two hands.
const (
	Left  Hand = 1
	Right Hand = -1
)

// Opposite returns the other hand.
func (h Hand) Opposite() Hand { return -h }

// String returns "left", "right" or "neither".
func (h Hand) String() string {
	switch h {
	case Left:
		return "left"
	case Right:
		return "right"
	}
	return "neither"
}
