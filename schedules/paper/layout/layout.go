// Package layout sets a form on pages: every text is measured before it is set,
// nothing runs off the paper, and each page says what it is of. The same form
// gives the same pages.
package layout

import (
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
	"frp/veilwright/schedules/paper/picture"
)

// Size is a sheet of paper in mm.
type Size struct{ Width, Height float64 }

// The sheets.
var (
	Letter = Size{215.9, 279.4}
	A4     = Size{210, 297}
)

// SizeFor is the sheet that goes with a system of units.
func SizeFor(u quantity.System) Size {
	if u == quantity.US {
		return Letter
	}
	return A4
}

// Margins in mm; the left one takes the holes of a binder.
const (
	marginLeft  = 18.0
	marginRight = 14.0
	marginTop   = 11.0
	marginFoot  = 10.0
)

// Type: sizes in points, and how far lines are apart in mm.
const (
	body, bodyLine   = 9.0, 4.4
	small, smallLine = drawing.Smallest, 3.7
	boxHigh          = 7.5 // what is written in with a pen
	pad              = 1.2 // between a cell's text and its edge
)

// Pages are a form on pages of a size, and the characters that the typeface
// lacks, each once; Missing stands in their place.
func Pages(f *paper.Form, size Size) ([]drawing.Picture, []rune) {
	s := &setter{size: size, form: f, width: size.Width - marginLeft - marginRight, known: map[string]string{}}
	s.foot = s.wrap(s.clean(f.Aid()), s.width, small, false)
	s.bottom = size.Height - marginFoot - smallLine*float64(len(s.foot)+1) - 3
	s.newPage()
	for i, b := range f.Sheet {
		ahead := 0.0
		if i+1 < len(f.Sheet) {
			ahead = begins(f.Sheet[i+1])
		}
		s.block(b, ahead)
	}
	total := strconv.Itoa(len(s.pages))
	for i := range s.pages {
		s.pages[i].WriteBold(size.Width-marginRight, size.Height-marginFoot, "page "+strconv.Itoa(i+1)+" of "+total, 9, drawing.End)
	}
	return s.pages, s.missing
}

// begins is how much of a block a heading wants under it on the same page.
func begins(b paper.Block) float64 {
	switch b := b.(type) {
	case paper.Figure:
		return b.Picture.Height + 8
	case paper.Section:
		p := b.Wall.Section()
		return p.Height + 8
	case paper.Heading:
		return 28
	default: // some lines
		return 22
	}
}

type setter struct {
	size    Size
	form    *paper.Form
	width   float64
	pages   []drawing.Picture
	y       float64 // where the next block begins
	top     float64 // where the first one does
	bottom  float64
	foot    []string
	head    *drawing.Picture
	known   map[string]string
	missing []rune
	part    string // what began a page of its own last
}

func (s *setter) page() *drawing.Picture { return &s.pages[len(s.pages)-1] }

// clean is text as it may be set.
func (s *setter) clean(text string) string {
	if done, ok := s.known[text]; ok {
		return done
	}
	done, missing := font.Known(word.Clean(text))
	for _, r := range missing {
		if !slices.Contains(s.missing, r) {
			s.missing = append(s.missing, r)
		}
	}
	s.known[text] = done
	return done
}

// wrap breaks text into lines that are at most so wide; a longer word is broken
// where the line ends.
func (s *setter) wrap(text string, width, size float64, bold bool) []string {
	space := font.Width(" ", size, bold)
	var lines []string
	line, used := "", 0.0
	flush := func() {
		lines = append(lines, line)
		line, used = "", 0
	}
	words := strings.Fields(text)
	for i, w := range words {
		if i > 0 && strings.HasPrefix(w, "%") { // it stays with its figure
			continue
		}
		if i+1 < len(words) && strings.HasPrefix(words[i+1], "%") {
			w += " " + words[i+1]
		}
		wide := font.Width(w, size, bold)
		if line != "" && used+space+wide > width {
			flush()
		}
		if line != "" {
			line, used = line+" ", used+space
		}
		for wide > width && line == "" {
			n, at := 0, 0.0
			for i, r := range w {
				a := font.Width(string(r), size, bold)
				if at+a > width && i > 0 {
					n = i
					break
				}
				at += a
			}
			if n == 0 {
				break // one letter, or all of it
			}
			if cut := strings.LastIndexAny(w[:n], "_-./:,"); cut > n/2 { // where a name has a seam
				n = cut + 1
			}
			line = w[:n]
			flush()
			w = w[n:]
			wide = font.Width(w, size, bold)
		}
		line, used = line+w, used+wide
	}
	if line != "" || len(lines) == 0 {
		flush()
	}
	return lines
}

