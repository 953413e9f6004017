// Package bonds judges what a record says of bonds onto cured faces: how long
// after it gelled a face was laid onto, whether it was abraded before, by whom
// and by what qualification.
package bonds

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/word"
	"frp/veilwright/rules"
)

// The keys of what is found.
const (
	WindowPassed = "bond-window-passed-unabraded"
	Unqualified  = "joint-unqualified"
)

// Finding is one thing to say of a record's bonds; Clear is that all is well.
type Finding struct {
	Key, Demand, Found, Basis string
	Severity                  rules.Severity
	Plies                     []int // single plies of the schedule
}

const (
	demand      = "a face whose window has passed abraded before a ply is laid onto it"
	byWindow    = "the resin's bond window, common practice, no source: after it a bond is adhesion to a ground face"
	byPractice  = "common practice, no source"
	whoIsAsked  = "bonder and qualification of each bond onto a cured face"
	noGel       = "when the face had gelled"
	noFinish    = "to what finish it was abraded"
	notRecorded = "when the face gelled is not recorded (gelled)"
)

// Judge looks at each bond that is recorded, and at each ply that was laid later
// onto the one under it than a shift or two: it is one too. The window is that of
// the resin under the bond (bond_window); where a schedule states none, nobody can
// say whether it had passed.
func Judge(r *record.Record, schedule *rules.Report) []Finding {
	var list []Finding
	var held [2]int // within the window, onto an abraded face
	var lacks []string
	found := func(f Finding, ground *record.Preparation, gelled time.Time) {
		switch {
		case f.Severity != rules.Clear:
			list = append(list, f)
			return
		case ground == nil:
			held[0]++
			return
		}
		held[1]++
		// An abraded face is sound whenever it had gelled: what is not recorded of it is
		// said, and leaves nothing open.
		if gelled.IsZero() && !slices.Contains(lacks, noGel) {
			lacks = append(lacks, noGel)
		}
		if strings.TrimSpace(ground.Finish) == "" && !slices.Contains(lacks, noFinish) {
			lacks = append(lacks, noFinish)
		}
	}
	for i := range r.Bonds {
		b := &r.Bonds[i]
		if b.Struck {
			continue
		}
		name := cmp.Or(b.Onto, "the part")
		window, of := windowOf(facing(schedule), nil)
		f, ground := judge(r, "bond onto "+name, b.Onto, b.Gelled, b.At, window, of, nil)
		if f.Severity == rules.Clear && ground == nil && onWax(schedule) {
			f.Severity, f.Found = rules.Incomplete, "bond onto "+name+": the part ends in a waxed coat, to which nothing bonds however soon: that it was ground off where this lies is not recorded (abraded)"
		}
		found(f, ground, b.Gelled)
		var missing []string
		if strings.TrimSpace(b.Bonder) == "" {
			missing = append(missing, "who bonded (bonder)")
		}
		if _, there := word.Answered(b.Qualification); !there {
			missing = append(missing, "by what qualification (qualification)")
		}
		if len(missing) > 0 {
			list = append(list, Finding{Unqualified, whoIsAsked, "bond onto " + name + ": it is not recorded " + rules.Join(missing, "and"), byPractice, rules.Incomplete, nil})
		}
	}
	if o := schedule.Overlay; o != nil && o.Kind.Bonds() && laidAny(r) && !Recorded(r, o.Of) {
		list = append(list, Finding{WindowPassed, demand, "bond onto " + cmp.Or(o.Of, "the part") + ": it is not recorded when the face gelled, whether it was abraded, and who bonded", byWindow, rules.Incomplete, []int{1}})
	}
	layUp(r, schedule, found)
	// What is known comes first: a line that is cut must not read as what is not.
	var known []string
	if n := held[1]; n > 0 {
		known = append(known, quantity.Counted(n, "bond onto an abraded face", "bonds onto abraded faces"))
	}
	if n := held[0]; n > 0 {
		known = append(known, quantity.Counted(n, "bond within the window", "bonds within the window"))
	}
	if known != nil {
		said := strings.Join(known, ", ")
		if lacks != nil {
			is := " is"
			if len(lacks) > 1 {
				is = " are"
			}
			said += "; " + rules.Join(lacks, "and") + is + " not recorded"
		}
		list = append(list, Finding{WindowPassed, demand, said, byWindow, rules.Clear, nil})
	}
	return list
}

// Recorded tells whether a record has a bond onto a face, by the id of the joint or
// nozzle, "" for that of the part.
func Recorded(r *record.Record, onto string) bool {
	return slices.ContainsFunc(r.Bonds, func(b record.Bond) bool { return !b.Struck && strings.TrimSpace(b.Onto) == onto })
}

func laidAny(r *record.Record) bool {
	return slices.ContainsFunc(r.Laid, func(t record.Laid) bool { return !t.Struck })
}

// facing are the rows whose resins a bond is onto: of the part's own wall, or of
// the walls that an overlay lies on.
func facing(schedule *rules.Report) []laminate.RowFigures {
	if schedule.Overlay == nil {
		return schedule.Analysis.Rows
	}
	var rows []laminate.RowFigures
	for _, a := range schedule.Overlay.Under {
		rows = append(rows, a.Rows...)
	}
	return rows
}

