package editor

import (
	"maps"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// Reread reads again what the document rests on besides its own text, where that is no
// longer on disk as it was read: the schedules of its parts and its shop books. What
// was edited stays, and so does what can be undone. It names what changed. The error
// says why some of it cannot be used, at each call as long as it is so: what is shown
// then is as it was, and no longer what is on disk.
func (d *Document) Reread() (changed []string, err error) {
	if changed = d.shop.Changed(d.others, d.Job(), folder(d.path)); len(changed) == 0 {
		return nil, d.amiss
	}
	o := d.shop.Open(d.name, d.Bytes(), folder(d.path))
	d.others = o.OtherFiles
	if d.amiss = Shown(o); d.amiss != nil {
		return changed, d.amiss
	}
	d.library, d.levels, d.stock, d.faulty = o.Library, o.Levels, o.Stock, !o.Usable()
	kept := d.kept == d.rev
	d.history.open = false
	if d.equipment == nil {
		d.become(d.now)
	} else {
		d.beside = o.Job.Schedules
		d.equipment.rest(d.beside)
		d.become(d.equipment.wall())
	}
	if kept { // its text is the same
		d.kept = d.rev
	}
	return changed, nil
}

// rest has the walls of parts be what the files that they name say by now.
func (w *equipment) rest(on map[string]*laminate.Schedule) {
	one := map[*laminate.Job]*laminate.Job{} // what was one stays one
	for _, j := range []**laminate.Job{&w.job, &w.loaded, &w.saved} {
		if one[*j] == nil {
			one[*j] = resting(*j, on)
		}
		*j = one[*j]
	}
	w.report = cached[quantity.System, *rules.JobReport]{}
}

// resting is a job with the schedules of its parts as they were read last.
func resting(j *laminate.Job, on map[string]*laminate.Schedule) *laminate.Job {
	merged := make(map[string]*laminate.Schedule, len(on))
	maps.Copy(merged, j.Schedules)
	maps.Copy(merged, on)
	if maps.Equal(merged, j.Schedules) {
		return j
	}
	n := *j
	n.Schedules = merged
	return &n
}
