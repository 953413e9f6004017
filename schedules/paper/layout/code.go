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
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			from := x
			for x < code.Size && code.Black(x, y) {
				x++
			}
			if x > from {
				p.Box(float64(from)*module, float64(y)*module, float64(x-from)*module, module, 0, drawing.Black)
			}
		}
	}
	return p
}
