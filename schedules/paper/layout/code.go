package layout

import (
	"rsc.io/qr"

	"frp/veilwright/schedules/paper/drawing"
)

// longestCode is how much text a code of the head's size holds so that its
// modules survive a copier.
const longestCode = 150

// qrCode draws text as a QR code with its edge in mm, nil where it cannot.
func qrCode(text string, edge float64) *drawing.Picture {
	if r := []rune(text); len(r) > longestCode {
		text = string(r[:longestCode])
	}
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return nil
	}
	p := &drawing.Picture{Width: edge, Height: edge}
	module := edge / float64(code.Size)
	// As few boxes as there need be: each run reaches down as far as it is black.
	drawn := make([]bool, code.Size*code.Size)
	black := func(x, y int) bool { return y < code.Size && code.Black(x, y) && !drawn[y*code.Size+x] }
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			from := x
			for x < code.Size && black(x, y) {
				x++
			}
			if x == from {
				continue
			}
			down := y + 1
			for full(from, x, down, black) {
				down++
			}
			for i := y; i < down; i++ {
				for k := from; k < x; k++ {
					drawn[i*code.Size+k] = true
				}
			}
			p.Box(float64(from)*module, float64(y)*module, float64(x-from)*module, float64(down-y)*module, 0, drawing.Black)
		}
	}
	return p
}

func full(from, to, y int, black func(x, y int) bool) bool {
	for x := from; x < to; x++ {
		if !black(x, y) {
			return false
		}
	}
	return true
}
