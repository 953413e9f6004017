// Package pace measures the terminal program against a bare one (package
// pace/bare) in the same run, in the same kind of pseudo-terminal: how soon it
// is ready, how soon a key shows, what a key costs in processor time, and how
// much memory stands behind it. It holds a benchmark and nothing else:
//
//	go test ./tui/internal/pace -bench . -benchtime 1x
package pace
