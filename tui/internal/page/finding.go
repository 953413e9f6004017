package page

import (
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
)

// labelCells are the label before what is said of a finding, as w shows it.
const labelCells = 10

// FindingLines is the whole text of a finding in lines of w cells: its rule, what was
// found and in which plies, why it matters, when the rule fires, its basis, and what to
// do about it. What is empty has no line.
func FindingLines(t *draw.Theme, f *rules.Finding, plies, fix string, w int) []string {
	body := []string{" " + t.Title.Render(draw.Cut(draw.Clean(f.Rule.Title), w-2))}
	severity := SeverityWord(f.Severity)
	cells := max(labelCells, draw.Width(severity)+1)
	for _, x := range [][2]string{{severity, draw.Clean(f.Message)}, {"plies", plies}, {"why", f.Rule.Why}, {"fires", f.Rule.When}, {"basis", f.Basis}, {"fix", fix}, {"rule", f.Rule.ID}} {
		body = append(body, told(t, cells, x[0], x[1], w)...)
	}
	return body
}

// Told is one of the things that w shows beside findings, after a blank line; an empty
// one is no line.
func Told(t *draw.Theme, label, text string, w int) []string {
	return told(t, max(labelCells, draw.Width(label)+1), label, text, w)
}

func told(t *draw.Theme, cells int, label, text string, w int) []string {
	if text == "" {
		return nil
	}
	return append([]string{""}, Labeled(t, cells, label, text, w)...)
}
