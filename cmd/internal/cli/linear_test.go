//go:build unix

package cli

import (
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/laminate/takeoff"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/practice"
	"frp/veilwright/rules/revision"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/paper/forms"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/paper/picture"
	"frp/veilwright/schedules/shop"
)

// tall is a schedule of n rows, each of one ply.
func tall(n int) []byte {
	var b strings.Builder
	b.WriteString("document = \"schedule\"\nformat = 1\ntitle = \"Tall\"\n[part]\nform = \"pipe\"\nprocess = \"contact\"\ninside_diameter = \"48 in\"\nlength = \"20 ft\"\nflanged = false\nends = \"closed\"\n" +
		"[service]\nfluid = \"brine\"\nconcentration = 0.1\ntemperature = \"90 degF\"\nph = [6, 8]\ncontact = \"immersed\"\ncontains = [\"brine\"]\npressure = \"30 psi\"\nvacuum = \"0 psi\"\nconductive = false\nabrasive = false\n" +
		"[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"\ncure = \"peroxide-cobalt\"\n")
	fmt.Fprintf(&b, "[[ply]]\nmaterial = %q\nresin = \"r\"\n[[ply]]\nmaterial = %q\nresin = \"r\"\ncount = 2\ngel_after = true\n", catalog.VeilC15, catalog.Mat15)
	for i := range n - 2 {
		fmt.Fprintf(&b, "[[ply]]\nmaterial = %q\nresin = \"r\"\nzone = \"structural-layer\"\n", []string{catalog.Mat15, catalog.Woven24}[i%2])
	}
	return []byte(b.String())
}

