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

// held is the tank of 120 in to the rim under a head that rises 16.4 in, filled to 110 in
// without pressure, with nozzles.
func held(nozzles ...laminate.Nozzle) *laminate.Job {
	j := tank()
	j.Service.Pressure, j.Service.Vacuum, j.Service.SpecificGravity = quantity.New(0, quantity.PSI), quantity.New(0, quantity.PSI), laminate.Some(1.2)
	j.Vessel.LiquidHeight = in(110)
	j.Nozzles = nozzles
	return j
}

// apart gives a part a schedule of its own that says what the job does.
func apart(j *laminate.Job, part int) {
	s := *j.Wall(part)
	s.Part.Place = laminate.Place{}
	j.Parts[part].Laminate, j.Parts[part].Schedule = "", "course.toml"
	j.Schedules = map[string]*laminate.Schedule{"course.toml": &s}
}

func TestVesselUnvented(t *testing.T) {
	psi := func(v float64) quantity.Pressure { return quantity.New(v, quantity.PSI) }
	low := laminate.Nozzle{ID: "out", On: "low", Height: in(15), Size: in(3)}
	high := func(inches float64) laminate.Nozzle { // on the course from 60 in
		return laminate.Nozzle{ID: "over", On: "high", Height: in(inches), Size: in(3)}
	}
	onHead := func(inches float64) laminate.Nozzle {
		return laminate.Nozzle{ID: "vent", On: "head", Offset: in(20), Size: in(inches)}
	}
	lid := laminate.JobPart{ID: "lid", Laminate: "thin"}
	lid.Form, lid.Size = laminate.Cover, in(24)
	manway := func(n laminate.Nozzle) laminate.Nozzle {
		n.ID, n.Cover = "way", "lid"
		return n
	}
	covered := func(j *laminate.Job) { j.Parts = append(j.Parts, lid) }
	const warning, note = "warning vessel-unvented", "note vessel-unvented"
	for _, c := range []struct {
		name    string
		nozzles []laminate.Nozzle
		change  func(j *laminate.Job)
		want    []string
		says    string
	}{
		{"no nozzle", nil, nil, []string{note}, "head closes the vessel, and the job states no nozzle"},
		{"an outlet alone", []laminate.Nozzle{low}, nil, []string{warning}, "head closes the vessel, and no nozzle is open above the liquid: filling"},
		{"a vent on the head", []laminate.Nozzle{low, onHead(3)}, nil, nil, ""},
		{"one of no place on the head", []laminate.Nozzle{low, {ID: "vent", On: "head", Size: in(3)}}, nil, nil, ""},
		// 110 in of liquid stand 50 in up the upper course; a bore of 3 in reaches 1-1/2 in up.
		{"a bore that touches the level", []laminate.Nozzle{low, high(48.5)}, nil, []string{warning}, ""},
		{"a bore partly above", []laminate.Nozzle{low, high(48.6)}, nil, nil, ""},
		{"one under the level in the head", []laminate.Nozzle{low, onHead(3)}, func(j *laminate.Job) { j.Vessel.LiquidHeight = in(136.4) }, []string{warning}, ""},
		{"one above the level in the head", []laminate.Nozzle{low, onHead(3)}, func(j *laminate.Job) { j.Vessel.LiquidHeight = in(130) }, nil, ""},
		{"a manway above that a cover closes", []laminate.Nozzle{low, manway(onHead(24))}, covered, []string{warning}, "above the liquid; way above it is closed by a cover: filling"},
		{"a vent on its cover", []laminate.Nozzle{low, manway(onHead(24)), {ID: "vent", On: "lid", Size: in(3)}}, covered, nil, ""},
		{"a vent on the cover of a manway below", []laminate.Nozzle{low, manway(low), {ID: "vent", On: "lid", Size: in(3)}}, covered, nil, ""}, // how high on it nobody says
		{"a manway below and an open vent", []laminate.Nozzle{manway(low), onHead(3)}, covered, nil, ""},
		{"a flat lid without an opening", []laminate.Nozzle{low}, func(j *laminate.Job) {
			j.Parts[3].Form, j.Parts[3].Shape = laminate.Cover, laminate.Shape{}
		}, []string{warning}, ""},
		{"a vent on a flat lid", []laminate.Nozzle{low, onHead(3)}, func(j *laminate.Job) {
			j.Parts[3].Form, j.Parts[3].Shape = laminate.Cover, laminate.Shape{}
		}, nil, ""},
		{"an opening on a course of another file", []laminate.Nozzle{low, high(58)}, func(j *laminate.Job) { apart(j, 2) }, nil, ""},
		{"none, where a course is of another file", []laminate.Nozzle{low}, func(j *laminate.Job) { apart(j, 2) }, []string{warning}, ""},
		{"an open top", []laminate.Nozzle{low}, func(j *laminate.Job) { j.Parts = j.Parts[:3] }, nil, ""},
		{"no liquid", []laminate.Nozzle{low}, func(j *laminate.Job) { j.Vessel.LiquidHeight = in(0) }, nil, ""},
		{"a level that nobody states", []laminate.Nozzle{low}, func(j *laminate.Job) { j.Vessel = laminate.Vessel{} }, nil, ""},
		{"a height that nobody states", []laminate.Nozzle{{ID: "out", On: "low", Size: in(3)}}, nil, nil, ""},
		{"as much gas as an atmospheric tank has", []laminate.Nozzle{low}, func(j *laminate.Job) { j.Service.Pressure = psi(0.5) }, []string{warning}, ""},
		{"a gas pressure", []laminate.Nozzle{low}, func(j *laminate.Job) { j.Service.Pressure = psi(0.6) }, nil, ""},
		{"a vacuum", []laminate.Nozzle{low}, func(j *laminate.Job) { j.Service.Vacuum = psi(0.6) }, nil, ""},
		{"no pressure stated", []laminate.Nozzle{low}, func(j *laminate.Job) { j.Service.Pressure, j.Service.Vacuum = quantity.Pressure{}, quantity.Pressure{} }, []string{warning}, ""},
		{"a pipe up from the top", []laminate.Nozzle{low}, func(j *laminate.Job) {
			pipe := laminate.JobPart{ID: "p", Laminate: "thin"}
			pipe.Form, pipe.InsideDiameter, pipe.Length = laminate.Pipe, in(6), in(90)
			j.Parts = append(j.Parts, pipe)
			j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"head", "p"}}}
		}, nil, ""},
		{"a vessel on another, which alone has a vent", []laminate.Nozzle{low, onHead(3)}, func(j *laminate.Job) {
			j.Parts = slices.Insert(j.Parts, 2, j.Parts[3])
			j.Parts[2].ID = "middle"
			j.Parts[1].LiquidHeight, j.Parts[3].LiquidHeight, j.Vessel = in(50), in(40), laminate.Vessel{}
		}, []string{warning}, "middle closes the vessel"},
		{"a vent smaller than the outlet", []laminate.Nozzle{low, onHead(2)}, nil, []string{note}, "nozzle vent, of 2 in, is the largest that is open above the liquid, and nozzle out below has 3 in"},
		{"as large as the outlet", []laminate.Nozzle{low, onHead(2), high(58)}, nil, nil, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := held(c.nozzles...)
			if c.change != nil {
				c.change(j)
			}
			var got []string
			said := ""
			for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
				if f.Rule.ID == "vessel-unvented" {
					got = append(got, fmt.Sprint(f.Severity, " ", f.Rule.ID))
					said += f.Message + "\n"
				}
			}
			if !slices.Equal(got, c.want) || !strings.Contains(said, c.says) {
				t.Errorf("%q, want %q and %q\n%s", got, c.want, c.says, said)
			}
		})
	}
}
