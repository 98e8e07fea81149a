package ballast

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// MaxShapePoints is the most points of a shape that OnTracks places.
const MaxShapePoints = 10_000

// SleeperOutlines returns the corners of each track's sleeper as it lies in the
// Outline of the same cant, in the same axes: one sleeper a track, from the
// right track to the left, each by four corners: right and left end of the
// underside, then left and right end of the top. Whether a canted sleeper fits
// the bed is for Outline to say.
func (s Section) SleeperOutlines(cant, railCentres measure.Length, datum profile.Datum) ([][]r2.Vec, error) {
	half, h := float64(s.Sleeper.Length)/2, float64(s.Sleeper.Height)
	return s.OnTracks([]r2.Vec{{X: -half}, {X: half}, {X: half, Y: h}, {X: -half, Y: h}}, cant, railCentres, datum)
}

// OnTracks places a shape that is fixed to the track (a rail, a chair, a train)
// in the axes of Outline, once for each track from right to left. In the shape's
// points X is the distance from the middle of the track, left positive, and Y the
// height over the undersides of the sleepers, both before cant; cant turns and lifts them as it does the sleepers.
func (s Section) OnTracks(shape []r2.Vec, cant, railCentres measure.Length, datum profile.Datum) ([][]r2.Vec, error) {
	l := fault.In("ballast")
	s.check(l, "")
	checkCant(l, cant, railCentres, datum)
	if len(shape) > MaxShapePoints {
		l.Over("points of the shape", len(shape), fmt.Sprintf("at most %d", MaxShapePoints))
		return nil, l.Err()
	}
	for i, p := range shape {
		fault.Place(l, fmt.Sprintf("x of point %d of the shape", i+1), measure.Length(p.X))
		fault.Place(l, fmt.Sprintf("y of point %d of the shape", i+1), measure.Length(p.Y))
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	g, by := s.shape(), tiltOf(cant, railCentres, datum)
	sin, cos := by.tan*by.cos, by.cos
	placed := make([][]r2.Vec, len(g.tracks))
	for i, t := range g.tracks {
		placed[i] = make([]r2.Vec, len(shape))
		for j, p := range shape {
			placed[i][j] = r2.Vec{X: t + cos*p.X - sin*p.Y, Y: g.depth + by.lift + sin*p.X + cos*p.Y}
		}
	}
	return placed, nil
}