// onWax tells whether a wall that an overlay lies on ends in a waxed coat: laid by the
// papers it comes later, and nothing in a record of the bond says that it did.
func onWax(schedule *rules.Report) bool {
	if o := schedule.Overlay; o == nil || o.Kind.Inside() {
		return false
	}
	return slices.ContainsFunc(schedule.Overlay.Under, func(a *laminate.Analysis) bool {
		n := len(a.Rows)
		return n > 0 && a.Rows[n-1].Material != nil && a.Rows[n-1].Material.Waxed
	})
}

// layUp finds plies that were laid onto a face which had cured.
func layUp(r *record.Record, schedule *rules.Report, found func(f Finding, ground *record.Preparation, gelled time.Time)) {
	at := map[int]time.Time{}
	for i := range r.Laid {
		if t := &r.Laid[i]; !t.Struck && !t.At.IsZero() {
			at[t.Ply] = t.At
		}
	}
	plies := make([]int, 0, len(at))
	for n := range at {
		plies = append(plies, n)
	}
	slices.Sort(plies)
	for _, n := range plies {
		under, ok := at[n-1]
		if !ok || at[n].Sub(under) <= 0 {
			continue
		}
		rows := schedule.Analysis.Rows
		i := laid.RowOf(schedule.Analysis, n-1)
		if i < 0 {
			continue
		}
		window, of := windowOf(rows[i:i+1], rows[i].Resin)
		if at[n].Sub(under) <= cmp.Or(window, catalog.UsualBondWindow) {
			continue // one laminate
		}
		f, ground := judge(r, fmt.Sprintf("ply %d onto ply %d", n, n-1), "", under, at[n], window, of, []int{n})
		found(f, ground, under)
	}
}

// windowOf is the shortest window that a resin of the rows states, 0 where none
// does, and whose it is.
func windowOf(rows []laminate.RowFigures, first *laminate.Resin) (window time.Duration, whose string) {
	if first != nil {
		whose = first.ID
	}
	for i := range rows {
		x := rows[i].Resin
		if x == nil || !x.BondWindow.Given() {
			continue
		}
		if d := time.Duration(x.BondWindow.SI() * float64(time.Second)); window == 0 || d < window {
			window, whose = d, x.ID
		}
	}
	return window, whose
}

// judge says of one bond whether its window had passed, and whether the face was
// abraded then: ground is the entry that says so, nil for none.
func judge(r *record.Record, name, of string, gelled, bonded time.Time, window time.Duration, resin string, plies []int) (f Finding, ground *record.Preparation) {
	f = Finding{WindowPassed, demand, "", byWindow, rules.Clear, plies}
	say := func(severity rules.Severity, format string, args ...any) (Finding, *record.Preparation) {
		f.Severity, f.Found = severity, name+": "+fmt.Sprintf(format, args...)
		return f, nil
	}
	last, before := lastPreparation(r, of, gelled, bonded)
	if last != nil && last.Abraded.Value {
		if before != nil && !before.Abraded.Value && strings.TrimSpace(last.Finish) == "" {
			return say(rules.Incomplete, "entry %d says that the face was abraded, entry %d before it that it was not, and to what finish it was since is not recorded", last.Number, before.Number)
		}
		return f, last
	}
	abrading := "no abrading recorded" // which of both says more than how long it was
	if last != nil {
		abrading = "NOT abraded, as the last entry says"
	}
	switch {
	case bonded.IsZero():
		return say(rules.Incomplete, "when it was laid is not recorded (at)")
	case gelled.IsZero():
		if last != nil {
			return say(rules.Incomplete, "NOT abraded, as the last entry before it says, and "+notRecorded)
		}
		return say(rules.Incomplete, notRecorded+", and no abrading before it")
	case window == 0:
		whose := "of the resin"
		if resin != "" {
			whose = "of resin " + resin
		}
		return say(rules.Incomplete, "%s; laid %s after the face gelled, and the window %s is not stated (bond_window)", abrading, span(bonded.Sub(gelled)), whose)
	case bonded.Sub(gelled) > window:
		return say(rules.Break, "%s; laid %s after the face gelled, the window of resin %s is %s", abrading, span(bonded.Sub(gelled)), resin, span(window))
	}
	return f, nil
}

// lastPreparation is what was last recorded of a face between its gelling and the
// bond onto it: whoever writes that it is not abraded after all is believed. before is
// what was recorded before that. nil for none.
func lastPreparation(r *record.Record, of string, gelled, bonded time.Time) (last, before *record.Preparation) {
	for i := range r.Preparations {
		p := &r.Preparations[i]
		if p.Struck || p.Onto != of || p.At.IsZero() || !bonded.IsZero() && p.At.After(bonded) || p.At.Before(gelled) {
			continue
		}
		switch {
		case last == nil || !p.At.Before(last.At):
			last, before = p, last
		case before == nil || !p.At.Before(before.At):
			before = p
		}
	}
	return last, before
}

// span prints a time in hours.
func span(d time.Duration) string { return quantity.Number(d.Hours(), 1) + " h" }
