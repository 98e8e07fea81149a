// Package passing answers for two tracks side by side.
package passing
