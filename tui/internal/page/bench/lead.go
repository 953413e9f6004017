package bench

import "frp/veilwright/tui/internal/keys"

// Lead is what stands first on a bench where nothing is said of what the rules
// find: a task, with the keys that go with it. All other keys of the bench are
// there, and do the same.
type Lead struct {
	Name string // what the page is called
	// Rows stand in the place of the keys about findings.
	Rows keys.Table
	// Lines draws it in h lines of w cells; Tall is how many it would like to
	// have.
	Lines func(w, h int) []string
	Tall  func(w int) int
}
