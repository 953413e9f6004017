package statics

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/wall/service"
	"frp/veilwright/rules"
	"math"
	"slices"
)

// Pressing is a pressure from inside at a height above the bottom of a part, Pa, or
// what is missing for it; gas is what of it is no liquid.
type Pressing struct {
	At  func(p *rules.JobPass, part int, height float64) (pa float64, missing string)
	Gas func(p *rules.JobPass, part int) float64
}

// InService presses with the highest pressure that the service states.
var InService = Under("").Pressing()

// Under is the name of a condition that parts stand under, "" their service as it is
// stated. A part without that condition has its service.
type Under string

func (u Under) Schedule(p *rules.JobPass, part int) *laminate.Schedule {
	s := p.Parts[part].Schedule
	for i := range s.Conditions {
		if s.Conditions[i].Name == string(u) {
			return s.Under(&s.Conditions[i])
		}
	}
	return s
}

func (u Under) Pressing() Pressing {
	return Pressing{
		func(p *rules.JobPass, part int, height float64) (pa float64, missing string) {
			return pressureOf(p, u.Schedule(p, part), part, height)
		},
		func(p *rules.JobPass, part int) float64 { return u.Schedule(p, part).Service.Pressure.SI() },
	}
}

// kept is the least share of its strength that a part's wall keeps warm, and what is
// laid onto it with it, or what is missing.
func (u Under) kept(p *rules.JobPass, parts ...int) (share float64, missing string) {
	share = 1
	for _, i := range parts {
		s, known := service.Kept(u.Schedule(p, i))
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

// States are what parts stand under: each of their conditions, and their service where
// one of them has none or none reaches what it states.
func States(p *rules.JobPass, parts ...int) (list []Under) {
	whole := false
	for _, i := range parts {
		s := p.Parts[i].Schedule
		for k := range s.Conditions {
			if u := Under(s.Conditions[k].Name); !slices.Contains(list, u) {
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

// Kept is the least of what parts keep in all their states.
func Kept(p *rules.JobPass, parts ...int) (share float64, missing string) {
	share = 1
	for _, u := range States(p, parts...) {
		s, missing := u.kept(p, parts...)
		if missing != "" {
			return 0, missing
		}
		share = math.Min(share, s)
	}
	return share, ""
}

// Demand is what something laid onto parts has to bear in the state that asks the most
// of it, against what it keeps of its strength there.
type Demand struct {
	Load, Share float64
	Under       Under
}

// Keeps is the share that counts in a test: the least of all states, or where nobody
// says what is kept in one that loads nothing, that of the hardest.
func (d Demand) Keeps(p *rules.JobPass, parts ...int) float64 {
	if share, missing := Kept(p, parts...); missing == "" {
		return share
	}
	return d.Share
}

// hardest goes through the states of parts, or says what is missing in one of them. What
// is not loaded need not keep anything.
func hardest(p *rules.JobPass, parts []int, load func(u Under) (float64, string)) (d Demand, missing string) {
	all := States(p, parts...)
	d = Demand{Share: 1, Under: all[0]}
	for _, u := range all {
		n, missing := load(u)
		if missing != "" {
			return Demand{Share: 1, Under: u}, missing
		}
		if n <= 0 {
			continue
		}
		share, missing := u.kept(p, parts...)
		if missing != "" {
			return Demand{n, 1, u}, missing
		}
		if d.Load == 0 || n/share > d.Load/d.Share {
			d = Demand{n, share, u}
		}
	}
	return d, ""
}

// StrapLoad is what a strap has to carry round.
func (x *Joined) StrapLoad(p *rules.JobPass) (d Demand, missing string) {
	return hardest(p, x.Parts[:], func(u Under) (float64, string) {
		l, missing := LoadsOf(p, x, u.Pressing())
		return x.Hoop(p, l), missing
	})
}

// StrapPull is what a strap, and its bond, has to carry along the axis.
func (x *Joined) StrapPull(p *rules.JobPass) (d Demand, missing string) {
	return hardest(p, x.Parts[:], func(u Under) (float64, string) {
		l, missing := LoadsOf(p, x, u.Pressing())
		return x.Along(l), missing
	})
}
