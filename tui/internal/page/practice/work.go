package practice

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/practice"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// work is a screen on which an exercise is answered.
type work interface {
	screen
	base() *attempt
	unready() string // why it cannot be handed in
	hand()           // puts what stands on the screen into the answer
}

// attempt is one person at one exercise: the answer with its history.
type attempt struct {
	past   []practice.Session // the last is how it stands
	undone []practice.Session
	back   screen
	resume screen // the work, to go on with after marking

	touched, warned bool
	top, last       int // of the task's text
}

func (a *attempt) base() *attempt { return a }

func (a *attempt) session() practice.Session { return a.past[len(a.past)-1] }

func (a *attempt) exercise() *exercise.Exercise { return a.session().Exercise() }

// put makes the next state of the answer.
func (a *attempt) put(s practice.Session) {
	a.past = append(a.past, s)
	a.undone = nil
	a.touched, a.warned = true, false
}

// replace makes the state that a hint or a mark gives; taking back does not
// reach behind it.
func (a *attempt) replace(s practice.Session) { a.past[len(a.past)-1] = s }

// takeBack goes to the state before; hints that were shown stay paid.
func (a *attempt) takeBack() bool {
	if len(a.past) < 2 {
		return false
	}
	now := a.session()
	a.past = a.past[:len(a.past)-1]
	a.undone = append(a.undone, now)
	a.paid(now)
	return true
}

func (a *attempt) doAgain() bool {
	n := len(a.undone)
	if n == 0 {
		return false
	}
	now := a.session()
	a.past = append(a.past, a.undone[n-1])
	a.undone = a.undone[:n-1]
	a.paid(now)
	return true
}

// paid shows as many hints as were shown before.
func (a *attempt) paid(before practice.Session) {
	for len(a.session().Hints()) < len(before.Hints()) {
		a.replace(a.session().Hint())
	}
}

func (a *attempt) hint(p *Practice) {
	n, cost := a.session().HintsLeft()
	if n == 0 {
		p.desk.Refuse("there is no hint left")
		return
	}
	a.replace(a.session().Hint())
	a.touched = true
	a.top = a.last + 1000 // the hint stands last
	p.desk.Say("a hint, for " + percent(cost) + " of the full mark: it stands under the task")
}

func (a *attempt) scroll(up bool) {
	if up {
		a.top = max(0, a.top-3)
	} else {
		a.top = min(a.last, a.top+3)
	}
}

// leave goes back to the step; what was done is dropped only when that was said.
func (a *attempt) leave(p *Practice) {
	if a.touched && !a.warned {
		a.warned = true
		p.desk.Say("Esc again leaves the exercise and drops what was done; m marks it")
		return
	}
	p.now = a.back
	p.desk.Say("left the exercise")
}

// mark hands the answer in.
func (a *attempt) mark(p *Practice) {
	s := a.session().Submit(p.library(), p.desk.Units())
	a.replace(s)
	a.touched, a.warned = false, false
	a.resume = p.now
	entry, _ := s.Entry(p.o.Today())
	p.progress.Entries = append(p.progress.Entries[:len(p.progress.Entries):len(p.progress.Entries)], entry)
	m, _ := s.Mark()
	p.desk.Say("marked: " + percent(m.Score))
	if p.person != "" && p.o.Keeper != nil {
		if err := p.o.Keeper.Add(p.person, entry); err != nil {
			p.desk.Refuse("marked, but progress is not kept: " + err.Error())
		}
	}
	p.now = &marked{attempt: a, result: m, at: firstMiss(&m)}
}

// start begins an exercise.
func (p *Practice) start(e *exercise.Exercise) {
	list := p.of(e.Step)
	back := &step{n: e.Step, list: list}
	for i := range list {
		if list[i] == e {
			back.at = i
		}
	}
	a := &attempt{past: []practice.Session{practice.Start(e)}, back: back}
	switch e.Kind {
	case exercise.Build:
		p.now = newBuilding(p, a, nil)
	case exercise.Fix:
		p.now = &finding{attempt: a}
	case exercise.Choose:
		p.now = newChoosing(p, a)
	case exercise.Order:
		p.now = &ordering{attempt: a}
	case exercise.Predict, exercise.Ignition:
		p.now = newAsking(p, a)
	case exercise.NoKind:
		p.desk.Refuse("the exercise asks for nothing")
	}
}

func percent(share float64) string { return quantity.Number(100*share, 0) + " %" }

