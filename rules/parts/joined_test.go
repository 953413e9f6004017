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

// ofJoints are the rules of the family that go by joints, nozzles and names, and are tried apart.
var ofJoints = map[string]bool{"parts-not-joined": true, "joined-parts-differ": true, "joint-elsewhere": true, "cone-open": true, "id-shared": true, "laminate-unused": true, "vessel-unvented": true, "seal-shut-in": true}

const counted = "course-counted" // of what is joined; of the shell it is tried with what stands

// spool is two pipes of 12 in, joined.
func spool() *laminate.Job {
	j := tank()
	pipe := laminate.JobPart{ID: "a", Laminate: "thin"}
	pipe.Form, pipe.Process, pipe.InsideDiameter, pipe.Length = laminate.Pipe, laminate.ContactMolded, in(12), in(120)
	other := pipe
	other.ID = "b"
	j.Vessel, j.Parts, j.Laminates = laminate.Vessel{}, []laminate.JobPart{pipe, other}, j.Laminates[1:]
	j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"a", "b"}}}
	return j
}

// pieces are two such spools, the second between c and d, whose ends are as said.
func pieces(ends laminate.Ends) func(j *laminate.Job) {
	return func(j *laminate.Job) {
		c, d := j.Parts[0], j.Parts[0]
		c.ID, d.ID = "c", "d"
		c.Ends, d.Ends = ends, ends
		j.Parts = append(j.Parts, c, d)
		j.Joints = append(j.Joints, laminate.Joint{ID: "K", Between: [2]string{"c", "d"}})
	}
}

