package editor

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
)

// Unjudged opens a copy of a schedule that is worked on and handed in, not
// saved: the answer to an exercise. It has a history of its own and the library
// it is given; no rule says anything of it, and no file and no journal is ever
// written. Name is what to call it. The error is a *ProblemsError where the
// schedule is not sound.
func Unjudged(name string, s *laminate.Schedule, library *laminate.Library) (*Document, error) {
	text := schedules.New(s).Render(s)
	source, own, err := decode(name, text)
	if err != nil {
		return nil, err
	}
	d := &Document{library: library, name: name}
	d.options.Judge = func(s *laminate.Schedule, lib *laminate.Library, units quantity.System) *rules.Report {
		return rules.Judge(nil, s, lib, rules.Options{Units: units})
	}
	d.load(source, own, text)
	return d, nil
}