// stacked is a job of n courses on each other, each of a laminate of its own and with a
// nozzle and its flange, joined by straps.
func stacked(n int) []byte {
	var b strings.Builder
	put := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	ply := func(material, more string) {
		put("[[laminate.ply]]\nmaterial = %q\nresin = \"r\"%s", material, more)
	}
	put("document = \"job\"\nformat = 1\ntitle = \"Stacked\"\n[service]\nfluid = \"brine\"\ncontains = [\"brine\"]\ntemperature = \"90 degF\"\nph = [6, 8]\npressure = \"0 psi\"\nvacuum = \"0 psi\"\nspecific_gravity = 1.1")
	put("[vessel]\nliquid_height = \"%d in\"\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"", n*3)
	put("[[laminate]]\nid = \"strap\"")
	for range 3 {
		ply(catalog.Mat15, "")
	}
	for i := range n {
		put("[[laminate]]\nid = \"w%d\"", i)
		ply(catalog.VeilC15, "")
		ply(catalog.Mat15, "\ncount = 2\ngel_after = true")
		for range 3 {
			ply(catalog.Mat15, "")
			ply(catalog.Woven24, "")
		}
		ply(catalog.Mat15, "")
		ply(catalog.Topcoat, "")
	}
	for i := range n {
		put("[[part]]\nid = \"p%d\"\nform = \"shell-course\"\nlaminate = \"w%d\"\nprocess = \"contact\"\ninside_diameter = \"8 ft\"\nlength = \"6 in\"\nends = \"open\"", i, i)
	}
	for i := range n / 2 {
		put("[[part]]\nid = \"f%d\"\nform = \"flange\"\nlaminate = \"w%d\"\nprocess = \"contact\"\ninside_diameter = \"2 in\"", i, i)
	}
	for i := range n / 2 {
		put("[[nozzle]]\nid = \"N%d\"\non = \"p%d\"\nflange = \"f%d\"\nheight = \"3 in\"\nsize = \"2 in\"\nbearing = %d\npad = \"strap\"\npad_diameter = \"8 in\"", i, i, i, i%360)
	}
	for i := 1; i < n; i++ {
		put("[[joint]]\nid = \"J%d\"\nbetween = [\"p%d\", \"p%d\"]\noutside = \"strap\"\nwidth = \"8 in\"\nfirst_width = \"2 in\"\ngap = \"1/8 in\"", i, i-1, i)
	}
	return []byte(b.String())
}

// spool is a line of n pipes joined by straps.
func spool(n int) *laminate.Job {
	j := lined(n)
	for i := range n {
		j.Parts = append(j.Parts, laminate.JobPart{ID: fmt.Sprint("p", i), Laminate: "wall", Part: laminate.Part{Form: laminate.Pipe, Process: laminate.ContactMolded,
			InsideDiameter: quantity.New(24, quantity.Inch), Length: quantity.New(20, quantity.Foot), Ends: laminate.ClosedEnds}})
		if i > 0 {
			j.Joints = append(j.Joints, laminate.Joint{ID: fmt.Sprint("J", i), Between: [2]string{j.Parts[i-1].ID, j.Parts[i].ID}, Outside: "strap",
				Width: quantity.New(8, quantity.Inch), FirstWidth: quantity.New(2, quantity.Inch), Gap: quantity.New(0.125, quantity.Inch)})
		}
	}
	return j
}

// crowd is a course with n nozzles and their flanges.
func crowd(n int) *laminate.Job {
	j := lined(n)
	j.Parts = []laminate.JobPart{{ID: "shell", Laminate: "wall", Part: laminate.Part{Form: laminate.ShellCourse, Process: laminate.ContactMolded, InsideDiameter: quantity.New(8, quantity.Foot), Length: quantity.New(1000, quantity.Foot)}}}
	for i := range n {
		j.Parts = append(j.Parts, laminate.JobPart{ID: fmt.Sprint("f", i), Laminate: "wall", Part: laminate.Part{Form: laminate.Flange, Process: laminate.ContactMolded, Shape: laminate.Shape{Size: quantity.New(2, quantity.Inch), Drilling: laminate.Class150}}})
		j.Nozzles = append(j.Nozzles, laminate.Nozzle{ID: fmt.Sprint("N", i), On: "shell", Height: quantity.New(float64(i+1)/2, quantity.Foot), Bearing: laminate.Some(float64(i * 37 % 360)),
			Size: quantity.New(2, quantity.Inch), Flange: fmt.Sprint("f", i), Neck: "wall", Pad: "strap", PadDiameter: quantity.New(8, quantity.Inch)})
	}
	return j
}

// lined is a job without parts, with n inches of liquid, a test and laminates, the wall
// ending in a waxed coat.
func lined(n int) *laminate.Job {
	ply := func(material string) laminate.Ply { return laminate.Ply{Material: material, Resin: "r", Count: 1} }
	j := &laminate.Job{Resins: []laminate.Resin{{ID: "r", Family: laminate.VinylEster}}, Laminates: []laminate.Laminate{
		{ID: "wall", Plies: []laminate.Ply{ply(catalog.VeilC15), ply(catalog.Mat15), ply(catalog.Mat15), ply(catalog.Woven24), ply(catalog.Mat15), ply(catalog.Topcoat)}},
		{ID: "strap", Plies: []laminate.Ply{ply(catalog.Mat15), ply(catalog.Woven24), ply(catalog.Mat15)}}}}
	j.Service.Pressure, j.Service.Vacuum, j.Service.SpecificGravity = quantity.New(1, quantity.PSI), quantity.New(0, quantity.PSI), laminate.Some(1.1)
	j.Vessel.LiquidHeight = quantity.New(float64(n), quantity.Inch)
	j.Test = laminate.Test{Medium: laminate.TestWater, LiquidHeight: quantity.New(float64(n+9), quantity.Inch), Pressure: quantity.New(0, quantity.PSI)}
	return j
}

// laidAll is a record that ticks n plies.
func laidAll(n int) []byte {
	head := &record.Record{Schedule: "tall.toml", Serial: "1"}
	b := schedules.RecordHead(head)
	at := time.Date(2026, 3, 9, 8, 0, 0, 0, time.UTC)
	for i := range n {
		b = append(b, schedules.RecordEntry(&record.Laid{Entry: record.Entry{At: at.Add(time.Duration(i) * time.Second), Who: "Q. One", Role: "laminator"}, Ply: i + 1})...)
	}
	return b
}

// BenchmarkLinear runs what the program does over schedules and records of 100,
// 1,000 and 10,000 plies and entries, and jobs of 9 to 999 parts, and fits the exponent with which the processor
// time grows: 1 is in proportion; at most 1.1 is wanted. Small ones are run as often
// as makes the work of a large one: what is left behind by one of a hundred plies is
// never collected while it runs, but by those after it.
func BenchmarkLinear(b *testing.B) {
	lib := catalog.Library()
	open := func(n int) (*shop.Opened, *rules.Report) {
		o := shop.New(shop.Options{NoBook: true}).Open("tall.toml", tall(n), "")
		if !o.Usable() {
			b.Fatal(o.Why())
		}
		return o, o.Judge(rules.Options{})
	}
	whole := func(n int) *shop.Opened { // of as many parts
		o := shop.New(shop.Options{NoBook: true}).Open("stacked.toml", stacked(n*2/3), "")
		if !o.Usable() {
			b.Fatal(o.Why())
		}
		return o
	}
	var sizes, parts, large = []int{100, 1_000, 10_000}, []int{9, 96, 999}, []int{10, 100, 999}
	for _, c := range []struct {
		name    string
		prepare func(n int) func()
		sizes   []int
	}{
		{"check", func(n int) func() {
			text := tall(n)
			s := shop.New(shop.Options{NoBook: true})
			return func() { s.Open("tall.toml", text, "").Judge(rules.Options{}) }
		}, sizes},
		{"check as JSON", func(n int) func() {
			path := filepath.Join(b.TempDir(), "tall.toml")
			if err := os.WriteFile(path, tall(n), 0o600); err != nil {
				b.Fatal(err)
			}
			return func() {
				Run([]string{"check", "--no-book", "--json", path}, Process{In: strings.NewReader(""), Out: io.Discard, Err: io.Discard, Getenv: os.Getenv})
			}
		}, sizes},
		{"wall", func(n int) func() {
			o, r := open(n)
			return func() { wall.Evaluate(o.Schedule, lib, r.Analysis, wall.Options{}) }
		}, sizes},
		{"calculation", func(n int) func() {
			o, r := open(n)
			return func() { wall.Calculate(o.Schedule, lib, r.Analysis, wall.Options{}) }
		}, sizes},
		{"advise", func(n int) func() {
			o, _ := open(n)
			return func() { advice.Advise(o.Schedule, lib, quantity.US) }
		}, sizes},
		{"propose", func(n int) func() {
			o, _ := open(10)
			o.Schedule.Plies = nil
			o.Schedule.Service.Pressure = quantity.New(float64(n), quantity.PSI)
			return func() {
				if _, err := advice.Propose(o.Schedule, lib, advice.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		}, []int{15, 60, 240}},
		{"takeoff", func(n int) func() {
			o, _ := open(n)
			return func() {
				takeoff.Count([]takeoff.Piece{takeoff.Of(o.Schedule)}, lib, stock.Stock{}, takeoff.Options{})
			}
		}, sizes},
		{"lay-up sheet on pages", func(n int) func() {
			o, r := open(n)
			return func() {
				layout.Pages(forms.Named("lay-up-sheet").Form(forms.OfSchedule("a.toml", o.Library, stock.Stock{}, r, quantity.US)), layout.Letter)
			}
		}, sizes},
		{"record", func(n int) func() {
			text := laidAll(n)
			return func() { schedules.DecodeRecord(text) }
		}, sizes},
		{"compare", func(n int) func() {
			o, r := open(n)
			built, _, _ := schedules.DecodeRecord(laidAll(n))
			prints := schedules.Fingerprint(o.Schedule, r.Analysis, lib)
			return func() {
				acceptance.Compare(acceptance.Input{Report: r, Library: lib, Fingerprint: prints.Schedule, PlyFingerprints: prints.Plies, Specification: &spec.Specification{}, Record: built})
			}
		}, sizes},
		{"practice", func(n int) func() {
			o, _ := open(n)
			e := &exercise.Exercise{ID: "e", Kind: exercise.Build, Step: 1, Given: laminate.Schedule{Part: o.Schedule.Part, Service: o.Schedule.Service}}
			return func() { practice.Grade(e, practice.Answer{Schedule: o.Schedule}, lib, quantity.US) }
		}, sizes},
		{"opening a job", func(n int) func() {
			text := stacked(n * 2 / 3)
			s := shop.New(shop.Options{NoBook: true})
			return func() { s.Open("stacked.toml", text, "") }
		}, parts},
		{"validating a job", func(n int) func() {
			o := whole(n)
			return func() { laminate.ValidateJob(o.Job, lib) }
		}, parts},
		{"judging a job", func(n int) func() {
			o := whole(n)
			return func() { o.JudgeJob(rules.Options{}) }
		}, parts},
		{"judging a line", func(n int) func() {
			j := spool(n)
			return func() { rules.JudgeJob(all.Rules(), j, lib, rules.Options{}) }
		}, large},
		{"judging a crowd of nozzles", func(n int) func() {
			j := crowd(n)
			return func() { rules.JudgeJob(all.Rules(), j, lib, rules.Options{}) }
		}, large},
		{"judging a job after an edit", func(n int) func() {
			o := whole(n)
			before := o.JudgeJob(rules.Options{})
			after := *o
			after.Job = o.Job.Clone()
			after.Job.Parts[0].InsideDiameter = quantity.New(9, quantity.Foot)
			return func() { after.JudgeJob(rules.Options{Before: before}) }
		}, parts},
		{"check of a job as JSON", func(n int) func() {
			path := filepath.Join(b.TempDir(), "stacked.toml")
			if err := os.WriteFile(path, stacked(n*2/3), 0o600); err != nil {
				b.Fatal(err)
			}
			return func() {
				Run([]string{"check", "--no-book", "--json", path}, Process{In: strings.NewReader(""), Out: io.Discard, Err: io.Discard, Getenv: os.Getenv})
			}
		}, parts},
		{"comparing two revisions of a job", func(n int) func() {
			o := whole(n)
			older := o.JudgeJob(rules.Options{})
			after := *o
			after.Job = o.Job.Clone()
			after.Job.Vessel.LiquidHeight = quantity.New(float64(n), quantity.Inch)
			newer := after.JudgeJob(rules.Options{})
			return func() { revision.Jobs(older, newer, lib) }
		}, parts},
		{"takeoff of a job", func(n int) func() {
			o := whole(n)
			return func() { takeoff.Count(takeoff.OfJob(o.Job, lib), lib, stock.Stock{}, takeoff.Options{}) }
		}, parts},
		{"laminate schedule of a job on pages", func(n int) func() {
			o := whole(n)
			r := o.JudgeJob(rules.Options{})
			return func() {
				layout.Pages(forms.Named("laminate-schedule").Form(forms.OfJob("a.toml", o.Job, o.Library, stock.Stock{}, r, quantity.US)), layout.Letter)
			}
		}, parts},
		{"pictures of a job", func(n int) func() {
			o := whole(9)
			nozzle := o.Job.Nozzles[0]
			for i := range n {
				nozzle.ID, nozzle.On, nozzle.Bearing = fmt.Sprint("K", i), o.Job.Parts[i%6].ID, laminate.Some(float64(i*37%360))
				o.Job.Nozzles = append(o.Job.Nozzles, nozzle)
			}
			return func() {
				picture.Elevation(o.Job, quantity.US)
				picture.Plan(o.Job)
			}
		}, []int{96, 999, 9990}},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				var sx, sy, sxx, sxy, last float64
				for _, n := range c.sizes {
					run := c.prepare(n)
					run()
					times, least := c.sizes[len(c.sizes)-1]/n, math.Inf(1)
					last = math.Inf(1)
					for range 3 {
						begun, start := cpu(b), time.Now()
						for range times {
							run()
						}
						least = math.Min(least, (cpu(b)-begun).Seconds()/float64(times))
						last = math.Min(last, time.Since(start).Seconds()/float64(times))
					}
					x, y := math.Log(float64(n)), math.Log(least)
					sx, sy, sxx, sxy = sx+x, sy+y, sxx+x*x, sxy+x*y
				}
				k := float64(len(c.sizes))
				b.ReportMetric((k*sxy-sx*sy)/(k*sxx-sx*sx), "exponent")
				b.ReportMetric(last*1e3, "ms-largest")
			}
		})
	}
}
