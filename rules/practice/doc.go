// Package practice marks exercises, finds their answers and keeps count of what
// somebody has learned. It judges by the very
// rules, demands and arithmetic that judge every other schedule, and knows no
// file and no screen.
package practice