func TestRules_ofWhatIsJoined(t *testing.T) {
	onTank := func(change func(j *laminate.Job)) func(*laminate.Job) {
		return func(j *laminate.Job) {
			*j = *tank()
			for i := 1; i < len(j.Parts); i++ {
				j.Joints = append(j.Joints, laminate.Joint{ID: fmt.Sprint("J", i), Between: [2]string{j.Parts[i-1].ID, j.Parts[i].ID}})
			}
			change(j)
		}
	}
	// cone hangs a cone from 96 in to 24 in under the courses, in the place of the bottom.
	cone := func(j *laminate.Job) {
		c := &j.Parts[0]
		c.Form, c.SmallDiameter, c.HalfAngle, c.Knuckle = laminate.Cone, in(24), laminate.Some(30.0), ""
		c.KnuckleRadius, c.KnuckleHeight, c.Supported = quantity.Length{}, quantity.Length{}, laminate.Optional[bool]{}
	}
	drain := func(size quantity.Length) func(j *laminate.Job) {
		return func(j *laminate.Job) {
			cone(j)
			f := laminate.JobPart{ID: "drain", Laminate: "thin"}
			f.Form, f.Size, f.Process = laminate.Flange, size, laminate.ContactMolded
			j.Parts = append(j.Parts, f)
			j.Joints = append(j.Joints, laminate.Joint{ID: "D", Between: [2]string{"bottom", "drain"}})
		}
	}
	// flanged bolts the courses to each other, the upper flange wider by so much.
	flanged := func(wider quantity.Length) func(j *laminate.Job) {
		return func(j *laminate.Job) {
			j.Joints = slices.Delete(j.Joints, 1, 2)
			for k, id := range []string{"low", "high"} {
				f := laminate.JobPart{ID: "f-" + id, Laminate: "thin"}
				f.Form, f.Process = laminate.Flange, laminate.ContactMolded
				f.BoltCircle, f.Bolts, f.BoltSize = in(105), laminate.Some(44), in(1.5)
				f.Size = quantity.New(j.Parts[1].InsideDiameter.SI()+float64(k)*wider.SI(), quantity.Meter)
				j.Parts = slices.Insert(j.Parts, 2+k, f)
				j.Joints = append(j.Joints, laminate.Joint{ID: "F" + id, Between: [2]string{id, f.ID}})
			}
		}
	}
	for _, c := range []struct {
		name   string
		change func(j *laminate.Job)
		want   []string
		says   string
	}{
		{"a spool", func(*laminate.Job) {}, nil, ""},
		{"a flange and a cover that nothing names", func(j *laminate.Job) {
			flange(laminate.FlatFace, laminate.Some(true))(j)
			c := j.Parts[2]
			c.ID, c.Form = "lid", laminate.Cover
			j.Parts = append(j.Parts, c)
		}, []string{"incomplete parts-not-joined", "incomplete parts-not-joined"}, "flange f is tied to nothing: no joint and no nozzle names it"},
		{"flanges alone", func(j *laminate.Job) {
			flange(laminate.FlatFace, laminate.Some(true))(j)
			j.Parts, j.Joints = j.Parts[2:], nil
		}, nil, ""},
		{"a pipe by itself", func(j *laminate.Job) { j.Parts, j.Joints = j.Parts[:1], nil }, nil, ""},
		{"one of three", func(j *laminate.Job) {
			j.Parts = append(j.Parts, j.Parts[0])
			j.Parts[2].ID = "c"
		}, []string{"incomplete parts-not-joined"}, "pipe c is joined to nothing"},
		{"three panels of which two are joined", func(j *laminate.Job) {
			j.Parts = append(j.Parts, j.Parts[0])
			j.Parts[2].ID = "c"
			for i := range j.Parts {
				x := &j.Parts[i]
				x.Form, x.InsideDiameter, x.Width, x.Edge = laminate.Panel, quantity.Length{}, in(24), laminate.Clamped
			}
		}, []string{"incomplete parts-not-joined"}, "panel c is joined to nothing: no joint names it"},
		{"a panel by itself", func(j *laminate.Job) {
			j.Parts, j.Joints = j.Parts[:1], nil
			j.Parts[0].Form, j.Parts[0].InsideDiameter = laminate.Panel, quantity.Length{}
		}, nil, ""},
		{"a line in two pieces", pieces(laminate.NoEnds), []string{"incomplete parts-not-joined"}, "pipe b and pipe c each have an end that no joint names"},
		{"pieces of open ends", pieces(laminate.OpenEnds), nil, ""},
		{"pieces joined", func(j *laminate.Job) {
			pieces(laminate.NoEnds)(j)
			j.Joints = append(j.Joints, laminate.Joint{ID: "L", Between: [2]string{"d", "a"}})
		}, nil, ""},
		{"two pipes at one joint", func(j *laminate.Job) { j.Parts[1].Count = laminate.Some(2) }, []string{"break course-counted"}, "b counts 2: it is taken off so many times, and what is laid at its joints once"},
		{"joined twice", func(j *laminate.Job) {
			j.Joints = append(j.Joints, laminate.Joint{ID: "K", Between: [2]string{"b", "a"}})
		}, []string{"warning joint-elsewhere"}, "joint K joins what joint J joins: parts b and a"},
		{"joined across another", onTank(func(j *laminate.Job) {
			j.Joints = append(j.Joints, laminate.Joint{ID: "K", Between: [2]string{"bottom", "high"}})
		}), []string{"break joint-elsewhere"}, "parts bottom and high do not meet"},
		{"a step", func(j *laminate.Job) { j.Parts[1].InsideDiameter = in(11.9) }, []string{"break joined-parts-differ"}, "joint J: part a is 12 in across inside, part b 11.9 in"},
		{"as wide as a gauge tells", func(j *laminate.Job) { j.Parts[1].InsideDiameter = in(11.99) }, nil, ""},
		{"a flange of another size", func(j *laminate.Job) {
			j.Parts[1].Form, j.Parts[1].Size, j.Parts[1].InsideDiameter = laminate.Flange, in(10), quantity.Length{}
		}, []string{"break joined-parts-differ"}, "part b 10 in"},
		{"a metric pipe and a flange of its nominal size", func(j *laminate.Job) {
			j.Parts[0].InsideDiameter = quantity.New(300, quantity.Millimetre)
			j.Parts[1].Form, j.Parts[1].InsideDiameter, j.Parts[1].Size = laminate.Flange, quantity.Length{}, in(12)
		}, nil, ""},
		{"a flange bored as the pipe", func(j *laminate.Job) {
			j.Parts[0].InsideDiameter, j.Parts[1].InsideDiameter = in(11.5), in(11.5)
			j.Parts[1].Form, j.Parts[1].Size = laminate.Flange, in(12)
		}, nil, ""},
		{"a reducer between", func(j *laminate.Job) {
			r := j.Parts[0]
			r.ID, r.Form, r.SmallDiameter = "r", laminate.Cone, in(8)
			j.Parts[1].InsideDiameter = in(8)
			j.Parts = append(j.Parts, r)
			j.Joints = []laminate.Joint{{ID: "J", Between: [2]string{"a", "r"}}, {ID: "K", Between: [2]string{"r", "b"}}}
		}, nil, ""},

		{"a tank", onTank(func(*laminate.Job) {}), nil, ""},
		{"its courses not joined", onTank(func(j *laminate.Job) { j.Joints = slices.Delete(j.Joints, 1, 2) }), []string{"incomplete parts-not-joined"}, "parts low and high meet, and no joint is between them"},
		{"its courses bolted", onTank(flanged(in(0))), nil, ""},
		{"by flanges of two sizes", onTank(flanged(in(6))), []string{"break joined-parts-differ", "incomplete parts-not-joined"}, "flanges f-low and f-high between them are, as stated, not of one size and drilling"},
		{"by flanges of two drillings", onTank(func(j *laminate.Job) {
			flanged(in(0))(j)
			j.Parts[2].BoltCircle = in(106)
		}), []string{"incomplete parts-not-joined"}, "flanges f-low and f-high between them"},
		{"by flanges whose bolts nobody states", onTank(func(j *laminate.Job) {
			flanged(in(0))(j)
			j.Parts[3].Bolts = laminate.Optional[int]{}
		}), []string{"incomplete parts-not-joined"}, "flanges f-low and f-high between them"},
		{"a cone that nothing closes", onTank(cone), []string{"incomplete cone-open"}, "part bottom: what closes its small end, 24 in"},
		{"a cone with its drain", onTank(drain(in(24))), nil, ""},
		{"with one of another size", onTank(drain(in(23))), []string{"break joined-parts-differ"}, "joint D: part bottom is"},

		{"a nozzle with the name of a part", func(j *laminate.Job) { j.Nozzles = []laminate.Nozzle{{ID: "a", On: "a"}} }, []string{"warning id-shared"}, "nozzle a has the name of part a"},
		{"a joint with the name of a part", func(j *laminate.Job) { j.Joints[0].ID = "b" }, []string{"warning id-shared"}, "joint b has the name of part b"},
		{"a laminate that nothing names", func(j *laminate.Job) {
			j.Laminates = append(j.Laminates, laminate.Laminate{ID: "left", Plies: j.Laminates[0].Plies})
		}, []string{"warning laminate-unused"}, "names laminate left"},
		{"one without plies", func(j *laminate.Job) { j.Laminates = append(j.Laminates, laminate.Laminate{ID: "left"}) }, nil, ""},
		{"a strap that a joint names", func(j *laminate.Job) {
			j.Laminates = append(j.Laminates, laminate.Laminate{ID: "left", Plies: j.Laminates[0].Plies})
			j.Joints[0].Outside = "left"
		}, nil, ""},
		{"a pipe with the name of another in capitals", func(j *laminate.Job) { j.Parts[1].ID, j.Joints[0].Between[1] = "A", "A" }, []string{"warning id-shared"}, "part A and part a differ by capital and small letters alone"},
		{"a nozzle with that of a joint", func(j *laminate.Job) { j.Nozzles = []laminate.Nozzle{{ID: "j", On: "a"}} }, []string{"warning id-shared"}, "joint J and nozzle j differ"},
		{"laminates so", func(j *laminate.Job) {
			j.Laminates = append(j.Laminates, laminate.Laminate{ID: "Thin"})
		}, []string{"warning id-shared"}, "laminate Thin and laminate thin"},
		{"resins so", func(j *laminate.Job) {
			r := j.Resins[0]
			r.ID = strings.ToUpper(r.ID)
			j.Resins = append(j.Resins, r)
		}, []string{"warning id-shared"}, "differ by capital"},
		{"a joint with the name of a nozzle", func(j *laminate.Job) { j.Nozzles = []laminate.Nozzle{{ID: "J", On: "a"}} }, []string{"warning id-shared"}, "has the name of nozzle J"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := spool()
			c.change(j)
			var got []string
			said := ""
			for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
				if ofJoints[f.Rule.ID] || f.Rule.ID == counted {
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
