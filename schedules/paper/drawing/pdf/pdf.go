// Package pdf writes pictures as the pages of a PDF file. The same pictures give
// the same bytes: nothing of the clock is in them.
package pdf

import (
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
)

// About is what a file says of itself.
type About struct{ Title, Subject string }

// undated is the date that the format wants and a paper does not have: what it
// is of has a revision and a fingerprint.
var undated = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// Write writes one page for each picture, in its size. Text has to be known to
// the typeface (font.Known).
func Write(w io.Writer, about About, pages []drawing.Picture) error {
	f := fpdf.New("P", "mm", "Letter", "")
	f.SetCreationDate(undated)
	f.SetModificationDate(undated)
	f.SetCatalogSort(true)
	f.SetProducer("veilwright", true)
	f.SetTitle(about.Title, true)
	f.SetSubject(about.Subject, true)
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.AddUTF8FontFromBytes("go", "", font.Regular)
	f.AddUTF8FontFromBytes("go", "B", font.Bold)
	f.SetLineCapStyle("butt")
	f.SetLineJoinStyle("miter")
	for i := range pages {
		p := &pages[i]
		f.AddPageFormat("P", fpdf.SizeType{Wd: p.Width, Ht: p.Height})
		for k := range p.Marks {
			put(f, &p.Marks[k])
		}
	}
	return f.Output(w)
}

func put(f *fpdf.Fpdf, m *drawing.Mark) {
	if m.Text != "" {
		write(f, m)
		return
	}
	style := ""
	if m.Fill != drawing.Clear && m.Closed {
		level := int(m.Fill.Level()*255 + 0.5)
		f.SetFillColor(level, level, level)
		style = "F"
	}
	if m.Stroke > 0 {
		f.SetLineWidth(m.Stroke)
		style += "D"
	}
	if style == "" || len(m.Path) < 2 {
		return
	}
	if m.Dashed {
		f.SetDashPattern([]float64{1.6, 1}, 0)
		defer f.SetDashPattern(nil, 0)
	}
	f.MoveTo(m.Path[0].X, m.Path[0].Y)
	for _, at := range m.Path[1:] {
		f.LineTo(at.X, at.Y)
	}
	if m.Closed {
		f.ClosePath()
	}
	f.DrawPath(style)
}

func write(f *fpdf.Fpdf, m *drawing.Mark) {
	style := ""
	if m.Bold {
		style = "B"
	}
	f.SetFont("go", style, m.Size)
	at, wide := m.At, 0.0
	switch m.Anchor {
	case drawing.Middle:
		wide = font.Width(m.Text, m.Size, m.Bold) / 2
	case drawing.End:
		wide = font.Width(m.Text, m.Size, m.Bold)
	case drawing.Start:
	}
	if !m.Turned {
		f.Text(at.X-wide, at.Y, m.Text)
		return
	}
	f.TransformBegin()
	f.TransformRotate(90, at.X, at.Y)
	f.Text(at.X-wide, at.Y, m.Text)
	f.TransformEnd()
}
