package proof

import (
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/rules"
	"frp/veilwright/rules/resin"
)

var (
	boils   = quantity.New(100, quantity.Celsius).SI() // water at ambient pressure
	freezes = quantity.New(0, quantity.Celsius).SI()
	cool    = quantity.New(15, quantity.Celsius).SI() // common practice, no source
)

// TestTemperatureUnfit holds the temperature of a test against what the equipment bears.
var TestTemperatureUnfit = &rules.Rule{
	ID: "test-temperature-unfit", Family: family, Title: "The test is too warm or too cold",
	Why: "A test is often the most that a wall ever bears, and hot water takes from its strength as a hot service does: near its heat deflection temperature a resin creeps under it, and a bond lets go. " +
		"In cold water resin is brittle, and a wall that sweats hides its leaks. Water that boils is a test with gas.",
	Severity: []rules.Severity{rules.Break, rules.Incomplete, rules.Warning},
	When: "a test with water is at 100 °C (212 °F) or above, or at 0 °C or below; the temperature of a test is above that of the service and above the heat deflection temperature less 20 °C of a resin of barrier or structure, its own or the typical one of its family: break; " +
		"above it less 40 °C: warning (these two bounds are within). It is above 120 °F, up to which a wall is taken as cold, and above what the service of a part reaches, or of the conditions that it has none of as much says what the wall keeps of its strength (modulus_retention), and no resin of its own is too warm: incomplete. " +
		"It is below 15 °C (59 °F): warning. A test of no stated temperature is taken to be as the service",
	Basis: "20 and 40 °C under the heat deflection temperature, and typical ones of the families: from memory; 15 °C and 120 °F: common practice, no source",
	Job: func(p *rules.JobPass) {
		t := p.Job.Test.Temperature
		if !t.Given() {
			return
		}
		say := func(severity rules.Severity, bound float64, format string) {
			a, b := p.Units.Pair(t.SI(), bound, quantity.Point)
			p.Report(severity, testRef("temperature"), "", format, a, b)
		}
		water := p.Job.Test.Medium == laminate.TestWater
		switch {
		case water && !quantity.Below(t.SI(), boils):
			say(rules.Break, boils, "the test is at %s, and water boils at %s: it is a test with steam, which nobody stands beside")
		case water && !quantity.Above(t.SI(), freezes):
			say(rules.Break, freezes, "the test is at %s, and water freezes at %s")
		case quantity.Below(t.SI(), cool):
			say(rules.Warning, cool, "the test is at %s, below %s: resin is brittle there and a sweating wall hides leaks; ask whoever answers for the resin, or test warmer")
		}
		softened := soften(p, t.SI())
		unknown := []laminate.Ref{testRef("temperature")}
		for i := range p.Job.Parts {
			if _, warm := warmed(p, i); !warm && !lies(p, i) && !softened[i] {
				unknown = append(unknown, laminate.JobPartRef(i, ""))
			}
		}
		if n := len(unknown); n > 1 {
			p.ReportAt(rules.Incomplete, unknown, "", "the test is at %s: what is left there of the strength of part %s%s is not known, nor so what the test does to it and to what is laid onto it; state as much as an upset of the service, and what the wall keeps then (upset, modulus_retention, [[condition]])",
				p.Units.Temperature(t.SI()), p.Job.Parts[unknown[1].Index].ID, more(n-2))
		}
	},
}

// lies tells of a bottom that lies on its foundation and carries nothing.
func lies(p *rules.JobPass, part int) bool {
	return p.Job.Parts[part].Form == laminate.FlatBottom && p.Job.Parts[part].Supported.Or(false)
}

func more(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return " and one more"
	}
	return " and " + quantity.Number(float64(n), 0) + " more"
}

// soft is resins whose heat deflection temperature a test comes too near.
type soft struct {
	severity rules.Severity
	deflects float64 // K
	whose    string
	own      bool // stated for the resin
	resins   []string
	at       []laminate.Ref // the test, and the parts
}

