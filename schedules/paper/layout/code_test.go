package layout

import (
	"testing"

	"rsc.io/qr"
)

// Every module of the code is drawn, and nothing beside: the boxes cover what
// the library calls black.
func TestQRCode_drawsEveryModuleOnce(t *testing.T) {
	const text = "Lay-up sheet; job R-2301; revision 1; fingerprint 0123456789ab"
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		t.Fatal(err)
	}
	edge := float64(code.Size) // a module is 1 mm
	covered := map[[2]int]int{}
	for _, m := range qrCode(text, edge).Marks {
		a, b := m.Path[0], m.Path[2]
		for x := int(a.X + 0.5); x < int(b.X+0.5); x++ {
			for y := int(a.Y + 0.5); y < int(b.Y+0.5); y++ {
				covered[[2]int{x, y}]++
			}
		}
	}
	for x := range code.Size {
		for y := range code.Size {
			want := 0
			if code.Black(x, y) {
				want = 1
			}
			if got := covered[[2]int{x, y}]; got != want {
				t.Fatalf("module %d, %d is drawn %d times, want %d", x, y, got, want)
			}
		}
	}
}
