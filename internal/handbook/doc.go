// Package handbook is a place for tests of what readers of the documentation
// see; it holds no code.
package handbook
