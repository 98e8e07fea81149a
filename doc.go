// Package fourfoot is the map of a library for the permanent way of garden
// railways; see the packages below it.
package fourfoot