// room makes sure of so much height, on a new page if need be.
func (s *setter) room(height float64) {
	if s.y+height > s.bottom && s.y > s.top {
		s.newPage()
	}
}

func (s *setter) newPage() {
	const usual = 400 // marks of a page full of rows
	s.pages = append(s.pages, drawing.Picture{Width: s.size.Width, Height: s.size.Height, Marks: make([]drawing.Mark, 0, usual)})
	if s.head == nil {
		s.head, s.top = s.heading()
	}
	p := s.page()
	p.Place(s.head, 0, 0)
	base := s.size.Height - marginFoot
	y := base - smallLine*float64(len(s.foot))
	p.Line(marginLeft, y-smallLine, s.size.Width-marginRight, y-smallLine, drawing.Thin)
	for i, l := range s.foot {
		p.Write(marginLeft, y+smallLine*float64(i), l, small, drawing.Start)
	}
	p.Write(marginLeft, base, picture.Fit(s.clean(s.form.File), s.width/2, small, false), small, drawing.Start)
	p.WriteBold(marginLeft+s.width/2, base, picture.Fit(s.clean(s.part), s.width/2-30, 9, true), 9, drawing.Start) // a loose page says whose it is
	s.y = s.top
}

// heading is the head of every page, and where it ends.
func (s *setter) heading() (*drawing.Picture, float64) {
	const code = 17.0 // mm, of the code
	f := s.form
	p := &drawing.Picture{Width: s.size.Width, Height: s.size.Height}
	right := s.size.Width - marginRight
	ends := right
	if q := qrCode(strings.Join(append([]string{f.Paper}, f.About()...), "; "), code); q != nil {
		p.Place(q, right-code, marginTop)
		ends -= code + 3
	}
	y := marginTop + 3.2
	if len(f.Shop) > 0 {
		p.Write(marginLeft, y, picture.Fit(s.clean(strings.Join(f.Shop, ", ")), ends-marginLeft, small, false), small, drawing.Start)
	}
	state := s.clean(f.State)
	wide := font.Width(state, 10, true) + 4
	if wide > 70 {
		state = picture.Fit(state, 66, 10, true)
		wide = font.Width(state, 10, true) + 4
	}
	p.Box(ends-wide, y+1.3, wide, 6.2, drawing.Bold, drawing.Clear)
	p.WriteBold(ends-wide+2, y+5.8, state, 10, drawing.Start)
	p.WriteBold(marginLeft, y+6.2, picture.Fit(s.clean(f.Paper), ends-wide-2-marginLeft, 14, true), 14, drawing.Start)
	y += 11
	title := f.Title
	if title == "" {
		title = "no title"
	}
	p.WriteBold(marginLeft, y, picture.Fit(s.clean(title), ends-marginLeft, 10, true), 10, drawing.Start)
	y += 4.3
	about := s.wrap(s.clean(strings.Join(f.About(), " · ")), ends-marginLeft, small, false)
	if len(about) > 3 {
		about = append(about[:2:2], picture.Fit(about[2], ends-marginLeft-6, small, false)+"…")
	}
	for _, l := range about {
		p.Write(marginLeft, y, l, small, drawing.Start)
		y += smallLine
	}
	y = max(y-1.5, marginTop+code+1)
	p.Line(marginLeft, y, right, y, drawing.Bold)
	return p, y + 4
}

func (s *setter) block(b paper.Block, ahead float64) {
	switch b := b.(type) {
	case paper.Heading:
		s.title(b, ahead)
	case paper.Facts:
		s.facts(b)
	case paper.Table:
		s.table(b)
	case paper.Note:
		s.note(b)
	case paper.Section:
		p := b.Wall.Section()
		s.picture(&p, "")
	case paper.Figure:
		s.picture(&b.Picture, b.Caption)
	case paper.Boxes:
		s.boxes(b)
	case paper.Signature:
		s.signature(b)
	}
}

func (s *setter) title(h paper.Heading, ahead float64) {
	size, gap := 10.5, 3.0
	if h.Level < 2 {
		size, gap = 12, 4
	}
	lines := s.wrap(s.clean(h.Text), s.width, size, true)
	need := gap + float64(len(lines))*5
	if h.Page {
		s.part = h.Text
		if s.y > s.top {
			s.newPage()
		}
	}
	s.room(min(need+ahead, s.bottom-s.top))
	if s.y > s.top {
		s.y += gap
	}
	for _, l := range lines {
		s.room(5)
		s.page().WriteBold(marginLeft, s.y+3.8, l, size, drawing.Start)
		s.y += 5
	}
	s.y++
}

