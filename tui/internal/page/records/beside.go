package records

import (
	"os"
	"path/filepath"
	"strings"
	"time"

	"frp/veilwright/laminate/record"
	"frp/veilwright/schedules/recorder"
)

// beside is what was found beside the schedule, and what it was looked for with.
type beside struct {
	of      string
	changed time.Time // the folder, when it was looked through
	list    []recorder.Beside
}

// Unfinished are those of the records that lie here whose lay-up may go on. Whoever
// comes back, after a power cut or on another day, goes on with one of them rather than
// begin anew.
func (c *Case) Unfinished() []recorder.Beside {
	if c.NoPlies() != "" {
		return nil
	}
	return recorder.Unfinished(c.Lying())
}

// Lying are records, beside the schedule, of what is laid up and inspected now, the
// open one among them, those that are finished too.
func (c *Case) Lying() []recorder.Beside {
	path := c.desk.Doc.Path()
	if path == "" {
		c.beside = beside{}
		return nil
	}
	now := beside{of: strings.Join([]string{path, c.What(), c.Fingerprints().Schedule}, "\x00")}
	if info, err := os.Stat(c.folder()); err == nil {
		now.changed = info.ModTime()
	}
	if x := &c.beside; x.of != now.of || !x.changed.Equal(now.changed) {
		name := filepath.Base(path)
		now.list = recorder.Lying(c.folder(), c.Analysis().Total.Plies, func(r *record.Record) bool {
			return c.ofAnother(r) == "" && (r.Schedule == name || c.isOf(r))
		})
		c.beside = now
	}
	return c.beside.list
}
