package joint_test

import (
	"slices"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
)

// onHead puts a nozzle of 2 in with a pad of 8 in on a head over a course of 12 in,
// at an offset from its axis in inches. Crowns end at these places: L (D/2 − r)/(L − r)
// is 12 · 5/11 = 5.4545 in, of an ellipsoid 0.4 D (geometry; ASME VIII UG-37, from memory).
func onHead(shape laminate.HeadShape, offset float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		upright(j)
		h := &j.Parts[1]
		h.Form, h.Head, h.Length = laminate.HeadPart, shape, quantity.Length{}
		switch shape {
		case laminate.Torispherical:
			h.CrownRadius, h.KnuckleRadius = inches(12), inches(1)
		case laminate.Ellipsoidal:
			h.Depth = inches(3)
		default:
		}
		j.Nozzles[0].On, j.Nozzles[0].Offset, j.Nozzles[0].Height = "b", inches(offset), quantity.Length{}
	}
}

// overCorner stands part a on a flat bottom, the nozzle at a height in inches.
func overCorner(height float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		upright(j)
		b := laminate.JobPart{ID: "bottom"}
		b.Form, b.InsideDiameter, b.KnuckleHeight = laminate.FlatBottom, inches(12), inches(4)
		j.Parts = slices.Insert(j.Parts, 0, b)
		j.Nozzles[0].Height = inches(height)
	}
}

// inCorner puts the nozzle on such a bottom.
func inCorner(offset float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		overCorner(48)(j)
		j.Nozzles[0].On, j.Nozzles[0].Offset, j.Nozzles[0].Height = "bottom", inches(offset), quantity.Length{}
		j.Parts[0].KnuckleHeight = inches(2)
	}
}

// also changes the nozzle after what came before.
func also(before func(*laminate.Job), change func(n *laminate.Nozzle)) func(*laminate.Job) {
	return func(j *laminate.Job) { before(j); change(&j.Nozzles[0]) }
}

// onCone puts the nozzle on a cone of 30° from 12 in to 6 in over part a.
func onCone(offset float64) func(*laminate.Job) {
	return func(j *laminate.Job) {
		upright(j)
		c := &j.Parts[1]
		c.Form, c.HalfAngle, c.SmallDiameter, c.Length = laminate.Cone, laminate.Some(30.0), inches(6), quantity.Length{}
		j.Nozzles[0].On, j.Nozzles[0].Offset, j.Nozzles[0].Height = "b", inches(offset), quantity.Length{}
	}
}

func TestOpenings_inKnucklesAndOffTheirPlace(t *testing.T) {
	bare := func(n *laminate.Nozzle) { n.Pad, n.PadDiameter = "", quantity.Length{} }
	high := func(v float64) func(*laminate.Nozzle) { return func(n *laminate.Nozzle) { n.Height = inches(v) } }
	for _, c := range []jobCase{
		// The pad is laid to 4 + 6 × 4 × 0.0434 = 5.04 in from its middle.
		{"in the crown", onHead(laminate.Torispherical, 0.4), nil, ""},
		{"its pad past the crown", onHead(laminate.Torispherical, 0.5), []string{"incomplete opening-in-knuckle"}, "its pad reaches 5.54 in from the axis of part b, and its crown ends at 5.45 in"},
		{"without a pad", also(onHead(laminate.Torispherical, 4.4), bare), nil, ""},
		{"past the crown", also(onHead(laminate.Torispherical, 4.6), bare), []string{"incomplete opening-in-knuckle"}, "its opening reaches 5.6 in"},
		{"past the rim", also(onHead(laminate.Torispherical, 5.1), bare), []string{"break opening-off-part", "incomplete opening-in-knuckle"}, "part b ends at 6 in"},
		{"in the middle of an ellipsoid", also(onHead(laminate.Ellipsoidal, 3.7), bare), nil, ""},
		{"past 80 % of an ellipsoid", also(onHead(laminate.Ellipsoidal, 3.9), bare), []string{"incomplete opening-in-knuckle"}, "80 % of its diameter ends at 4.8 in"},
		{"anywhere in a hemisphere", onHead(laminate.Hemispherical, 4.9), nil, ""},

		{"above the corner", overCorner(5.1), nil, ""},
		{"into the corner", also(overCorner(4.9), bare), []string{"incomplete opening-in-knuckle"}, "its opening begins 3.9 in above the bottom, and the reinforcement of the corner, part bottom, runs up to 4 in"},
		{"in the middle of the bottom", inCorner(2.9), nil, ""},
		{"into the corner of the bottom", inCorner(3.1), []string{"incomplete opening-in-knuckle"}, "from 4 in on part bottom has the reinforcement of its corner"},

		// 12 − √(144 − 16) = 0.6863 in below the top at 4 in from the axis; the dish is
		// 12 (1 − cos φ) + cos φ = 2.2023 in deep, sin φ = 5/11.
		{"as high as the dish is there", also(also(onHead(laminate.Torispherical, 4), bare), high(1.516)), nil, ""},
		{"to half the opening", also(also(onHead(laminate.Torispherical, 4), bare), high(2.51)), nil, ""},
		{"above the dish there", also(also(onHead(laminate.Torispherical, 4), bare), high(2.53)), []string{"break opening-off-part"}, "its height is 2.53 in, and 4 in from its axis part b is 1.52 in above its lower end"},
		{"above a hemisphere", also(onHead(laminate.Hemispherical, 0), high(24)), []string{"break opening-off-part"}, "part b is 6 in above its lower end"},
		// 3 √(1 − 16/36) = 2.236 in.
		{"below an ellipsoid", also(also(onHead(laminate.Ellipsoidal, 3.6), bare), high(1.3)), []string{"break opening-off-part"}, "part b is 2.4 in above"},

		{"on a cone", onCone(4.5), nil, ""},
		{"off its large end", onCone(5.6), []string{"break opening-off-part"}, "runs off part b, which reaches from 3 in to 6 in"},
		{"off its small end", onCone(3.4), []string{"break opening-off-part"}, "runs off part b"},
		{"somewhere on a cone", also(onCone(4), func(n *laminate.Nozzle) { n.Offset = quantity.Length{} }), []string{"incomplete opening-off-part"}, "how far it is from the axis"},
		// (6 − 4.5)/tan 30° = 2.598 in.
		{"as high as the cone is there", also(onCone(4.5), high(2.6)), nil, ""},
		// In the middle of the shell, small end up, and as high as the cone is there.
		{"higher than it is", also(onCone(4.5), high(3.7)), []string{"break opening-off-part"}, "part b is 2.6 in above"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := sound()
			j.Joints = nil
			c.change(j)
			got, said := judged(j)
			got = slices.DeleteFunc(got, func(s string) bool {
				return !strings.HasSuffix(s, "opening-in-knuckle") && !strings.HasSuffix(s, "opening-off-part")
			})
			if !slices.Equal(got, c.want) || !strings.Contains(said, c.says) {
				t.Errorf("%q, want %q and %q\n%s", got, c.want, c.says, said)
			}
		})
	}
}

