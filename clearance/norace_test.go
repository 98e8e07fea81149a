//go:build !race

package clearance_test

const raced = false
