//go:build race

package clearance_test

// raced is set when the race detector is on, which makes everything some ten
// times slower and finds nothing in more seeds of the same.
const raced = true
