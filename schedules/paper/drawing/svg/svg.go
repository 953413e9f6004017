// Package svg writes a picture as an SVG file, in mm. The same picture gives the
// same bytes.
package svg

import (
	"encoding/xml"
	"io"
	"strconv"
	"strings"

	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
)

// Write writes a picture on white ground.
func Write(w io.Writer, title string, p *drawing.Picture) error {
	var b strings.Builder
	wide, high := number(p.Width), number(p.Height)
	b.WriteString(`<?xml version="1.0" encoding="UTF-8"?>` + "\n" + `<svg xmlns="http://www.w3.org/2000/svg" width="` + wide + `mm" height="` + high +
		`mm" viewBox="0 0 ` + wide + " " + high + `" font-family="'Go', sans-serif">` + "\n<title>" + escaped(title) + "</title>\n" +
		`<rect width="` + wide + `" height="` + high + `" fill="#fff"/>` + "\n")
	for i := range p.Marks {
		put(&b, &p.Marks[i])
	}
	b.WriteString("</svg>\n")
	_, err := io.WriteString(w, b.String())
	return err
}

func put(b *strings.Builder, m *drawing.Mark) {
	if m.Text != "" {
		b.WriteString(`<text x="` + number(m.At.X) + `" y="` + number(m.At.Y) + `" font-size="` + number(m.Size*drawing.PerPoint) + `"`)
		if m.Bold {
			b.WriteString(` font-weight="bold"`)
		}
		if m.Anchor != drawing.Start {
			b.WriteString(` text-anchor="` + [...]string{"start", "middle", "end"}[m.Anchor] + `"`)
		}
		if m.Turned {
			b.WriteString(` transform="rotate(-90 ` + number(m.At.X) + " " + number(m.At.Y) + `)"`)
		}
		// As wide in any typeface as it was measured.
		b.WriteString(` textLength="` + number(font.Width(m.Text, m.Size, m.Bold)) + `" lengthAdjust="spacingAndGlyphs">` + escaped(m.Text) + "</text>\n")
		return
	}
	b.WriteString(`<path d="`)
	for i, at := range m.Path {
		b.WriteString([2]string{"M", "L"}[min(i, 1)] + number(at.X) + " " + number(at.Y))
	}
	if m.Closed {
		b.WriteString("Z")
	}
	b.WriteString(`" fill="` + tone(m) + `"`)
	if m.Stroke > 0 {
		b.WriteString(` stroke="#000" stroke-width="` + number(m.Stroke) + `"`)
	}
	if m.Dashed {
		b.WriteString(` stroke-dasharray="1.6 1"`)
	}
	b.WriteString("/>\n")
}

func tone(m *drawing.Mark) string {
	if m.Fill == drawing.Clear || !m.Closed {
		return "none"
	}
	level := strconv.FormatInt(int64(m.Fill.Level()*255+0.5), 16)
	if len(level) < 2 {
		level = "0" + level
	}
	return "#" + level + level + level
}

// number prints mm to the hundredth.
func number(v float64) string {
	text := strconv.FormatFloat(v, 'f', 2, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

func escaped(s string) string {
	var b strings.Builder
	// A builder takes everything.
	_ = xml.EscapeText(&b, []byte(s))
	return b.String()
}
