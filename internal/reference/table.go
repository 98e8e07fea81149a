package reference

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"
)

// Rows returns the rows of a table of published values, a CSV file whose lines
// that begin with # name the source. At least one row must be there.
func Rows(t testing.TB, file string) [][]string {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil || len(rows) == 0 {
		t.Fatalf("%s: %d rows, %v", file, len(rows), err)
	}
	return rows
}

// Number returns a cell's number.
func Number(t testing.TB, cell string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(cell, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
