package parts

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

// ServiceUnreached asks that some part is figured for the most that the service states.
var ServiceUnreached = &rules.Rule{
	ID:     "service-unreached",
	Family: family,
	Title:  "No part is figured for what the service states",
	Why: "A value that stands on a part counts there in the place of the service's. Where each part has one of its own and all are lower, what the service states of pressure, vacuum, temperature or weight is what nothing was figured for, " +
		"while every paper prints it as what the equipment is for. Either the service says more than there is, or the parts hold less than they have to.",
	Severity: []rules.Severity{rules.Incomplete},
	When: "the service states a pressure, a vacuum, a temperature, operating or upset, or, where liquid stands, a specific gravity above that of every part, flanges and covers aside unless there are no others, its own or that of its file; " +
		"or the job states conditions, and each part has a load or temperature of its own or its own file, so that they hold for none. One part that has as much is enough: a gas space, a jacket or a leg behind a valve may have less",
	Basis: "the program's own check",
	Job: func(p *rules.JobPass) {
		parts := figured(p)
		if len(parts) == 0 {
			return
		}
		v := &p.Job.Service
		unreached := func(key, what string, stated float64, say func(a, b float64) (string, string), of func(*laminate.Schedule) float64) {
			most := parts[0]
			for _, i := range parts {
				if of(p.Parts[i].Schedule) > of(p.Parts[most].Schedule) {
					most = i
				}
			}
			if reached := of(p.Parts[most].Schedule); quantity.Below(reached, stated) {
				a, b := say(stated, reached)
				p.Report(rules.Incomplete, laminate.Ref{Part: -1, Kind: laminate.RefService, Key: key}, "", "the service states %s of %s, and no part is figured for it: the most is %s, of %s; take what stands on the parts out, or state in the service what there is (%s)",
					what, a, b, p.Job.Parts[most].ID, key)
			}
		}
		pair := func(k quantity.Kind) func(a, b float64) (string, string) {
			return func(a, b float64) (string, string) { return p.Units.Pair(a, b, k) }
		}
		unreached("pressure", "a pressure", v.Pressure.SI(), pair(quantity.Stress), func(s *laminate.Schedule) float64 { return s.Service.Pressure.SI() })
		unreached("vacuum", "a vacuum", v.Vacuum.SI(), pair(quantity.Stress), func(s *laminate.Schedule) float64 { return s.Service.Vacuum.SI() })
		hottest := "temperature"
		if v.Upset.Given() && v.Hottest() == v.Upset {
			hottest = "upset"
		}
		if v.Hottest().Given() {
			unreached(hottest, "a temperature", v.Hottest().SI(), pair(quantity.Point), func(s *laminate.Schedule) float64 { return s.Service.Hottest().SI() })
		}
		wet := func(i int) bool { return p.Parts[i].Schedule.Part.LiquidHeight.SI() > 0 }
		for _, i := range parts {
			if v.SpecificGravity.Given && wet(i) {
				unreached("specific_gravity", "a specific gravity", v.SpecificGravity.Value, pair(quantity.Times), func(s *laminate.Schedule) float64 { return s.Service.SpecificGravity.Value })
				break
			}
		}
		for _, i := range parts {
			if p.Job.Parts[i].Schedule == "" && len(p.Parts[i].Schedule.Conditions) > 0 {
				return
			}
		}
		if len(p.Job.Conditions) > 0 {
			p.Report(rules.Incomplete, laminate.Ref{Part: -1, Kind: laminate.RefCondition}, "", "condition %s holds for no part: each has a load or temperature of its own; take what stands on the parts out, or the conditions", p.Job.Conditions[0].Name)
		}
	},
}

// figured lists the parts that what the service states has to be figured for: all but
// flanges and covers, which are bought and proved by class, where there are others; none
// where a wall was not read, which may be the one.
func figured(p *rules.JobPass) (list []int) {
	var ends []int
	for i := range p.Job.Parts {
		x := &p.Job.Parts[i]
		_, read := p.Job.Schedules[x.Schedule]
		switch {
		case x.Schedule != "" && !read:
			return nil
		case x.Form == laminate.Flange || x.Form == laminate.Cover:
			ends = append(ends, i)
		default:
			list = append(list, i)
		}
	}
	if list == nil {
		return ends
	}
	return list
}
