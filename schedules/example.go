package schedules

import _ "embed" // the example's text

//go:embed example.toml
var example string

// Example is the document shown where nobody named one: a wound drain header
// of an invented scrubber. Its glass veil meets fluorides, so that a broken
// rule with a fix is there to be looked at.
func Example() []byte { return []byte(example) }

//go:embed example-job.toml
var exampleJob string

// ExampleJob is a job to look at: an invented tank for brine of three courses,
// with a bottom, a head, four nozzles and a manway. Nothing of it breaks a rule.
func ExampleJob() []byte { return []byte(exampleJob) }

// Examples is the example of a job, or of a schedule.
func Examples(job bool) []byte {
	if job {
		return ExampleJob()
	}
	return Example()
}
