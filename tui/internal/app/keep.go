package app

import (
	"errors"
	"fmt"
	"runtime/debug"
	"sync/atomic"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/store"
)

// keepAfter is how long an edit waits for its journal: what was on the screen a
// second ago outlives anything.
const keepAfter = 300 * time.Millisecond

type (
	// keepMsg has the journal written at once, keptMsg says that it was written
	// or could not be.
	keepMsg struct{}
	keptMsg struct{}
)

// keeper writes the journal beside the loop of messages, which a screen that
// does not read or a mistake can hold up.
type keeper struct {
	newest  atomic.Pointer[editor.Work]
	waiting atomic.Bool // somebody is about to keep the newest
}

// keep keeps the newest work at once.
func (k *keeper) keep() error {
	if w := k.newest.Load(); w != nil {
		return w.Keep()
	}
	return nil
}

// settle waits and keeps until there is nothing newer.
func (k *keeper) settle(wait func() tea.Cmd) {
	for {
		if pause := wait(); pause != nil {
			pause()
		}
		k.waiting.Store(false)
		w := k.newest.Load()
		_ = w.Keep() // what is wrong is told by lookKept
		if k.newest.Load() == w || !k.waiting.CompareAndSwap(false, true) {
			return
		}
	}
}

// handOver gives the keeper what there is to keep.
func (r *Root) handOver() bool {
	d := r.desk.Doc
	if d.Revision() == r.handed {
		return false
	}
	r.handed = d.Revision()
	w := d.Work()
	r.keeper.newest.Store(&w)
	return true
}

// keepSoon has the journal written when edits pause.
func (r *Root) keepSoon() {
	if r.ending() || !r.handOver() {
		return
	}
	wait := func() tea.Cmd { return r.later(keepAfter, keepMsg{}) }
	if r.o.After != nil || !r.keeper.waiting.CompareAndSwap(false, true) { // a test keeps by hand
		return
	}
	r.do(guard(func() tea.Msg {
		r.keeper.settle(wait)
		return keptMsg{}
	}))
}

// keep writes the journal at once.
func (r *Root) keep() {
	r.handOver()
	_ = r.keeper.keep() // what is wrong is told by lookKept
	r.lookKept()
}

// lookKept says when unsaved work begins not to be kept.
func (r *Root) lookKept() {
	was := r.fault
	r.fault = ""
	if err := r.desk.Doc.NotKept(); err != nil {
		r.fault = err.Error()
	}
	if r.fault != was {
		r.stale = true
	}
	if was == "" && r.fault != "" {
		r.desk.Refuse(notKept + ": " + r.fault)
	}
}

const notKept = "unsaved work is not kept"

// keepNow writes the journal whatever else goes wrong.
func (r *Root) keepNow() {
	defer func() {
		if what := recover(); what != nil && r.end.Crash == nil {
			r.end.Crash, r.end.Stack = what, debug.Stack()
		}
	}()
	if r.desk.Doc.Dirty() {
		r.end.Journal = r.desk.Doc.Journal()
	}
}

// Rescue keeps the newest unsaved work from outside of an update, where one does
// not come to its end.
func (r *Root) Rescue() error { return r.keeper.keep() }

// Close lets go of the document, of what lies beside it and of what pages keep.
func (r *Root) Close() (err error) {
	defer func() {
		if what := recover(); what != nil { // after a mistake nothing is sure
			err = fmt.Errorf("closing the document: %v", what)
		}
	}()
	return errors.Join(r.records.Close(), r.desk.End(), r.desk.Doc.Close())
}

func (r *Root) crash(what any, stack []byte) {
	if r.end.Crash == nil {
		r.end.Crash, r.end.Stack = what, stack
	}
	r.keepNow()
}

// reread reads again what the document rests on where that changed behind the program's
// back, and says so with what became of the verdict. The error says why some of it
// cannot be used: what is on the screen then is not what is on disk.
func (r *Root) reread() (said string, err error) {
	was := r.verdict()
	said, err = r.records.Fresh()
	amiss := ""
	if err != nil {
		amiss = err.Error()
	}
	if said != "" {
		r.desk.Replaced()
		if now := r.verdict(); now != was {
			said += "; it was " + was.String() + " and is " + now.String()
		}
	}
	if said != "" || amiss != r.amiss {
		r.amiss, r.stale = amiss, true
		r.settle()
	}
	return said, err
}

// watch looks whether the file, or what it rests on, changed behind the program's back,
// whether it may be saved by now, and whether unsaved work can be kept by now.
func (r *Root) watch() {
	d := r.desk.Doc
	if r.fault != "" {
		r.handed = 0
		r.keepSoon()
	}
	before := r.amiss
	if said, err := r.reread(); err != nil && r.amiss != before {
		r.desk.Refuse(r.amiss + "; nothing is printed or recorded until that is put right")
	} else if said != "" {
		r.desk.Refuse(said)
	}
	was, _ := d.ReadOnly()
	if d.Refresh(); was {
		if ro, _ := d.ReadOnly(); !ro {
			r.stale = true
			r.desk.Say("the file can be saved now: s saves it")
		}
	}
	how, err := d.Since()
	if err != nil || how == store.Unchanged || r.told {
		r.told = r.told && how != store.Unchanged
		return
	}
	r.told, r.stale = true, true
	what := "the file was changed on disk by somebody else"
	if how == store.Removed {
		what = "the file was removed from disk"
	}
	r.desk.Refuse(what + ": s asks what to do")
}
