package tables

import (
	"math"
	"testing"
)

// TOML reads -0 as the integer 0: a zero is written as what it is read back as.
func TestTOMLNumber_zeroIsReadBackAsItself(t *testing.T) {
	for _, v := range []float64{0, math.Copysign(0, -1)} {
		if got := TOMLNumber(v); got != "0" {
			t.Errorf("%v is spelled %s", v, got)
		}
	}
}
