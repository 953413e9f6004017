package edit_test

import (
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
)

func twoParts() *laminate.Job {
	plies := func() []laminate.Ply { return []laminate.Ply{{Material: "m", Resin: "r", Count: 1}} }
	return &laminate.Job{
		Resins:    []laminate.Resin{{ID: "r", Family: laminate.VinylEster}, {ID: "s", Family: laminate.VinylEster}},
		Laminates: []laminate.Laminate{{ID: "a", Plies: plies()}, {ID: "b", Plies: plies()}},
		Parts:     []laminate.JobPart{{ID: "p", Laminate: "a"}, {ID: "q", Laminate: "b"}},
	}
}

func TestIn_editsOnePartAndWhatItShares(t *testing.T) {
	j := twoParts()
	e := edit.In(1, edit.SetHeader("title", "title", func(s *laminate.Schedule) { s.Title = "x" }))
	n, err := e.Do(j)
	if err != nil || n.Title != "x" || j.Title != "" || e.At.Part != 1 {
		t.Errorf("%v %+v %+v", err, n, e.At)
	}
	same, err := edit.In(0, edit.SetHeader("title", "title", func(*laminate.Schedule) {})).Do(j)
	if err != nil || same != j {
		t.Errorf("an edit that changes nothing makes another job: %v", err)
	}
	if _, err := edit.In(2, edit.Edit{}).Do(j); err == nil {
		t.Error("a part that is not there was edited")
	}
}

func TestIn_refusesWhatLeavesAnotherPartWithoutItsResin(t *testing.T) {
	j := twoParts()
	other := edit.Edit{Label: "took resin r out", Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
		c := s.Clone()
		c.Resins = c.Resins[1:]
		c.Plies[0].Resin = "s"
		return c, nil
	}}
	if _, err := edit.In(0, other).Do(j); err == nil || !strings.Contains(err.Error(), `"r"`) {
		t.Errorf("%v", err)
	}
	// The same is fine where nobody else lies in it.
	j.Laminates[1].Plies[0].Resin = "s"
	if _, err := edit.In(0, other).Do(j); err != nil {
		t.Error(err)
	}
}
