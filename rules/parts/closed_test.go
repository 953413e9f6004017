package parts_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
)

// sealed is the tank with a joint and a seal wherever its parts meet.
func sealed() *laminate.Job {
	j := tank()
	for i := 1; i < len(j.Parts); i++ {
		j.Joints = append(j.Joints, laminate.Joint{ID: fmt.Sprint("J", i), Between: [2]string{j.Parts[i-1].ID, j.Parts[i].ID}, Outside: "thin", Inside: "thin"})
	}
	return j
}

func TestSealShutIn(t *testing.T) {
	on := func(part string, inches float64) func(*laminate.Job) {
		return func(j *laminate.Job) {
			j.Nozzles = append(j.Nozzles, laminate.Nozzle{ID: "N", On: part, Height: in(30), Offset: in(0), Size: in(inches)})
		}
	}
	wide := func(inches float64) func(*laminate.Job) {
		return func(j *laminate.Job) {
			for i := range j.Parts {
				j.Parts[i].InsideDiameter = in(inches)
			}
			on("head", 8)(j)
		}
	}
	for _, c := range []struct {
		name   string
		change func(j *laminate.Job)
		says   string // "" where nothing is said
	}{
		{"no opening", func(*laminate.Job) {}, "joint J3 closes the vessel, and its seal is laid from inside: it has no opening"},
		{"a nozzle", on("low", 6), "its widest opening is 6 in, below 18 in"},
		{"a manway", on("low", 18), ""},
		{"one on its head", on("head", 24), ""},
		{"a nozzle of no size", on("low", 0), ""},
		{"a handhole in a head of 24 in", wide(24), ""}, // 12 in from its axis to the seal
		{"a handhole in one of 50 in", wide(50), "8 in, below 18 in"},
		{"what a hand reaches from an end", wide(19), ""},
		{"no seal in one joint", func(j *laminate.Job) { j.Joints[1].Inside = "" }, ""},
		{"a joint that is not there", func(j *laminate.Job) { j.Joints = j.Joints[1:] }, ""},
		{"an open top", func(j *laminate.Job) { j.Parts, j.Joints = j.Parts[:3], j.Joints[:2] }, ""},
		{"a cone with a drain that a person fits through", func(j *laminate.Job) {
			c := &j.Parts[0]
			c.Form, c.SmallDiameter, c.HalfAngle = laminate.Cone, in(20), laminate.Some(30.0)
			f := laminate.JobPart{ID: "drain", Laminate: "thin"}
			f.Form, f.Size, f.Process = laminate.Flange, in(20), laminate.ContactMolded
			j.Parts = append(j.Parts, f)
			j.Joints = append(j.Joints, laminate.Joint{ID: "D", Between: [2]string{"bottom", "drain"}, Inside: "thin"})
		}, ""},
		{"two vessels of which one has a manway", func(j *laminate.Job) {
			j.Parts = slices.Insert(j.Parts, 2, j.Parts[3])
			j.Parts[2].ID, j.Joints = "middle", nil
			for i := 1; i < len(j.Parts); i++ {
				j.Joints = append(j.Joints, laminate.Joint{ID: fmt.Sprint("J", i), Between: [2]string{j.Parts[i-1].ID, j.Parts[i].ID}, Outside: "thin", Inside: "thin"})
			}
			on("high", 24)(j)
		}, "joint J2 closes the vessel"},
	} {
		j := sealed()
		j.Service.Pressure = quantity.New(0, quantity.PSI)
		c.change(j)
		said := ""
		for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
			if f.Rule.ID == "seal-shut-in" {
				said += f.Message + "\n"
				if f.Severity != rules.Incomplete || f.At.Kind != laminate.RefJoint || f.At.Key != "inside" {
					t.Errorf("%s: %+v", c.name, f)
				}
			}
		}
		if (c.says == "") != (said == "") || !strings.Contains(said, c.says) {
			t.Errorf("%s: %q, want %q", c.name, said, c.says)
		}
	}
}
