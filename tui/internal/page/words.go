package page

import (
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
	"frp/veilwright/schedules/paper"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/widget"
)

// Glyph is the one-cell mark of a material form, the same in picture, table
// and rack.
func Glyph(f laminate.Form) string {
	switch f {
	case laminate.Veil:
		return ":"
	case laminate.ChoppedMat:
		return "░"
	case laminate.SprayedChop:
		return "▒"
	case laminate.WovenRoving:
		return "▓"
	case laminate.Unidirectional:
		return "≡"
	case laminate.RovingBand:
		return "╱"
	case laminate.ResinCoat:
		return "─"
	case laminate.Lamina:
		return "█"
	case laminate.NoForm:
	}
	return "?"
}

// ZoneWord is the short name of a zone.
func ZoneWord(z laminate.Zone) string {
	switch z {
	case laminate.InnerSurface:
		return "inner"
	case laminate.InteriorLayer:
		return "interior"
	case laminate.StructuralLayer:
		return "structure"
	case laminate.OuterSurface:
		return "outer"
	case laminate.NoZone:
	}
	return "no zone"
}

// ZoneStyle is the look of a zone.
func ZoneStyle(t *draw.Theme, z laminate.Zone) draw.Style {
	switch z {
	case laminate.InnerSurface, laminate.InteriorLayer:
		return t.Barrier
	case laminate.StructuralLayer:
		return t.Structure
	case laminate.OuterSurface:
		return t.Outer
	case laminate.NoZone:
	}
	return draw.Style{}
}

// SeverityWord is a severity as it is written: a break stands out by capitals
// too, for screens without color.
func SeverityWord(s rules.Severity) string {
	if s >= rules.Break {
		return strings.ToUpper(s.String())
	}
	return s.String()
}

// SeverityStyle is the look of a severity.
func SeverityStyle(t *draw.Theme, s rules.Severity) draw.Style {
	switch s {
	case rules.Unusable, rules.Break:
		return t.Break
	case rules.Incomplete:
		return t.Incomplete
	case rules.Warning:
		return t.Warning
	case rules.Note:
		return t.Note
	case rules.Clear:
	}
	return draw.Style{}
}

// SeverityMark is the one-cell mark of a row that findings are about.
func SeverityMark(s rules.Severity) string {
	switch s {
	case rules.Unusable, rules.Break:
		return "!"
	case rules.Incomplete:
		return "?"
	case rules.Warning:
		return "~"
	case rules.Note, rules.Clear:
	}
	return " "
}

// PlyName is a row as sentences name it: "ply 4", "plies 2-3".
func PlyName(f *laminate.RowFigures) string {
	if f.Last > f.First {
		return "plies " + paper.Span(f.First, f.Last)
	}
	return "ply " + paper.Span(f.First, f.Last)
}

// MaterialName is how screens call a material.
func MaterialName(m *laminate.Material) string {
	if m.Name != "" {
		return m.Name
	}
	return m.ID
}

// Degrees prints an angle: "55°".
func Degrees(a float64) string {
	return quantity.US.Figure(a, quantity.Angle)
}

// Count prints a number of things: "1 break", "3 breaks".
func Count(n int, noun string) string {
	if noun == rules.Unusable.String() {
		noun = "problem"
	}
	switch noun {
	case "incomplete":
		return quantity.Counted(n, noun, noun)
	case "ply":
		return quantity.Counted(n, noun, "plies")
	}
	return quantity.Counted(n, noun, noun+"s")
}

// TallyPieces is how many findings of each severity a report has, each in its
// look, as the title of a rule.
func TallyPieces(t *draw.Theme, r *rules.Report) []widget.Piece {
	var pieces []widget.Piece
	n := Tally(r)
	for s := rules.Unusable; s >= rules.Note; s-- {
		if n[s] == 0 {
			continue
		}
		if len(pieces) > 0 {
			pieces = append(pieces, widget.Piece{Text: " · "})
		}
		pieces = append(pieces, widget.Piece{Text: Count(n[s], s.String()), Look: SeverityStyle(t, s)})
	}
	if len(pieces) == 0 {
		return []widget.Piece{{Text: "nothing found", Look: t.Good}}
	}
	return pieces
}

// Labeled sets a text under a label: the label in the first cells, the text
// wrapped beside it in a look of its own. An empty text is no line.
func Labeled(t *draw.Theme, cells int, label, text string, w int, look ...draw.Style) []string {
	var lines []string
	for i, line := range draw.Wrap(draw.CleanText(text), max(20, min(w-cells-2, 100))) {
		if i > 0 {
			label = ""
		}
		for _, l := range look {
			line = l.Render(line)
		}
		lines = append(lines, " "+t.Label.Render(draw.Left(label, cells))+line)
	}
	return lines
}

// FileWord is a name as part of a file's: without what a file's name may not have.
func FileWord(name string) string {
	return strings.Trim(strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '.', r == '_':
			return r
		}
		return '-'
	}, name), "-.")
}
