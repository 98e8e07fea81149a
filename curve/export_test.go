package curve

// Pieces returns how many prepared pieces carry the line.
func (a *Alignment) Pieces() int { return len(a.pieces) }
