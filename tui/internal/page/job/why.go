package job

import (
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
	"frp/veilwright/rules"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// found is all that was found of a row, worst first. What is of no row is found of each.
func (p *Job) found(r *rules.JobReport, x row) []rules.Finding {
	nowhere := func(f *rules.Finding) bool {
		return !p.placed[laminate.Ref{Kind: f.At.Kind, Index: f.At.Index}]
	}
	var list []rules.Finding
	ofPart := x.at.Kind == laminate.RefJobPart
	switch {
	case ofPart:
		list = r.Part(x.at.Index).Findings
	case x.at.Kind == laminate.RefService:
		list = r.OfService()
	}
	for i := range r.Findings {
		f := &r.Findings[i]
		if _, ok := f.In(x.at); ok && !ofPart || nowhere(f) {
			list = append(list, *f)
		}
	}
	return list
}

// governing is the criterion that decides about a part's wall.
func governing(r *rules.JobReport, x row) (wall.Criterion, bool) {
	if x.at.Kind != laminate.RefJobPart || r.Parts[x.at.Index].Wall == nil {
		return wall.Criterion{}, false
	}
	return r.Parts[x.at.Index].Wall.Governing()
}

// weighed says how a criterion came out, and of what.
func weighed(c *wall.Criterion, u quantity.System) string {
	return strings.Join(slices.DeleteFunc([]string{c.Compared(u), c.Reason}, func(s string) bool { return s == "" }), "; ")
}

// named says what names a laminate, "" of what is none.
func named(j *laminate.Job, x row) string {
	if x.at.Kind != laminate.RefLaminate {
		return ""
	}
	if by := edit.UsedBy(j, x.name); len(by) > 0 {
		return "named by " + strings.Join(by, ", ")
	}
	return "nothing names it"
}

// about says in h lines why what is selected stands as it does: what governs, and
// what was found. Where that takes more, the last line says how much more there is.
func (p *Job) about(r *rules.JobReport, w, h int) (lines []string) {
	x, ok := p.table.Selected()
	if !ok || h < 1 {
		return nil
	}
	t := p.Desk.Theme
	say := func(look draw.Style, text string) {
		for _, l := range draw.Wrap(draw.Clean(text), w-2) {
			lines = append(lines, " "+look.Render(l))
		}
	}
	if c, ok := governing(r, x); ok {
		say(draw.Style{}, c.Title()+": "+weighed(&c, p.Desk.Units()))
	}
	if text := named(r.Job, x); text != "" {
		say(draw.Style{}, text)
	}
	found := p.found(r, x)
	starts, whole := make([]int, len(found)), map[int]bool{len(lines): true}
	for i := range found {
		f := &found[i]
		starts[i] = len(lines)
		say(page.SeverityStyle(t, f.Severity), page.SeverityWord(f.Severity)+": "+f.Message)
		whole[len(lines)] = true
	}
	switch {
	case len(r.Job.Parts) == 0:
		say(draw.Style{}, "a adds the first part, then nozzles, joints and their laminates")
	case len(lines) == 0:
		say(t.Dim, "nothing found")
	}
	if len(found) == 0 && x.governs == "" {
		return lines[:min(h, len(lines))]
	}
	tail := t.Key.Render("w") + " all"
	if len(lines) > h {
		lines = lines[:h]
		if !whole[h] {
			lines[h-1] += " " + draw.Ellipsis
		}
		if i := slices.IndexFunc(starts, func(line int) bool { return line >= h }); i >= 0 {
			tail = page.Count(len(found)-i, "finding") + " more  " + tail
		}
	} else if n := len(lines); n < h && (n == 0 || draw.Width(lines[n-1])+draw.Width(tail)+2 > w) {
		lines = append(lines, "")
	}
	last := len(lines) - 1
	lines[last] = draw.Ends(lines[last], tail, w-1)
	return lines
}

// beginWhy opens the whole text of all that was found of the row.
func (p *Job) beginWhy() {
	const g = "Reading why"
	x := &page.Text{Head: "why", Full: true, Body: p.whyLines}
	x.Keys = keys.Table{
		{Keys: []string{"n", "p"}, Show: "n p", Short: "next, before", Long: "the next row that is not clear, the one before", Group: g, Rank: 2, Can: p.haveFindings, Do: keys.By("p", func(by int) {
			p.next(by)
			x.Top()
		})},
	}
	p.Open(x)
}

func (p *Job) whyLines(w int) []string {
	x, ok := p.table.Selected()
	if !ok {
		return nil
	}
	t, r := p.Desk.Theme, p.Desk.Doc.JobReport()
	body := []string{widget.Rule(t, w, p.title(r)...)}
	body = append(body, page.Told(t, "named", draw.Clean(strings.TrimPrefix(named(r.Job, x), "named ")), w)...)
	if c, ok := governing(r, x); ok {
		body = append(body, page.Told(t, "governs", draw.Clean(c.Title()+": "+weighed(&c, p.Desk.Units())), w)...)
		body = append(body, page.Told(t, "basis", draw.Clean(c.Basis), w)...)
	}
	found := p.found(r, x)
	if len(found) == 0 {
		body = append(body, page.Told(t, "found", "nothing", w)...)
	}
	for i := range found {
		body = append(append(body, ""), page.FindingLines(t, &found[i], "", fix(&found[i], x), w)...)
	}
	if x.at.Kind == laminate.RefJobPart {
		for _, s := range r.Parts[x.at.Index].PassedOver {
			body = append(body, page.Told(t, "not weighed", s.At.Key+": "+s.Reason, w)...)
		}
	}
	return body
}

// fix is where what was found of a row is put right.
func fix(f *rules.Finding, x row) string {
	_, ofRow := f.In(x.at)
	switch {
	case x.at.Kind == laminate.RefJobPart && !ofRow:
		return "Enter opens the bench on this wall, which offers the fix where there is one"
	case f.Severity == rules.Incomplete:
		return "e states what is missing"
	}
	return ""
}

// haveFindings tells why there is no row to go to.
func (p *Job) haveFindings() string {
	if why := p.can(); why != "" {
		return why
	}
	if p.following(1) < 0 {
		return "every other row is clear"
	}
	return ""
}

// following is the place of the next row that is not clear, -1 where there is none but
// the one selected.
func (p *Job) following(by int) int {
	n, at := len(p.rows), p.table.Index()
	for k := 1; k < n; k++ {
		i := ((at+by*k)%n + n) % n
		if x := p.rows[i]; x.judged && x.verdict > rules.Clear {
			return i
		}
	}
	return -1
}

func (p *Job) next(by int) {
	if i := p.following(by); i >= 0 {
		p.table.Select(p.rows[i].at)
	}
}
