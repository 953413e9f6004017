package edit_test

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
)

// named is a job in which everything that can name a laminate names "a".
func named() *laminate.Job {
	j := twoParts()
	j.Parts[0].Knuckle = "a"
	j.Joints = []laminate.Joint{{ID: "j", Between: [2]string{"p", "q"}, Outside: "a", Inside: "a"}}
	j.Nozzles = []laminate.Nozzle{{ID: "n", On: "p", Pad: "a", InstallationOutside: "a", InstallationInside: "a", Neck: "a"}}
	return j
}

func TestRename_followsWhereverItIsNamed(t *testing.T) {
	j := named()
	n, err := edit.Rename(laminate.Ref{Kind: laminate.RefLaminate}, "wall").Do(j)
	if err != nil {
		t.Fatal(err)
	}
	at := 0
	edit.LaminateNames(n, func(id *string, _ laminate.Ref) {
		if *id == "a" {
			t.Error("still named a")
		}
		if *id == "wall" {
			at++
		}
	})
	if at != 8 || n.Laminates[0].ID != "wall" || j.Laminates[0].ID != "a" || len(n.Laminates[0].Plies) != 1 {
		t.Errorf("named at %d places: %+v", at, n.Laminates)
	}
	if n, err = edit.Rename(laminate.Ref{Kind: laminate.RefJobPart}, "shell").Do(j); err != nil || n.Joints[0].Between != [2]string{"shell", "q"} || n.Nozzles[0].On != "shell" {
		t.Errorf("%v, %+v", err, n)
	}
	for id, says := range map[string]string{"b": "another laminate", "": "missing", "a b\x01": "id"} {
		if _, err := edit.Rename(laminate.Ref{Kind: laminate.RefLaminate}, id).Do(j); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v", id, err)
		}
	}
	if _, err := edit.Rename(laminate.Ref{Kind: laminate.RefJoint}, "x").Do(j); err == nil {
		t.Error("a joint was renamed")
	}
}

func TestLaminates_comeAndGo(t *testing.T) {
	j := named()
	n, err := edit.AddLaminate("c", "a").Do(j)
	if err != nil || len(n.Laminates) != 3 || !slices.Equal(n.Laminates[2].Plies, n.Laminates[0].Plies) {
		t.Fatalf("%v %+v", err, n)
	}
	if bare, err := edit.AddLaminate("c", "").Do(j); err != nil || len(bare.Laminates[2].Plies) != 0 {
		t.Errorf("%v", err)
	}
	if _, err := edit.AddLaminate("a", "").Do(j); err == nil {
		t.Error("a second one of an id was added")
	}
	if _, err := edit.RemoveLaminate(0).Do(n); err == nil || !strings.Contains(err.Error(), "laminate a stays: part p, joint j, nozzle n name it") {
		t.Errorf("%v", err)
	}
	if gone, err := edit.RemoveLaminate(2).Do(n); err != nil || len(gone.Laminates) != 2 || len(n.Laminates) != 3 {
		t.Errorf("%v", err)
	}
	if by := edit.UsedBy(j, "a"); !slices.Equal(by, []string{"part p", "joint j", "nozzle n"}) {
		t.Errorf("used by %v", by)
	}
}

// What is named stays, and who names it is said: it was that no part has the id.
func TestRemovePart_saysWhoNamesIt(t *testing.T) {
	j := twoParts()
	j.Joints = []laminate.Joint{{ID: "J1", Between: [2]string{"p", "q"}}}
	j.Nozzles = []laminate.Nozzle{{ID: "N1", On: "p"}, {ID: "N2", On: "q", Flange: "p"}}
	for i, want := range []string{"part p stays: joint J1, nozzle N1, nozzle N2 name it; ", "part q stays: joint J1, nozzle N2 name it; "} {
		if _, err := edit.RemovePart(i).Do(j); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
	j.Joints, j.Nozzles = nil, j.Nozzles[:1]
	if _, err := edit.RemovePart(0).Do(j); err == nil || !strings.HasPrefix(err.Error(), "part p stays: nozzle N1 names it; ") {
		t.Error(err)
	}
	if n, err := edit.RemovePart(1).Do(j); err != nil || len(n.Parts) != 1 || n.Parts[0].ID != "p" || len(j.Parts) != 2 {
		t.Errorf("%v %+v", err, n)
	}
	if _, err := edit.RemovePart(2).Do(j); err == nil {
		t.Error("a part that is not there was taken out")
	}
}

// A new part of a job names no laminate, so that check asks for its wall: an empty
// one was made, judged as a wall without plies, and left behind with the part gone.
func TestParts_leaveNoEmptyLaminateBehind(t *testing.T) {
	first, err := edit.AddPart(0).Do(&laminate.Job{})
	if err != nil || len(first.Laminates) != 0 || len(first.Parts) != 1 || first.Parts[0].Laminate != "" {
		t.Fatalf("%v %+v", err, first)
	}
	j := twoParts()
	// Beside a part that has one it names none either: each wall is asked for.
	if n, err := edit.AddPart(1).Do(j); err != nil || n.Parts[1].Laminate != "" || len(n.Laminates) != len(j.Laminates) {
		t.Errorf("%v %+v", err, n)
	}
	j.Laminates[0].Plies = nil
	if n, err := edit.RemovePart(0).Do(j); err != nil || len(n.Laminates) != 1 || n.Laminates[0].ID != "b" || len(j.Laminates) != 2 {
		t.Errorf("%v %+v", err, n)
	}
	if n, err := edit.RemovePart(1).Do(j); err != nil || len(n.Laminates) != 2 {
		t.Errorf("plies went with the part: %v %+v", err, n)
	}
	j.Joints = []laminate.Joint{{ID: "J1", Outside: "a"}}
	if n, err := edit.RemovePart(0).Do(j); err != nil || len(n.Laminates) != 2 {
		t.Errorf("a laminate that a joint names went: %v %+v", err, n)
	}
}
