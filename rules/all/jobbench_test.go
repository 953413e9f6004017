package all_test

import (
	"fmt"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

// wide is a job of n parts with a laminate of their own each of so many rows, and
// as many joints and nozzles.
func wide(n, rows int) *laminate.Job {
	j := ruletest.Job(tall(rows))
	plies := j.Laminates[0].Plies
	j.Laminates, j.Parts = nil, nil
	j.Service.Pressure, j.Service.Vacuum, j.Service.SpecificGravity = quantity.New(0, quantity.PSI), quantity.New(0, quantity.PSI), laminate.Some(1.1)
	j.Vessel.LiquidHeight = inch(float64(n) * 3)
	j.Test = laminate.Test{Medium: laminate.TestWater, LiquidHeight: inch(float64(n) * 4), Pressure: quantity.New(0, quantity.PSI)}
	j.Laminates = append(j.Laminates, laminate.Laminate{ID: "strap", Plies: plies[2:7]}, laminate.Laminate{ID: "seal", Plies: []laminate.Ply{plies[1], plies[0]}})
	for i := range n {
		id := fmt.Sprintf("part-%d", i)
		j.Laminates = append(j.Laminates, laminate.Laminate{ID: id, Plies: plies})
		p := laminate.JobPart{ID: id, Laminate: id}
		p.Form, p.Process, p.InsideDiameter, p.Ends = laminate.ShellCourse, laminate.ContactMolded, inch(96), laminate.OpenEnds
		if p.Length = inch(6); i%4 == 3 {
			p.Form, p.Length = laminate.Pipe, inch(60)
		}
		j.Parts = append(j.Parts, p)
		j.Nozzles = append(j.Nozzles, laminate.Nozzle{ID: fmt.Sprintf("N%d", i), On: id, Height: inch(3), Bearing: laminate.Some(float64(i % 360)), Size: inch(2),
			Pad: "strap", PadDiameter: inch(8), InstallationInside: "seal", Neck: id, NeckBond: inch(3)})
		if i > 0 {
			j.Joints = append(j.Joints, laminate.Joint{ID: fmt.Sprintf("J%d", i), Between: [2]string{j.Parts[i-1].ID, id}, Outside: "strap", Inside: "seal",
				Width: inch(8), FirstWidth: inch(2), Gap: inch(0.125)})
		}
	}
	return j
}

// BenchmarkJudgeJob judges 200 parts of 99 plies each, near the most that is read, with a joint and a nozzle
// to every part and, in turn, their walls one by one: times-walls is the time of
// the one over that of the other.
func BenchmarkJudgeJob(b *testing.B) {
	lib := catalog.Library()
	j := wide(200, 98)
	if faults := laminate.ValidateJob(j, lib); len(faults) > 0 {
		b.Fatal(faults)
	}
	var whole, single time.Duration
	for b.Loop() {
		at := time.Now()
		rules.JudgeJob(all.Rules(), j, lib, rules.Options{})
		whole += time.Since(at)
		at = time.Now()
		for i := range j.Parts {
			all.Judge(j.Wall(i), lib, rules.Options{})
		}
		single += time.Since(at)
	}
	b.ReportMetric(float64(whole)/float64(single), "times-walls")
	b.ReportMetric(single.Seconds()*1000/float64(b.N), "walls-ms")
}
