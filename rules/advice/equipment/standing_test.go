package equipment_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice/equipment"
)

// What somebody has stated since is no assumption any more, and stands on no paper and
// in no later notes; what nobody stated stays, and so does what no key settles.
func TestStanding_leavesOutWhatIsStatedByNow(t *testing.T) {
	j := &laminate.Job{
		Parts:  []laminate.JobPart{{ID: "shell", Part: laminate.Part{ModulusRetention: laminate.Some(0.8)}}, {ID: "head"}},
		Joints: []laminate.Joint{{ID: "J1", Gap: quantity.New(0.125, quantity.Inch)}, {ID: "J2"}},
	}
	const notes = `As ordered (gap).
Proposed: laminate shell.
Assumed: all parts laid by hand (process).
Assumed: part shell, part head: assumed for the structure: the warm wall keeps 82 % of its cold modulus, from memory; state what a test says (modulus_retention).
Assumed: part shell, part gone: keeps 82 % (modulus_retention).
Assumed: part shell: its waxed coat is laid last, when its joints and nozzles are.
Assumed: joint J1: room for a gap of 0.25 in in the width; state the gap (gap).
Assumed: joint J1, joint J2: no load along the axis; state what pulls (axial_load; 0 where nothing does).
Design aid: a licensed engineer decides.
`
	const want = `As ordered (gap).
Proposed: laminate shell.
Assumed: all parts laid by hand (process).
Assumed: part head: assumed for the structure: the warm wall keeps 82 % of its cold modulus, from memory; state what a test says (modulus_retention).
Assumed: part shell: its waxed coat is laid last, when its joints and nozzles are.
Assumed: joint J1, joint J2: no load along the axis; state what pulls (axial_load; 0 where nothing does).
Design aid: a licensed engineer decides.
`
	if got := equipment.Standing(j, notes); got != want {
		t.Errorf("%s", got)
	}
}
