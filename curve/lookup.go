package curve

// A lookup finds the piece at a chainage. It divides the line into equal
// buckets, each of which knows the piece at its start, and halves what is left
// where many short pieces share a bucket.
type lookup struct {
	start  []float64 // chainage of each piece's start
	bucket []int32   // piece at each bucket's start, and the last piece twice
	scale  float64   // buckets a millimetre
}

func newLookup(pieces []piece, length float64) lookup {
	n := 2 * len(pieces)
	l := lookup{make([]float64, len(pieces)), make([]int32, n+2), float64(n) / length}
	for i := range pieces {
		l.start[i] = pieces[i].at + pieces[i].lo
	}
	j := 0
	for b := range l.bucket {
		// find repairs what rounding of the scale may do here.
		for j+1 < len(pieces) && l.start[j+1]*l.scale <= float64(b) {
			j++
		}
		l.bucket[b] = int32(j)
	}
	return l
}

// find returns the last piece that starts at or before x.
func (l *lookup) find(x float64) int {
	b := int(x * l.scale)
	i, j := int(l.bucket[b]), int(l.bucket[b+1])
	for j-i > 4 {
		if m := int(uint(i+j) >> 1); l.start[m] <= x {
			i = m
		} else {
			j = m
		}
	}
	for i+1 < len(l.start) && l.start[i+1] <= x {
		i++
	}
	for i > 0 && l.start[i] > x {
		i--
	}
	return i
}
