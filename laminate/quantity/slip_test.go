package quantity_test

import (
	"testing"

	"frp/veilwright/laminate/quantity"
)

// What a slip looks like, each worked out by hand from the definition of the units.
func TestLooksLike_namesTheUnitOrThePoint(t *testing.T) {
	between := func(low, high float64) func(float64) bool { return quantity.Range{Low: low, High: high}.Spans }
	heat, err := quantity.ParseDefault("290 degC", quantity.Celsius)
	if err != nil {
		t.Fatal(err)
	}
	if got := quantity.LooksLike(heat, between(388.15, 448.15)); got != "290 °F" { // 143.3 °C
		t.Errorf("290 °C for a resin of 145 °C looks like %q", got)
	}
	if got := quantity.LooksLike(quantity.New(24, quantity.OuncePerSquareFoot).Spelled(quantity.OuncePerSquareFoot), between(0.2, 1.3)); got != "24 oz/yd² or 2.4 oz/ft²" { // 814 and 732 g/m²
		t.Errorf("24 oz/ft² of a woven roving looks like %q", got)
	}
	if got := quantity.LooksLike(quantity.New(720, quantity.Gigapascal).Spelled(quantity.Gigapascal), between(54e9, 90e9)); got != "72 GPa" {
		t.Errorf("720 GPa of a glass fiber looks like %q", got)
	}
	if got := quantity.LooksLike(quantity.New(10.5, quantity.Gigapascal).Spelled(quantity.Gigapascal), between(54e9, 90e9)); got != "10.5 Msi" { // 72.4 GPa
		t.Errorf("10.5 GPa of a glass fiber looks like %q", got)
	}
	if got := quantity.LooksLike(quantity.New(32, quantity.Millimetre).Spelled(quantity.Millimetre), between(1e-6, 2e-6)); got != "" {
		t.Errorf("32 mm that nothing explains looks like %q", got)
	}
	if got := quantity.LooksLike(quantity.Length{}, between(0, 1)); got != "" {
		t.Errorf("a length that is not given looks like %q", got)
	}
}

func TestShareLooksLike_movesThePoint(t *testing.T) {
	usual := quantity.Range{Low: 0.01, High: 0.03}.Spans
	for share, want := range map[float64]string{0.15: "1.5 %", 0.0015: "1.5 %", 0.00015: "1.5 %", 0.04: ""} {
		if got := quantity.ShareLooksLike(share, usual); got != want {
			t.Errorf("%v looks like %q, want %q", share, got, want)
		}
	}
}
