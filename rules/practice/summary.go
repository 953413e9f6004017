package practice

import (
	"encoding/csv"
	"io"
	"strconv"

	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
)

// Row is one exercise in a summary of somebody's progress.
type Row struct {
	Exercise *exercise.Exercise // nil for one that is no longer there, or was made from a seed
	ID       string
	Step     int
	Standing Standing
}

// Summary lists every exercise of the list, then what else was done, with
// where the person stands.
func Summary(p Progress, list []*exercise.Exercise) []Row {
	var rows []Row
	seen := map[string]bool{}
	for _, e := range list {
		seen[e.ID] = true
		rows = append(rows, Row{e, e.ID, e.Step, p.Of(e.ID)})
	}
	for i := range p.Entries {
		e := &p.Entries[i]
		if !seen[e.Exercise] {
			seen[e.Exercise] = true
			rows = append(rows, Row{nil, e.Exercise, e.Step, p.Of(e.Exercise)})
		}
	}
	return rows
}

// Totals of one step of the course.
type Totals struct {
	Step, Exercises, Tried, Passed int
	Mean                           float64 // of the last scores, 0 where none was tried
}

// ByStep adds a summary up.
func ByStep(rows []Row) [exercise.Steps]Totals {
	var all [exercise.Steps]Totals
	for i := range all {
		all[i].Step = i + 1
	}
	for i := range rows {
		r := &rows[i]
		if r.Step < 1 || r.Step > exercise.Steps {
			continue
		}
		t := &all[r.Step-1]
		t.Exercises++
		if r.Standing.Tries > 0 {
			t.Tried++
			t.Mean += r.Standing.Last
			if !r.Standing.Missed() {
				t.Passed++
			}
		}
	}
	for i := range all {
		if all[i].Tried > 0 {
			all[i].Mean /= float64(all[i].Tried)
		}
	}
	return all
}

// WriteCSV writes a summary as CSV (RFC 4180): one row an exercise, scores in
// percent, dates as 2026-03-02, nothing where it was not tried.
func WriteCSV(w io.Writer, person string, rows []Row) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write([]string{"person", "step", "exercise", "title", "kind", "tries", "first_percent", "last_percent", "best_percent", "last_day", "due"}); err != nil {
		return err
	}
	percent := func(v float64) string { return quantity.Number(100*v, 0) }
	for i := range rows {
		r := &rows[i]
		title, kind := "", ""
		if r.Exercise != nil {
			title, kind = r.Exercise.Title, r.Exercise.Kind.String()
		}
		cells := []string{plain(person), strconv.Itoa(r.Step), r.ID, plain(title), kind, strconv.Itoa(r.Standing.Tries), "", "", "", "", ""}
		if s := r.Standing; s.Tries > 0 {
			cells = append(cells[:6], percent(s.First), percent(s.Last), percent(s.Best), s.On.String(), s.Due.String())
		}
		if err := out.Write(cells); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// plain keeps a spreadsheet from taking text for a formula.
func plain(s string) string {
	if s != "" {
		switch s[0] {
		case '=', '+', '-', '@', '\t', '\r':
			return "'" + s
		}
	}
	return s
}
