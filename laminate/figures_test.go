package laminate_test

import (
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// 24 oz/yd² is 0.8137 kg/m², 1.5 oz/ft² is 0.4577 kg/m² (international pound).
func TestArealMassText_weighsAsTheTradeDoes(t *testing.T) {
	for _, c := range []struct {
		form laminate.Form
		mass float64
		u    quantity.System
		want string
	}{
		{laminate.WovenRoving, 0.81373, quantity.US, "24 oz/yd²"}, {laminate.Unidirectional, 0.44077, quantity.US, "13 oz/yd²"},
		{laminate.ChoppedMat, 0.45772, quantity.US, "1.5 oz/ft²"}, {laminate.WovenRoving, 0.81373, quantity.Metric, "814 g/m²"},
	} {
		if got := laminate.ArealMassText(c.form, c.mass, c.u); got != c.want {
			t.Errorf("%v %v: %q, want %q", c.form, c.mass, got, c.want)
		}
	}
}
