package schedules

import _ "embed" // the example's text

//go:embed example.toml
var example string

// Example is the document shown where nobody named one: a wound drain header
// of an invented scrubber. Its glass veil meets fluorides, so that a broken
// rule with a fix is there to be looked at.
func Example() []byte { return []byte(example) }