func (s *setter) facts(f paper.Facts) {
	wide := 0.0
	for _, x := range f {
		wide = max(wide, font.Width(s.clean(x.Name), body, false))
	}
	wide = min(wide+noise, s.width/3)
	for _, x := range f {
		names := s.wrap(s.clean(x.Name), wide, body, false)
		values := s.wrap(s.clean(x.Value), s.width-wide-4, body, false)
		for i := range max(len(names), len(values)) {
			s.room(bodyLine)
			if i < len(names) {
				s.page().Write(marginLeft, s.y+3.3, names[i], body, drawing.Start)
			}
			if i < len(values) {
				s.page().Write(marginLeft+wide+4, s.y+3.3, values[i], body, drawing.Start)
			}
			s.y += bodyLine
		}
	}
	s.y += 1.5
}

func (s *setter) note(n paper.Note) {
	indent := float64(n.Indent)
	left, width := marginLeft+indent, s.width-indent
	if n.Framed {
		left, width = left+2, width-4
	}
	mark := s.clean(n.Mark)
	if n.Mark != "" { // Clean drops the blank at its end
		mark = strings.TrimRight(mark, " ") + " "
	}
	strong := n.Framed || len(n.Mark) > 2 // what is more than the dash of a list
	hang := font.Width(mark, body, strong)
	lines := s.wrap(s.clean(n.Text), width-hang, body, false)
	if n.Framed {
		s.room(min(bodyLine*float64(len(lines))+3, s.bottom-s.top))
		s.y += 1.5
	}
	begin := s.y
	frame := func() {
		if n.Framed {
			s.page().Box(left-2, begin-1.2, width+4, s.y-begin+2, drawing.Bold, drawing.Clear)
		}
	}
	for i, l := range lines {
		if s.y+bodyLine+1 > s.bottom && s.y > s.top {
			frame()
			s.newPage()
			begin = s.y
		}
		if i == 0 && strong {
			s.page().WriteBold(left, s.y+3.3, mark, body, drawing.Start)
		} else if i == 0 {
			s.page().Write(left, s.y+3.3, mark, body, drawing.Start)
		}
		s.page().Write(left+hang, s.y+3.3, l, body, drawing.Start)
		s.y += bodyLine
	}
	frame()
	s.y++
	if n.Framed {
		s.y += 1.3
	}
}

func (s *setter) picture(p *drawing.Picture, caption string) {
	text := s.clean(caption)
	s.room(p.Height + 7)
	s.page().Place(s.settable(p), marginLeft, s.y)
	s.y += p.Height + 1
	if text != "" {
		for _, l := range s.wrap(text, s.width, body, false) {
			s.page().Write(marginLeft, s.y+3.3, l, body, drawing.Start)
			s.y += bodyLine
		}
	}
	s.y += 2
}

// settable is a picture with its text as it may be set.
func (s *setter) settable(p *drawing.Picture) *drawing.Picture {
	q := &drawing.Picture{Width: p.Width, Height: p.Height, Marks: slices.Clone(p.Marks)}
	for i := range q.Marks {
		if m := &q.Marks[i]; m.Text != "" {
			m.Text = s.clean(m.Text)
		}
	}
	return q
}

func (s *setter) boxes(b paper.Boxes) {
	across := b.Across
	if across < 1 {
		across = 4
	}
	high := max(boxHigh+4, b.High)
	wide := s.width / float64(across)
	for i, title := range b.Titles {
		column := i % across
		if column == 0 {
			if i > 0 {
				s.y += high
			}
			s.room(high)
		}
		x := marginLeft + wide*float64(column)
		s.page().Box(x, s.y, wide, high, drawing.Thin, drawing.Clear)
		s.page().Write(x+pad, s.y+3.2, picture.Fit(s.clean(title), wide-2*pad, small, false), small, drawing.Start)
	}
	s.y += high + 2.5
}

func (s *setter) signature(g paper.Signature) {
	const high = boxHigh + 5
	s.room(high + 1)
	x := marginLeft
	for i, f := range []struct {
		title string
		share float64
	}{{g.Role + ": name", 0.36}, {"signature", 0.42}, {"date", 0.22}} {
		wide := s.width * f.share
		s.page().Box(x, s.y, wide, high, drawing.Thin, drawing.Clear)
		title := picture.Fit(s.clean(f.title), wide-2*pad, small, i == 0)
		if i == 0 {
			s.page().WriteBold(x+pad, s.y+3.2, title, small, drawing.Start)
		} else {
			s.page().Write(x+pad, s.y+3.2, title, small, drawing.Start)
		}
		x += wide
	}
	s.y += high + 1
}
