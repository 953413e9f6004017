package records

import (
	"path/filepath"
	"time"

	"frp/veilwright/schedules/recorder"
)

// Ahead is what a program that is gone left behind of plies to come, not older than
// span, for what is laid up now: what it had of another record waits for that one. ok is
// false where there is none.
func (c *Case) Ahead(span time.Duration) (a recorder.Ahead, ok bool) {
	w := c.ahead()
	if w == nil {
		return a, false
	}
	return w.Left(c.Now().Add(-span), func(a *recorder.Ahead) bool {
		return a.What == c.What() && (a.Record == "" || a.Record == c.recordName())
	})
}

// KeepAhead keeps what was measured and entered for plies to come until one of them is
// recorded, for the next start should the program end before.
func (c *Case) KeepAhead(a recorder.Ahead) error {
	w := c.ahead()
	if w == nil {
		return nil
	}
	a.What, a.Record = c.What(), c.recordName()
	return w.Keep(a)
}

const day = 24 * time.Hour

// sweepAhead drops what a program that ended with the last ply left of a record of which
// all is laid.
func (c *Case) sweepAhead(r *recorder.Record) error {
	laid := map[int]bool{}
	for i := range r.Now().Laid {
		if l := &r.Now().Laid[i]; !l.Struck {
			laid[l.Ply] = true
		}
	}
	if n := c.Analysis().Total.Plies; n == 0 || len(laid) < n {
		return nil
	}
	if _, ok := c.Ahead(day); !ok { // what waits for another record stays
		return nil
	}
	return c.KeepAhead(recorder.Ahead{})
}

func (c *Case) recordName() string {
	if r := c.files.Record(); r != nil {
		return filepath.Base(r.Path())
	}
	return ""
}

// ahead is what waits for the document on the desk, nil where that has no file: without
// one no record is.
func (c *Case) ahead() *recorder.Waiting {
	path := c.desk.Doc.Path()
	if c.waiting != nil && c.waiting.Of() != path {
		_ = c.waiting.Close() // what it kept is left for the next
		c.waiting = nil
	}
	if c.waiting == nil && path != "" {
		c.waiting = recorder.OpenWaiting(path)
	}
	return c.waiting
}
