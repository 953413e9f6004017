package job

import (
	"fmt"
	"strings"
	"testing"

	"frp/veilwright/laminate"
)

// A line is shown in the order in which its joints tie it, from an end on, whatever the
// order of the document.
func TestChain(t *testing.T) {
	j := &laminate.Job{
		Parts: []laminate.JobPart{
			{ID: "far", Part: laminate.Part{Form: laminate.Pipe}}, {ID: "bend", Part: laminate.Part{Form: laminate.Elbow}}, {ID: "near", Part: laminate.Part{Form: laminate.Pipe}},
			{ID: "blind", Part: laminate.Part{Form: laminate.Cover}},
		},
		Joints:  []laminate.Joint{{ID: "J1", Between: [2]string{"near", "bend"}}, {ID: "J2", Between: [2]string{"far", "bend"}}},
		Nozzles: []laminate.Nozzle{{ID: "N1", On: "bend"}},
	}
	want := []string{" in the order of its joints", " ─ far  pipe", "   ╪ J2", " ─ bend  elbow", "   ├─ N1", "   ╪ J1", " ─ near  pipe"}
	got := chain(j, 30, 12)
	for i := range got {
		got[i] = strings.TrimRight(got[i], " ")
	}
	if fmt.Sprintf("%q", got) != fmt.Sprintf("%q", want) {
		t.Errorf("%q", got)
	}
	if got := chain(j, 30, 6); len(got) != 6 || !strings.HasPrefix(got[5], " … 1 part more") {
		t.Errorf("%q", got)
	}
	ring := &laminate.Job{Parts: j.Parts, Joints: append(j.Joints[:2:2], laminate.Joint{ID: "J3", Between: [2]string{"far", "near"}})}
	if got := chain(ring, 30, 12); len(got) != 6 {
		t.Errorf("%q", got)
	}
	if got := chain(&laminate.Job{Parts: j.Parts}, 30, 12); got != nil {
		t.Errorf("%q", got)
	}
	// Of many no more is walked than there is room for.
	long := &laminate.Job{}
	for i := range 900 {
		long.Parts = append(long.Parts, laminate.JobPart{ID: fmt.Sprint(i), Part: laminate.Part{Form: laminate.Pipe}})
		if i > 0 {
			long.Joints = append(long.Joints, laminate.Joint{ID: fmt.Sprint("J", i), Between: [2]string{fmt.Sprint(i - 1), fmt.Sprint(i)}})
		}
	}
	if got := chain(long, 30, 12); len(got) != 12 || !strings.HasPrefix(got[11], " … 895 parts more") {
		t.Errorf("%q", got)
	}
}