// head draws the title and the task, and tells how many lines are left.
func (a *attempt) head(p *Practice, w, h int) (out []string, left int) {
	t, e := p.desk.Theme, a.exercise()
	n, _ := a.session().HintsLeft()
	hints := ""
	if len(e.Hints) > 0 {
		hints = " · " + page.Count(n, "hint") + " left"
	}
	out = []string{widget.Rule(t, w, widget.Piece{Text: e.Title, Look: t.Title}, widget.Piece{Text: " · step " + strconv.Itoa(e.Step) + ", " + kindPhrase(e.Kind) + hints, Look: t.Dim})}
	body := a.prose(p, max(10, min(w-11, 96)))
	room := max(2, min(len(body), max(4, h/3)))
	a.last = max(0, len(body)-room)
	a.top = max(0, min(a.top, a.last))
	lines := draw.FitLines(body[a.top:min(len(body), a.top+room)], w, room)
	switch {
	case a.top < a.last && w > 30:
		lines[room-1] = draw.Ends(draw.Clip(lines[room-1], w-11), t.Dim.Render("… PgDn "), w)
	case a.top > 0 && w > 30:
		lines[0] = draw.Ends(draw.Clip(lines[0], w-11), t.Dim.Render("… PgUp "), w)
	}
	out = append(out, lines...)
	return out, h - len(out)
}

func kindPhrase(k exercise.Kind) string {
	switch k {
	case exercise.Build:
		return "build the barrier"
	case exercise.Choose:
		return "choose veil and resin"
	case exercise.Fix:
		return "find and fix"
	case exercise.Predict:
		return "tell before it is shown"
	case exercise.Order:
		return "put the plies in order"
	case exercise.Ignition:
		return "read an ignition test"
	case exercise.NoKind:
	}
	return "no task"
}

// prose is the scenario, the service, the task, the demands and the hints.
func (a *attempt) prose(p *Practice, w int) []string {
	t, e := p.desk.Theme, a.exercise()
	var out []string
	part := func(label, s string) {
		for i, l := range draw.Wrap(flow(s), w) {
			if i > 0 {
				label = ""
			}
			out = append(out, " "+t.Label.Render(draw.Left(label, 8))+" "+l)
		}
	}
	part("", e.Scenario)
	part("facts", factsText(e, p.desk.Units()))
	part("task", e.Task)
	if d := demandText(&e.Demands, p.desk.Units()); d != "" {
		part("demand", d)
	}
	for i, h := range a.session().Hints() {
		part("hint "+strconv.Itoa(i+1), h)
	}
	return out
}

// flow takes the line breaks of a text that is wrapped anew; paragraphs stay.
func flow(s string) string {
	var out []string
	for para := range strings.SplitSeq(strings.TrimSpace(draw.CleanText(s)), "\n\n") {
		out = append(out, strings.Join(strings.Fields(para), " "))
	}
	return strings.Join(out, "\n")
}

// factsText is what is stated of part and service, in one paragraph.
func factsText(e *exercise.Exercise, u quantity.System) string {
	var parts []string
	for _, f := range e.Facts(u) {
		parts = append(parts, f.Name+" "+draw.Clean(f.Value))
	}
	return strings.Join(parts, ", ")
}

// demandText says what figures are demanded beside the task.
func demandText(d *spec.Specification, u quantity.System) string {
	var parts []string
	add := func(what, s string) {
		if s != "" {
			parts = append(parts, what+" "+s)
		}
	}
	thick := func(x spec.Thickness) string {
		var s []string
		if x.Lowest.Given() {
			s = append(s, "at least "+u.Thickness(x.Lowest.SI()))
		}
		if x.Highest.Given() {
			s = append(s, "at most "+u.Thickness(x.Highest.SI()))
		}
		return strings.Join(s, ", ")
	}
	glass := func(r spec.Range) string {
		if !r.Given {
			return ""
		}
		return quantity.Share(r.Lowest) + " to " + quantity.Share(r.Highest) + " glass"
	}
	b := &d.Barrier
	add("barrier", thick(b.Thickness))
	add("barrier", glass(b.GlassContent))
	if b.VeilPlies.Given {
		add("veil", page.Count(b.VeilPlies.Value, "ply"))
	}
	if b.MatPlies.Given {
		add("mats", strconv.Itoa(b.MatPlies.Value)+" or more")
	}
	add("structure", thick(d.Structure.Thickness))
	add("structure", glass(d.Structure.GlassContent))
	add("wall", thick(d.Total))
	return strings.Join(parts, "; ")
}
