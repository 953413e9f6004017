package wall_test

import (
	"testing"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

var (
	in   = quantity.Inch
	ft   = quantity.Foot
	psi  = quantity.PSI
	degF = quantity.Fahrenheit
)

func loadCase(t testing.TB, r *wall.Result, name string) wall.Case {
	t.Helper()
	for _, c := range r.Cases {
		if c.Name == name {
			return c
		}
	}
	t.Fatalf("no case %s among %+v", name, r.Cases)
	return wall.Case{}
}
