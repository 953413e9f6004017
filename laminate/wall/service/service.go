// Package service says what a service is to a wall, beside its loads: what share of
// its strength the wall keeps warm, whether what it holds attacks the barrier, and
// what of its highest values no condition reaches. Package wall asks it.
package service

import (
	"math"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/form"
)

// coldTo is up to where a wall counts as cold. Common practice, no source.
var coldTo = quantity.New(120, quantity.Fahrenheit)

// Kept is the share of its moduli, and of its strength, that a wall keeps in its
// service: what is stated, all of it where it stays cold or nobody states a
// temperature. Not known of a warm wall of which it is not stated, or not as a share.
func Kept(s *laminate.Schedule) (share float64, known bool) {
	kept, t := s.Part.ModulusRetention, s.Service.Hottest()
	switch {
	case kept.Given && kept.Value > 0 && kept.Value <= 1:
		return kept.Value, true
	case kept.Given, t.Given() && quantity.Above(t.SI(), coldTo.SI()):
		return 1, false
	}
	return 1, true
}

// Warm is Kept, and why it is not known; "" where it is.
func Warm(s *laminate.Schedule, units quantity.System) (share float64, why string) {
	share, known := Kept(s)
	t := s.Service.Hottest().SI()
	switch {
	case known:
		return share, ""
	case s.Part.ModulusRetention.Given:
		return share, "the modulus retention of the warm wall is not a share above 0 and up to 1 (modulus_retention)"
	case math.IsNaN(t) || math.IsInf(t, 0):
		return share, "the temperature is beyond what can be computed"
	}
	reached, bound := units.Pair(t, coldTo.SI(), quantity.Point)
	return share, "the service reaches " + reached + ", above " + bound +
		", up to which a wall is taken as cold (common practice, no source): state what it keeps of its modulus (modulus_retention)"
}

const leastKept = 0.5

// Typical is the share of a cold modulus that a laminate is taken to keep in a service
// where nobody states it, not warm up to 120 °F. It falls from all of it there to half
// at 20 °C below the heat deflection temperature of its resin, and is half above: from
// memory of curves of modulus against temperature.
func Typical(s *laminate.Service, resin *laminate.Resin, lib *laminate.Library) (kept float64, warm bool) {
	cold, hot := coldTo.SI(), s.Hottest()
	if !hot.Given() || !quantity.Above(hot.SI(), cold) {
		return 1, false
	}
	deflects := resin.HeatDeflection
	if !deflects.Given() {
		deflects = lib.Families[resin.Family].HeatDeflection
	}
	if ends := deflects.SI() - 20; deflects.Given() && ends > cold {
		share := min(1, (hot.SI()-cold)/(ends-cold))
		return math.Round(100*(1-(1-leastKept)*share)) / 100, true
	}
	return leastKept, true
}

// Severe tells whether a service attacks a barrier: what it contains is not
// known, or is more than brine or solids, or its pH is at an end of the scale.
// The standard leaves it to the purchaser; which services count is this
// program's own reading.
func Severe(s *laminate.Service) bool {
	if !s.Contains.Given || s.PH.Given && (s.PH.Lowest < 2 || s.PH.Highest > 12) {
		return true
	}
	for _, t := range laminate.TraitWords.All() {
		if t != laminate.Brine && t != laminate.Solids && s.Contains.Has(t) {
			return true
		}
	}
	return false
}

// Unreached is what a service states as its highest and no condition reaches: what
// that is and what to do about it, "" of nothing, and the loads that it leaves open.
type Unreached struct {
	Why                         string
	Pressure, Vacuum, Head, Hot bool // Hot: the temperature is among it
}

// Beyond finds what of the service's pressure, vacuum and temperature none of the
// conditions reaches; nothing where there are no conditions. Each is the highest of
// its own: that they never come together is what conditions are for, and that one
// never comes says nobody. At a temperature that none reaches any load may come.
func Beyond(s *laminate.Schedule, units quantity.System) Unreached {
	if len(s.Conditions) == 0 {
		return Unreached{}
	}
	v := &s.Service
	var pressure, vacuum, heat float64 // the highest of all conditions
	for i := range s.Conditions {
		c := &s.Under(&s.Conditions[i]).Service
		pressure, vacuum, heat = max(pressure, c.Pressure.SI()), max(vacuum, c.Vacuum.SI()), max(heat, c.Temperature.SI())
	}
	u := Unreached{Pressure: quantity.Above(v.Pressure.SI(), pressure), Vacuum: quantity.Above(v.Vacuum.SI(), vacuum),
		Hot: v.Hottest().Given() && quantity.Above(v.Hottest().SI(), heat)}
	var stated []string
	if u.Pressure {
		stated = append(stated, "pressure of "+units.Figure(v.Pressure.SI(), quantity.Stress))
	}
	if u.Vacuum {
		stated = append(stated, "vacuum of "+units.Figure(v.Vacuum.SI(), quantity.Stress))
	}
	if u.Hot {
		stated = append(stated, "temperature of "+units.Temperature(v.Hottest().SI()))
		u.Pressure, u.Vacuum = u.Pressure || pressure > 0, u.Vacuum || vacuum > 0
		height := s.Part.LiquidHeight
		u.Head = height.SI() > 0 || !height.Given() && form.Asks(s)
	}
	if stated != nil {
		u.Why = "no condition reaches the service's " + strings.Join(stated, ", its ") + ": state the one that does ([[condition]])"
	}
	return u
}
