package statics

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
)

// InTest presses as the test does.
var InTest = Pressing{At: TestAt, Gas: func(p *rules.JobPass, _ int) float64 { return p.Job.Test.Pressure.SI() }}

// Tested tells whether the job states a test.
func Tested(p *rules.JobPass) bool { return p.Job.Test != (laminate.Test{}) }

// TestAt is the pressure of the test at a height above the bottom of a part, Pa.
func TestAt(p *rules.JobPass, part int, height float64) (pa float64, missing string) {
	t := &p.Job.Test
	pa = t.Pressure.SI()
	bottom, known := p.Elevation(part)
	how := "how high part " + p.Job.Parts[part].ID + " hangs is not known: "
	if depth := p.Stated(part).LiquidHeight; !known && depth.Given() { // as deep under the level as it says
		if level, full := p.Level(); full && !math.IsInf(level, 0) {
			bottom, known = level-depth.SI(), depth.SI() > 0 || t.LiquidHeight.SI() <= level
			how = "the test fills above the level of the service, and " + how
		}
	}
	switch {
	case !t.Pressure.Given() && !t.LiquidHeight.Given():
		return 0, "neither the pressure of the test nor the level of its fill is stated"
	case !t.LiquidHeight.Given() || !known && !p.Job.Parts[part].Form.OfShell() && !p.Shaped:
		return pa, "" // no vessel is filled
	case !known && !p.Job.Parts[part].Form.OfShell():
		return 0, how + p.Unknown(part)
	case !known:
		return 0, "how high part " + p.Job.Parts[part].ID + " stands is not known"
	}
	gravity, missing := p.TestGravity(part)
	if missing != "" {
		return 0, missing
	}
	return pa + wall.HeadPressure(gravity, math.Max(0, t.LiquidHeight.SI()-bottom-height)), ""
}
