package joint

import (
	"math"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/rules"
)

// pressing is a pressure from inside at a height above the bottom of a part, Pa, or
// what is missing for it; gas is what of it is no liquid.
type pressing struct {
	at  func(p *rules.JobPass, part int, height float64) (pa float64, missing string)
	gas func(p *rules.JobPass, part int) float64
}

// inService presses with the highest pressure that the service states.
var inService = under("").pressing()

// under is the name of a condition that parts stand under, "" their service as it is
// stated. A part without that condition has its service.
type under string

func (u under) schedule(p *rules.JobPass, part int) *laminate.Schedule {
	s := p.Parts[part].Schedule
	for i := range s.Conditions {
		if s.Conditions[i].Name == string(u) {
			return s.Under(&s.Conditions[i])
		}
	}
	return s
}

func (u under) pressing() pressing {
	return pressing{
		func(p *rules.JobPass, part int, height float64) (pa float64, missing string) {
			return pressureOf(p, u.schedule(p, part), part, height)
		},
		func(p *rules.JobPass, part int) float64 { return u.schedule(p, part).Service.Pressure.SI() },
	}
}

// kept is the least share of its strength that a part's wall keeps warm, and what is
// laid onto it with it, or what is missing.
func (u under) kept(p *rules.JobPass, parts ...int) (share float64, missing string) {
	share = 1
	for _, i := range parts {
		s, known := service.Kept(u.schedule(p, i))
		if !known {
			in := ""
			if u != "" {
				in = " under " + string(u)
			}
			return 0, "what part " + p.Job.Parts[i].ID + " keeps of its strength warm" + in + " is not stated (modulus_retention)"
		}
		share = math.Min(share, s)
	}
	return share, ""
}

// states are what parts stand under: each of their conditions, and their service where
// one of them has none or none reaches what it states.
func states(p *rules.JobPass, parts ...int) (list []under) {
	whole := false
	for _, i := range parts {
		s := p.Parts[i].Schedule
		for k := range s.Conditions {
			if u := under(s.Conditions[k].Name); !slices.Contains(list, u) {
				list = append(list, u)
			}
		}
		whole = whole || service.Beyond(s, p.Units).Why != ""
	}
	if whole || len(list) == 0 {
		list = append(list, "")
	}
	return list
}

// kept is the least of what parts keep in all their states.
func kept(p *rules.JobPass, parts ...int) (share float64, missing string) {
	share = 1
	for _, u := range states(p, parts...) {
		s, missing := u.kept(p, parts...)
		if missing != "" {
			return 0, missing
		}
		share = math.Min(share, s)
	}
	return share, ""
}

// demand is what something laid onto parts has to bear in the state that asks the most
// of it, against what it keeps of its strength there.
type demand struct {
	load, share float64
	under       under
}

// keeps is the share that counts in a test: the least of all states, or where nobody
// says what is kept in one that loads nothing, that of the hardest.
func (d demand) keeps(p *rules.JobPass, parts ...int) float64 {
	if share, missing := kept(p, parts...); missing == "" {
		return share
	}
	return d.share
}

// hardest goes through the states of parts, or says what is missing in one of them. What
// is not loaded need not keep anything.
func hardest(p *rules.JobPass, parts []int, load func(u under) (float64, string)) (d demand, missing string) {
	all := states(p, parts...)
	d = demand{share: 1, under: all[0]}
	for _, u := range all {
		n, missing := load(u)
		if missing != "" {
			return demand{share: 1, under: u}, missing
		}
		if n <= 0 {
			continue
		}
		share, missing := u.kept(p, parts...)
		if missing != "" {
			return demand{n, 1, u}, missing
		}
		if d.load == 0 || n/share > d.load/d.share {
			d = demand{n, share, u}
		}
	}
	return d, ""
}

// strapLoad is what a strap has to carry round.
func (x *joined) strapLoad(p *rules.JobPass) (d demand, missing string) {
	return hardest(p, x.parts[:], func(u under) (float64, string) {
		l, missing := loadsOf(p, x, u.pressing())
		return x.hoop(p, l), missing
	})
}
