package layout

import (
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/picture"
)

// Drawings are the blocks of a form that are drawn, each under the heading that
// it stands under.
func Drawings(f *paper.Form) []paper.Figure {
	var all []paper.Figure
	under := ""
	for _, b := range f.Sheet {
		switch b := b.(type) {
		case paper.Heading:
			under = b.Text
		case paper.Section:
			all = append(all, paper.Figure{Picture: b.Wall.Section(), Caption: under})
		case paper.Figure:
			if b.Caption == "" {
				b.Caption = under
			}
			all = append(all, b)
		}
	}
	return all
}

// Stacked is drawings as one, each under its name, with what the typeface lacks.
func Stacked(title string, all []paper.Figure) (*drawing.Picture, []rune) {
	const edge = 6.0
	s := &setter{known: map[string]string{}}
	p := &drawing.Picture{Width: picture.Width + 2*edge}
	y := edge
	say := func(text string, size float64) {
		if text == "" {
			return
		}
		for _, line := range s.wrap(s.clean(text), picture.Width, size, true) {
			p.WriteBold(edge, y+4, line, size, drawing.Start)
			y += 5
		}
	}
	say(title, 11)
	for i := range all {
		f := &all[i]
		say(f.Caption, 10)
		p.Place(s.settable(&f.Picture), edge, y+2)
		y += f.Picture.Height + 8
	}
	p.Height = y
	return p, s.missing
}
