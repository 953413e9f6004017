package bench

import (
	"strings"

	"frp/veilwright/rules"
	"frp/veilwright/rules/structure"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/text"
	"frp/veilwright/tui/internal/theme"
)

// findings draws the list, why and mend as the plan's panel.
func (b *Bench) findings(w int) []string {
	t := b.desk.Theme
	b.settle()
	r := b.desk.Report()
	n := b.plan.list
	out := make([]string, 0, b.plan.panel())
	b.list = max(0, min(b.list, len(r.Findings)-n))
	if b.sel < b.list {
		b.list = b.sel
	}
	if b.sel >= b.list+n {
		b.list = b.sel - n + 1
	}
	fresh := b.desk.Fresh(r)
	for i := b.list; i < b.list+n; i++ {
		if i >= len(r.Findings) {
			out = append(out, "")
			continue
		}
		out = append(out, b.findingLine(r, i, fresh[i], w))
	}
	f := b.finding()
	if f == nil {
		return append(out, t.Dim.Render("   no rule has anything to say"))
	}
	out = append(out, b.explain(f, w, b.plan.why)...)
	mend, tail := instead(f), ""
	if b.Waits() {
		mend = "…"
	} else if m := b.remedy(); m != nil {
		mend, tail = text.Clean(m.Text), t.Key.Render("m")+" do it"
	}
	return append(out, "   "+t.Label.Render("mend")+"  "+endsIn(mend, tail, w-9))
}

// endsIn sets a styled tail at the end of a line of w cells.
func endsIn(left, tail string, w int) string {
	n := text.Width(tail)
	if n == 0 || n >= w {
		return text.Cut(left, w)
	}
	return text.Left(left, w-n-1) + " " + tail
}

func (b *Bench) findingLine(r *rules.Report, i int, fresh bool, w int) string {
	t := b.desk.Theme
	f := &r.Findings[i]
	pointer := " "
	if i == b.sel {
		pointer = theme.Pointer
	}
	plies := place(r, f)
	tail := ""
	if fresh {
		tail = "NEW"
	}
	if i == b.sel && len(f.Rows) > 0 && f.At.Index != b.desk.Row {
		tail = strings.TrimSpace(tail + "  n goes there")
	}
	message := text.Left(plies, 9) + " " + text.Clean(f.Message)
	if plies == "" {
		message = text.Clean(f.Message)
	}
	if fresh {
		tail = t.New.Render("NEW") + strings.TrimPrefix(tail, "NEW")
	}
	return " " + pointer + " " + page.SeverityStyle(t, f.Severity).Render(text.Left(page.SeverityWord(f.Severity), 8)) +
		" " + endsIn(message, tail, w-12)
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
	t := b.desk.Theme
	room := max(10, w-9)
	tail := t.Key.Render("w") + " all"
	lines := text.Wrap(text.Clean(f.Rule.Why), room-6)
	n := h
	if h >= 3 {
		n--
	}
	out := make([]string, 0, h)
	last := min(n, max(1, len(lines))) - 1
	for i := range n {
		head, line := text.Spaces(9), ""
		if i == 0 {
			head = "   " + t.Label.Render("why") + text.Spaces(3)
		}
		if i < len(lines) {
			line = lines[i]
		}
		switch {
		case i == last:
			if len(lines) > n {
				line = text.Cut(line+" …", room-6)
			}
			out = append(out, head+endsIn(line, tail, room))
		case i > last:
			out = append(out, "")
		default:
			out = append(out, head+line)
		}
	}
	if h >= 3 {
		out = append(out, "   "+t.Label.Render("basis")+" "+t.Dim.Render(text.Cut(text.Clean(f.Basis), room)))
	}
	return out
}

// goesElsewhere tells that another page helps with a finding that nothing
// mechanical mends.
func goesElsewhere(f *rules.Finding) bool {
	return f.Rule.ID == structure.WallFails.ID || f.Severity == rules.Open
}

// instead is what to do about a finding that nothing mechanical mends.
func instead(f *rules.Finding) string {
	switch {
	case f.Rule.ID == structure.WallFails.ID:
		return "Tab 2: the wall page tells how much structure it wants"
	case f.Severity == rules.Open:
		return "f gives the facts that are missing"
	}
	return "nothing mechanical: somebody decides"
}

func refusedMend(f *rules.Finding) string {
	s := "nothing mechanical mends this " + f.Severity.String()
	if goesElsewhere(f) {
		return s + "; " + instead(f)
	}
	return s + ": w tells why, n goes to the next finding"
}