// soften reports the resins that a test at t, in K, comes too near the heat deflection
// temperature of, those of one temperature together, and gives the parts that break by it.
func soften(p *rules.JobPass, t float64) (softened map[int]bool) {
	var found []soft
	softened = map[int]bool{}
	look := func(a *laminate.Analysis, part int) {
		if a == nil {
			return
		}
		for i := range a.Rows {
			r, zone := a.Rows[i].Resin, a.Rows[i].Zone
			if r == nil || !zone.InBarrier() && zone != laminate.StructuralLayer {
				continue
			}
			deflects, whose := resin.Deflects(r, p.Library)
			x := soft{severity: rules.Break, deflects: deflects.SI(), whose: whose, own: r.HeatDeflection.Given(), at: []laminate.Ref{testRef("temperature")}}
			switch {
			case !deflects.Given():
				continue
			case quantity.Above(t, deflects.SI()-resin.Margin):
			case quantity.Above(t, deflects.SI()-resin.Care):
				x.severity = rules.Warning
			default:
				continue
			}
			k := slices.IndexFunc(found, func(y soft) bool {
				return y.severity == x.severity && y.own == x.own && quantity.Compare(y.deflects, x.deflects) == 0
			})
			if k < 0 {
				k, found = len(found), append(found, x)
			}
			if !slices.Contains(found[k].resins, r.ID) {
				found[k].resins = append(found[k].resins, r.ID)
			}
			if part < 0 {
				continue
			}
			if at := laminate.JobPartRef(part, ""); !slices.Contains(found[k].at, at) {
				found[k].at = append(found[k].at, at)
			}
			softened[part] = softened[part] || x.severity == rules.Break
		}
	}
	for i := range p.Job.Parts {
		if s := p.Parts[i].Schedule; !(s.Service.Hottest().SI() >= t) { // else resin-temperature says so of the service
			look(p.Parts[i].Analysis, i)
		}
	}
	if !(p.Job.Service.Hottest().SI() >= t) {
		for _, o := range p.Overlays() {
			look(p.Analysis(o.Laminate), -1)
		}
	}
	for i := range found {
		x := &found[i]
		less, of, advice := resin.Care, "resin "+x.resins[0], "; the resin's own (heat_deflection) replaces it"
		if n := len(x.resins) - 1; n > 0 {
			of, advice = "resins "+strings.Join(x.resins[:n], ", ")+" and "+x.resins[n], "; the resins' own (heat_deflection) replace it"
		}
		if x.own {
			advice = ""
		}
		if x.severity == rules.Break {
			less = resin.Margin
		}
		reached, bound := p.Units.Pair(t, x.deflects-less, quantity.Point)
		p.ReportAt(x.severity, x.at, "", "the test is at %s, above %s, %s of %s, %s, less %s%s", reached, bound, x.whose, of, p.Units.Temperature(x.deflects), p.Units.Figure(less, quantity.Rise), advice)
	}
	return softened
}

// warmed is a part as it stands in a test that is warm: with what it keeps of its
// strength then, by its conditions where it has some. Not known where the test is warmer
// than the service, or than any condition that says so.
func warmed(p *rules.JobPass, i int) (part *rules.Report, known bool) {
	part = p.Parts[i]
	t := p.Job.Test.Temperature
	if !t.Given() {
		return part, true
	}
	s := *part.Schedule
	s.Service.Temperature, s.Service.Upset, s.Conditions, s.Part.ModulusRetention = t, quantity.Temperature{}, nil, laminate.Optional[float64]{}
	if _, cold := service.Kept(&s); cold {
		return part, true
	}
	if len(part.Schedule.Conditions) == 0 {
		return part, part.Schedule.Service.Hottest().SI() >= t.SI()
	}
	for k := range part.Schedule.Conditions {
		c := &part.Schedule.Conditions[k]
		if kept := part.Schedule.Under(c).Part.ModulusRetention; c.Temperature.SI() >= t.SI() && kept.Given && (!s.Part.ModulusRetention.Given || kept.Value > s.Part.ModulusRetention.Value) {
			s.Part.ModulusRetention = kept
		}
	}
	if _, known = service.Kept(&s); !known {
		return part, false
	}
	n := *part
	n.Schedule, n.Wall = &s, p.Evaluate(&s, part.Analysis)
	return &n, true
}
