package advice

import (
	"fmt"

	"frp/veilwright/laminate"
)

// Lay makes a schedule with a barrier that suits in the place of the one it
// has, if any: the first of those that Propose would build walls on, with the
// choices the options fix. What stands outside of the barrier stays, its zones
// written. Errors: an option there is none of, nothing that suits, no material
// to lay with.
func Lay(s *laminate.Schedule, lib *laminate.Library, o Options) (*laminate.Schedule, error) {
	if lib == nil {
		lib = &laminate.Library{}
	}
	f := &finder{advisor: newAdvisor(s, lib, o.Units), o: o}
	f.advice = Advise(s, lib, o.Units)
	for _, x := range []struct {
		what    string
		options *[]Option
		chosen  string
	}{{"veil", &f.advice.Veils, o.Veil}, {"resin family", &f.advice.Resins, o.Resin}, {"build", &f.advice.Builds, o.Build}} {
		if x.chosen != "" {
			one := find(*x.options, x.chosen)
			if one == nil || one.ID == NoVeil || one.ID == HeavyBuild {
				return nil, fmt.Errorf("laying a barrier: there is no %s %q to build with; there are %s", x.what, x.chosen, ids(*x.options))
			}
			*x.options = []Option{*one}
		}
		if best(*x.options) == No {
			return nil, fmt.Errorf("laying a barrier: no %s suits this part and service: %s", x.what, why(*x.options))
		}
	}
	found := f.barriers()
	if len(found) == 0 {
		return nil, fmt.Errorf("laying a barrier: every one of the materials known breaks a rule")
	}
	laid := found[0].recipe.Lay(s, lib)
	a := laminate.Analyse(s, lib)
	barrier := len(laid.Plies)
	for i := range s.Plies {
		if a.Rows[i].Zone.InBarrier() {
			continue
		}
		p := s.Plies[i]
		p.Zone = a.Rows[i].Zone
		laid.Plies = append(laid.Plies, p)
	}
	if barrier > 0 && len(laid.Plies) > barrier {
		laid.Plies[barrier-1].GelAfter = true
	}
	return laid, nil
}
