package editor

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
)

// Unjudged opens a copy of a schedule that is worked on and handed in, not
// saved: the answer to an exercise. It has a history of its own and the library
// it is given; no rule says anything of it, and no file and no journal is ever
// written. Laid says what its plies are laid as, nil of a wall. Name is what to call it. The error is a *ProblemsError where there is
// nothing to show.
func Unjudged(name string, s *laminate.Schedule, library *laminate.Library, laid *rules.Overlaid) (*Document, error) {
	o := shop.Opened{Name: name, Library: library}
	opened := o.With(schedules.New(s).Render(s))
	if err := Shown(opened); err != nil {
		return nil, err
	}
	d := &Document{name: name, unjudged: true, laid: laid}
	if laid != nil { // no file says from which side a schedule is laid
		opened.Schedule.Part.Place.Lined = laid.Kind.Inside()
	}
	d.load(opened)
	return d, nil
}
