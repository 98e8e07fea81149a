package curve

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
)

func mm(l measure.Length) string { return fmt.Sprintf("%v mm", float64(l)) }

func degrees(radians float64) string { return fmt.Sprintf("%.6g°", radians*180/math.Pi) }
