package edit_test

import (
	"slices"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
)

// A joint is of two parts that are laid to each other: a flange after a head waits for
// its nozzle, and one at the end of a pipe is joined to it.
func TestMeeting_offersNoJointThatCannotBe(t *testing.T) {
	line := func(parts ...laminate.JobPart) *laminate.Job { return &laminate.Job{Parts: parts} }
	of := func(id string, f laminate.PartForm) laminate.JobPart {
		return laminate.JobPart{ID: id, Part: laminate.Part{Form: f}}
	}
	tank := line(of("shell", laminate.ShellCourse), of("head", laminate.HeadPart), of("F1", laminate.Flange), of("lid", laminate.Cover))
	pipe := line(of("run", laminate.Pipe), of("bend", laminate.Elbow), of("lid", laminate.Cover), of("F1", laminate.Flange), of("F2", laminate.Flange))
	nozzle := line(of("shell", laminate.ShellCourse), of("F1", laminate.Flange), of("top", laminate.ShellCourse))
	nozzle.Nozzles = []laminate.Nozzle{{ID: "N1", On: "shell", Flange: "F1"}}
	for _, c := range []struct {
		name string
		j    *laminate.Job
		want [][2]int
	}{
		{"tank", tank, [][2]int{{0, 1}}},
		{"pipe", pipe, [][2]int{{0, 1}, {1, 3}}},
		{"nozzle between", nozzle, [][2]int{{0, 2}}},
	} {
		if got := edit.Meeting(c.j); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	n, err := edit.AddJoint(tank, 2).Do(tank)
	if err != nil || n.Joints[0].Between != [2]string{"shell", "head"} {
		t.Errorf("%v %+v", err, n)
	}
	loose := line(of("F1", laminate.Flange), of("lid", laminate.Cover))
	if n, err := edit.AddJoint(loose, 0).Do(loose); err == nil {
		t.Errorf("joined %q", n.Joints[0].Between)
	}
}
