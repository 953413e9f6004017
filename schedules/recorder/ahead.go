package recorder

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/store"
)

// Ahead is what was measured and entered for plies to come: it is in no record before
// one of them is.
type Ahead struct {
	What   string // what of the document it is of, as Record.What says
	Record string // the file of its record; "" while none was open

	Measured     time.Time // the ambient conditions
	Air, Surface quantity.Temperature
	Humidity     laminate.Optional[float64] // share

	Entered               time.Time // what follows
	Material, Resin       string    // that the lots are of
	MaterialLot, ResinLot string
	Initiator, Promoter   laminate.Optional[float64] // share by mass
}

// since is when the last of it was measured or entered.
func (a *Ahead) since() time.Time {
	if a.Entered.After(a.Measured) {
		return a.Entered
	}
	return a.Measured
}

// wired has the quantities as text.
type wired struct {
	Ahead
	Air, Surface string
}

func encodeAhead(a *Ahead) ([]byte, error) {
	return json.Marshal(wired{*a, a.Air.Text(), a.Surface.Text()})
}

func decodeAhead(text []byte) (a Ahead, err error) {
	var w wired
	if err := json.Unmarshal(text, &w); err != nil {
		return a, err
	}
	a = w.Ahead
	if w.Air != "" {
		err = quantity.Read(&a.Air, w.Air)
	}
	if w.Surface != "" && err == nil {
		err = quantity.Read(&a.Surface, w.Surface)
	}
	return a, err
}

// Waiting keeps what is ahead of the records of one document: in a recovery journal, so
// that it outlasts whatever ends the program. Make it with OpenWaiting; Close ends it.
type Waiting struct {
	of      string
	journal *store.Journal
	left    []store.Unsaved
	taken   *store.Unsaved // given by Left, and not yet kept anew
	last    Ahead
}

// aheadEnding ends the names of such journals: no document's path is one.
const aheadEnding = ".ahead"

// OpenWaiting opens what waits for the document at path. What a program left of it and
// cannot be read is none: it is asked for again.
func OpenWaiting(path string) *Waiting {
	w := &Waiting{of: path, journal: store.NewJournal(path + aheadEnding)}
	w.left, _ = store.PendingFor(path + aheadEnding)
	return w
}

// Of is the path that it was opened with.
func (w *Waiting) Of() string { return w.of }

// Left is the newest that a program which is gone left behind and that fits; ok is false
// where there is none. What is older than oldest is dropped. What was given is in its
// journal until Keep keeps it anew.
func (w *Waiting) Left(oldest time.Time, fits func(*Ahead) bool) (a Ahead, ok bool) {
	w.left = slices.DeleteFunc(w.left, func(u store.Unsaved) bool {
		if ok {
			return false
		}
		x, err := decodeAhead(u.Bytes)
		if err != nil || x.since().Before(oldest) {
			_ = u.Drop() // the next start tries again
			return true
		}
		if !fits(&x) {
			return false
		}
		a, ok = x, true
		w.taken = &u
		return true
	})
	return a, ok
}

// Keep keeps what is ahead in place of what was kept before; nothing of it drops that.
// It outlasts a kill at once, and a power cut within a second.
func (w *Waiting) Keep(a Ahead) error {
	if a.since().IsZero() {
		a = Ahead{}
	}
	if a != w.last {
		w.last = a
		if err := w.keep(&a); err != nil {
			return fmt.Errorf("what was measured and entered for the next ply is not kept: %w", err)
		}
	}
	if u := w.taken; u != nil {
		w.taken = nil
		return u.Drop()
	}
	return nil
}

func (w *Waiting) keep(a *Ahead) error {
	if *a == (Ahead{}) {
		return w.journal.Drop(0)
	}
	text, err := encodeAhead(a)
	if err != nil {
		return err
	}
	return w.journal.Save(text, store.Meta{Label: "what is ahead of a record"})
}

// Close ends it; what is kept is left for the next.
func (w *Waiting) Close() error {
	if w == nil {
		return nil
	}
	return w.journal.Close()
}
