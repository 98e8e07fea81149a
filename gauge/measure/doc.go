// Package measure holds the quantities of permanent-way arithmetic as types:
// lengths, angles, gradients, temperatures and the rest.
package measure
