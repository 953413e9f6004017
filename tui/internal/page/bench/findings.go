package bench

import (
	"strings"

	"frp/veilwright/laminate"
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
	out := make([]string, 0, b.plan.panel())
	fresh := b.Desk.Fresh(r)
	shares, left := b.shares(w)
	for i, n := range shares {
		out = append(out, b.findingLines(r, b.list+i, fresh[b.list+i], w, n)...)
	}
	f := b.finding()
	if f == nil {
		for len(out) < b.plan.list {
			out = append(out, "")
		}
		return append(out, t.Dim.Render("   no findings"))
	}
	// Rows that the list leaves go on with the explanation, which stays at the end of the panel.
	why := b.explain(f, w, b.plan.why, b.plan.why+left)
	for range b.plan.list + b.plan.why - len(out) - len(why) {
		out = append(out, "")
	}
	out = append(out, why...)
	fix, tail := b.instead(f), ""
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

// shares gives each finding in sight its lines of the list, and tells how many
// are left over. Each has one; where there are more lines than findings, the one
// explained and then the others take what their messages need. In a list of
// three lines or more the one explained has two if it needs them.
func (b *Bench) shares(w int) (lines []int, left int) {
	r := b.Desk.Report()
	n, all := b.plan.list, len(r.Findings)
	fresh := b.Desk.Fresh(r)
	need := func(i int) int { return len(b.messageLines(r, i, fresh[i], w)) }
	spare, chosen := max(0, n-all), 1
	if b.sel < all {
		most := 1 + spare
		if n >= 3 {
			most = max(most, 2)
		}
		chosen = min(need(b.sel), most)
		spare = max(0, spare-(chosen-1))
	}
	left = n
	for i := b.list; i < all && left > 0; i++ {
		k := 1
		switch {
		case i == b.sel:
			k = chosen
		case spare > 0:
			k = min(need(i), 1+spare)
			spare -= k - 1
		}
		k = min(k, left)
		lines = append(lines, k)
		left -= k
	}
	return lines, left
}

// scrollFindings keeps the finding explained in sight.
func (b *Bench) scrollFindings() {
	r := b.Desk.Report()
	if b.sel >= len(r.Findings) {
		b.list = 0
		return
	}
	more := 0 // lines that the finding explained has beside its first
	if b.plan.list >= 3 || len(r.Findings) < b.plan.list {
		more = min(len(b.messageLines(r, b.sel, b.Desk.Fresh(r)[b.sel], b.plan.Findings.W))-1, max(1, b.plan.list-len(r.Findings)))
	}
	held := b.plan.list - more // how many findings the lines hold
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

// messageLines are the lines that a finding's message takes beside its severity
// and its plies.
func (b *Bench) messageLines(r *rules.Report, i int, fresh bool, w int) []string {
	f := &r.Findings[i]
	message := draw.Clean(f.Message)
	room := w - severityCells - draw.Width(placed(r, f))
	if fresh {
		room -= len("NEW") + 1
	}
	if draw.Width(message) <= room || room < 20 {
		return []string{message}
	}
	return draw.Wrap(message, room)
}

// findingLines draw a finding in n lines at most; a message that needs more ends
// in an ellipsis.
func (b *Bench) findingLines(r *rules.Report, i int, fresh bool, w, n int) []string {
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
	lines := b.messageLines(r, i, fresh, w)
	if len(lines) > n {
		lines = append(lines[:n-1:n-1], strings.Join(lines[n-1:], " "))
	}
	head := placed(r, f)
	out := []string{" " + pointer + " " + page.SeverityStyle(t, f.Severity).Render(draw.Left(page.SeverityWord(f.Severity), 10)) +
		" " + endsIn(head+lines[0], tail, w-severityCells)}
	indent := severityCells + draw.Width(head)
	for _, l := range lines[1:] {
		out = append(out, draw.Spaces(indent)+draw.Cut(l, w-indent))
	}
	return out
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

// explain is why a finding matters, in h lines or in as many more, up to most, as
// it needs; its basis after it where there is room, and how to read all of it.
func (b *Bench) explain(f *rules.Finding, w, h, most int) []string {
	t := b.Desk.Theme
	room := max(10, w-9)
	tail := t.Key.Render("w") + " all"
	lines := draw.Wrap(draw.Clean(f.Rule.Why), room-6)
	basis := draw.Wrap(draw.Clean(f.Basis), room)
	h = max(h, min(most, len(lines)+len(basis)))
	n := h
	if h >= 3 {
		n -= max(1, min(len(basis), h-len(lines)))
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
	for i := range h - n {
		head, line := draw.Spaces(9), basis[i]
		if i == 0 {
			head = "   " + t.Label.Render("basis") + " "
		}
		if i == h-n-1 {
			line = draw.Cut(strings.Join(basis[i:], " "), room)
		}
		out = append(out, head+t.Dim.Render(line))
	}
	return out
}

// goesElsewhere tells that another page helps with a finding that nothing
// mechanical fixes.
func (b *Bench) goesElsewhere(f *rules.Finding) bool {
	return f.Rule.ID == structure.WallFails.ID || f.Severity == rules.Incomplete
}

// instead is what to do about a finding that nothing mechanical fixes.
func (b *Bench) instead(f *rules.Finding) string {
	switch {
	case f.At.Kind == laminate.RefLaminate && len(b.schedule().Plies) == 0:
		return "a number key adds the first ply"
	case b.Desk.Report().Overlay != nil && b.goesElsewhere(f):
		return "Esc leads to the job page, where e states what is missing"
	case f.Rule.ID == resin.FamilyMissing.ID:
		return "choose the resin family"
	case f.Rule.ID == structure.WallFails.ID:
		return "Tab 2 shows how much structure is needed"
	case f.Severity == rules.Incomplete:
		return "j: state what is missing in the job data"
	}
	return "no automatic fix: a person decides"
}

func (b *Bench) refusedFix(f *rules.Finding) string {
	const s = "no automatic fix"
	if b.goesElsewhere(f) {
		return s + "; " + b.instead(f)
	}
	return s + ": w shows why, n goes to the next finding"
}
