package bench

import (
	"strings"

	"frp/veilwright/rules"
	"frp/veilwright/rules/resin"
	"frp/veilwright/rules/structure"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

// findings draws the list, why and fix as the plan's panel.
func (b *Bench) findings(w int) []string {
	t := b.Desk.Theme
	r := b.Desk.Report()
	n := b.plan.list
	out := make([]string, 0, b.plan.panel())
	fresh := b.Desk.Fresh(r)
	chosen := b.chosen(w)
	for i := b.list; len(out) < n; i++ {
		switch {
		case i >= len(r.Findings):
			out = append(out, "")
		case i == b.sel:
			out = append(out, chosen...)
		default:
			out = append(out, b.findingLine(r, i, draw.Clean(r.Findings[i].Message), fresh[i], w))
		}
	}
	f := b.finding()
	if f == nil {
		return append(out, t.Dim.Render("   no findings"))
	}
	out = append(out, b.explain(f, w, b.plan.why)...)
	fix, tail := instead(f), ""
	if b.Waits() {
		fix = "…"
	} else if b.asksFamily() {
		tail = t.Key.Render("f") + " asks the resin families"
	} else if m := b.offered(); m != nil {
		fix, tail = draw.Clean(m.Text), t.Key.Render("f")+" do it"
	}
	if len(f.Rows) > 0 && f.At.Index != b.Desk.Row {
		goes := t.Key.Render("n") + " goes there"
		if tail != "" {
			goes += "  " + tail
		}
		if draw.Width(fix)+draw.Width(goes)+1 <= w-9 {
			tail = goes
		}
	}
	return append(out, "   "+t.Label.Render("fix")+"  "+endsIn(fix, tail, w-9))
}

// chosen draws the finding explained.
func (b *Bench) chosen(w int) []string {
	r := b.Desk.Report()
	if b.sel >= len(r.Findings) {
		return nil
	}
	return b.chosenLines(r, b.Desk.Fresh(r)[b.sel], w, b.plan.list)
}

// scrollFindings keeps the finding explained in sight.
func (b *Bench) scrollFindings() {
	r := b.Desk.Report()
	held := b.plan.list - max(0, len(b.chosen(b.plan.Findings.W))-1) // how many findings the lines hold
	b.list = max(0, min(b.list, len(r.Findings)-held, b.sel))
	b.list = max(b.list, b.sel-held+1)
}

// endsIn sets a styled tail at the end of a line of w cells.
func endsIn(left, tail string, w int) string {
	n := draw.Width(tail)
	if n == 0 || n >= w {
		return draw.Cut(left, w)
	}
	return draw.Left(left, w-n-1) + " " + tail
}

// severityCells are the pointer and the severity before a finding's text.
const severityCells = 14

func (b *Bench) findingLine(r *rules.Report, i int, message string, fresh bool, w int) string {
	t := b.Desk.Theme
	f := &r.Findings[i]
	pointer := " "
	if i == b.sel {
		pointer = draw.Pointer
	}
	tail := ""
	if fresh {
		tail = t.New.Render("NEW")
	}
	return " " + pointer + " " + page.SeverityStyle(t, f.Severity).Render(draw.Left(page.SeverityWord(f.Severity), 10)) +
		" " + endsIn(placed(r, f)+message, tail, w-severityCells)
}

// chosenLines draw the finding explained: its message goes on in a second line
// where one does not hold it and the list has three or more.
func (b *Bench) chosenLines(r *rules.Report, fresh bool, w, n int) []string {
	f := &r.Findings[b.sel]
	head := placed(r, f)
	room := w - severityCells - draw.Width(head)
	if fresh {
		room -= len("NEW") + 1
	}
	message := draw.Clean(f.Message)
	if n < 3 || draw.Width(message) <= room || room < 20 {
		return []string{b.findingLine(r, b.sel, message, fresh, w)}
	}
	lines := draw.Wrap(message, room)
	rest := strings.TrimSpace(strings.Join(lines[1:], " "))
	indent := severityCells + draw.Width(head)
	return []string{b.findingLine(r, b.sel, lines[0], fresh, w), draw.Spaces(indent) + draw.Cut(rest, w-indent)}
}

// placed is the plies before a finding's message, "" where it is about none.
func placed(r *rules.Report, f *rules.Finding) string {
	if plies := place(r, f); plies != "" {
		return draw.Left(plies, 9) + " "
	}
	return ""
}

// place names the plies a finding is about: "ply 1", "ply 4 +2".
func place(r *rules.Report, f *rules.Finding) string {
	if len(f.Rows) == 0 {
		return ""
	}
	row := f.Rows[0]
	if row < 0 || row >= len(r.Analysis.Rows) {
		return ""
	}
	name := page.PlyName(&r.Analysis.Rows[row])
	if len(f.Rows) > 1 {
		name += "…"
	}
	return name
}

// explain is why a finding matters in h lines, its basis in the last one where
// there is room, and how to read all of it.
func (b *Bench) explain(f *rules.Finding, w, h int) []string {
	t := b.Desk.Theme
	room := max(10, w-9)
	tail := t.Key.Render("w") + " all"
	lines := draw.Wrap(draw.Clean(f.Rule.Why), room-6)
	n := h
	if h >= 3 {
		n--
	}
	out := make([]string, 0, h)
	last := min(n, max(1, len(lines))) - 1
	for i := range n {
		head, line := draw.Spaces(9), ""
		if i == 0 {
			head = "   " + t.Label.Render("why") + draw.Spaces(3)
		}
		if i < len(lines) {
			line = lines[i]
		}
		switch {
		case i == last:
			if len(lines) > n {
				line = draw.Cut(line+" …", room-6)
			}
			out = append(out, head+endsIn(line, tail, room))
		case i > last:
			out = append(out, "")
		default:
			out = append(out, head+line)
		}
	}
	if h >= 3 {
		out = append(out, "   "+t.Label.Render("basis")+" "+t.Dim.Render(draw.Cut(draw.Clean(f.Basis), room)))
	}
	return out
}

// goesElsewhere tells that another page helps with a finding that nothing
// mechanical fixes.
func goesElsewhere(f *rules.Finding) bool {
	return f.Rule.ID == structure.WallFails.ID || f.Severity == rules.Incomplete
}

// instead is what to do about a finding that nothing mechanical fixes.
func instead(f *rules.Finding) string {
	switch {
	case f.Rule.ID == resin.FamilyMissing.ID:
		return "choose the resin family"
	case f.Rule.ID == structure.WallFails.ID:
		return "Tab 2 shows how much structure is needed"
	case f.Severity == rules.Incomplete:
		return "j: state what is missing in the job data"
	}
	return "no automatic fix: a person decides"
}

func refusedFix(f *rules.Finding) string {
	const s = "no automatic fix"
	if goesElsewhere(f) {
		return s + "; " + instead(f)
	}
	return s + ": w shows why, n goes to the next finding"
}