// The load that an opening takes away is that of the wall it is in: 25 psi over 12 in
// are 150 lb/in round a straight shell (p D/2), half that in a hemisphere, p L/2 in
// the crown of a dish, p a²/(2 b) at the top of an ellipsoid (membrane theory of
// shells of revolution: Timoshenko, from memory), 1/cos α as much in a cone.
func TestPadThin_goesByTheFormOfThePart(t *testing.T) {
	bare := func(n *laminate.Nozzle) { n.Pad, n.PadDiameter = "", quantity.Length{} }
	for _, c := range []jobCase{
		{"a straight shell", func(j *laminate.Job) { upright(j); bare(&j.Nozzles[0]) }, []string{"break pad-thin"}, "and 150 lb/in round have to be carried past it"},
		{"a hemisphere", also(onHead(laminate.Hemispherical, 0), bare), []string{"break pad-thin"}, "and 75 lb/in round"},
		{"the crown of a dish", also(onHead(laminate.Torispherical, 0), bare), []string{"break pad-thin"}, "and 150 lb/in round"},
		{"a flat ellipsoid", also(func(j *laminate.Job) {
			onHead(laminate.Ellipsoidal, 0)(j)
			j.Parts[1].Depth = inches(2.4) // D/2h 2.5
		}, bare), []string{"break pad-thin"}, "and 188 lb/in round"},
		{"an ellipsoid that no factor is known of", also(func(j *laminate.Job) {
			onHead(laminate.Ellipsoidal, 0)(j)
			j.Parts[1].Depth = inches(2)
		}, bare), []string{"incomplete pad-thin"}, "beyond which no factor is known"},
		// 25 psi over the 9 in that it is wide at the offset: 25 · 9/2/cos 30°.
		{"a cone where it is", also(onCone(4.5), bare), []string{"break pad-thin"}, "and 130 lb/in round"},
		{"a mitered elbow", also(func(j *laminate.Job) {
			e := &j.Parts[0]
			e.Form, e.Miters, e.BendRadius, e.Turn, e.Length = laminate.Elbow, laminate.Some(2), inches(18), laminate.Some(90.0), quantity.Length{}
		}, bare), []string{"incomplete pad-thin"}, "what a miter adds"},
		{"a cover", also(func(j *laminate.Job) {
			covered(j, 50)
			j.Parts[2].InsideDiameter, j.Parts[2].Laminate = inches(12), ""
			j.Nozzles[0].On, j.Nozzles[0].Offset, j.Nozzles[0].Height = "c", inches(0), quantity.Length{}
		}, bare), []string{"incomplete pad-thin"}, "part c is a plate, which pressure bends"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := sound()
			j.Joints = nil
			c.change(j)
			for i := range j.Parts { // no excess of a wall helps
				j.Parts[i].Laminate = ""
			}
			got, said := judged(j)
			got = slices.DeleteFunc(got, func(s string) bool { return !strings.HasSuffix(s, "pad-thin") })
			if !slices.Equal(got, c.want) || !strings.Contains(said, c.says) {
				t.Errorf("%q, want %q and %q\n%s", got, c.want, c.says, said)
			}
		})
	}
}

// Of a crowd each is told of, and no pair by itself: of a thousand nozzles that would
// be half a million findings.
func TestOpeningsClose_ofACrowd(t *testing.T) {
	j := sound()
	j.Nozzles[0].Bearing = laminate.Some(0.0)
	for _, id := range []string{"B", "C", "D", "E", "F"} {
		n := j.Nozzles[0]
		n.ID = id
		j.Nozzles = append(j.Nozzles, n)
	}
	told, count := map[int]bool{}, 0
	for _, f := range rules.JudgeJob(all.Rules(), j, catalog.Library(), rules.Options{}).Findings {
		if f.Rule.ID != "openings-close" {
			continue
		}
		if count++; count == 1 && !strings.Contains(f.Message, "nozzles N and B: 0 in apart") || count == 1 && !strings.HasSuffix(f.Message, "; N likewise with C, D, E and 1 other") {
			t.Error(f.Message)
		}
		for _, at := range append([]laminate.Ref{f.At}, f.Also...) {
			told[at.Index] = true
		}
	}
	if len(told) != 6 || count != 5 {
		t.Errorf("%d findings tell of %v", count, told)
	}
}
