package practice

import (
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules/progress"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// work is a screen on which an exercise is answered.
type work interface {
	screen
	base() *attempt
	unready() string // why it cannot be handed in
	settle()         // puts what stands on the screen into the answer
}

// attempt is one person at one exercise.
type attempt struct {
	session practice.Session
	library *laminate.Library
	draft   *progress.Draft // nil where answers cannot be kept
	back    screen
	resumed bool // with an answer that an earlier sitting left
}

func (a *attempt) base() *attempt { return a }

func (*attempt) unready() string { return "" }

func (*attempt) settle() {}

func (a *attempt) exercise() *exercise.Exercise { return a.session.Exercise() }

// start begins an exercise, or offers the answer that an earlier sitting left.
func (p *Practice) start(e *exercise.Exercise) {
	p.end()
	list := p.of(e.Step)
	back := &step{n: e.Step, list: list}
	for i := range list {
		if list[i] == e {
			back.at = i
		}
	}
	a := &attempt{session: practice.Start(e), library: p.desk.Doc.Library(), back: back}
	var err error
	if a.draft, err = progress.OpenDraft(p.person, e.ID); err != nil {
		p.desk.Refuse("an answer is not kept: " + err.Error())
	}
	if a.draft != nil {
		if left, when, ok := a.draft.Left(); ok {
			p.now = &resuming{attempt: a, left: left, when: when}
			return
		}
	}
	p.answer(a)
}

// answer opens the screen on which an exercise is answered.
func (p *Practice) answer(a *attempt) {
	switch a.exercise().Kind {
	case exercise.Build:
		p.work = newAtBench(p, a, nil)
	case exercise.Fix:
		p.work = &finding{attempt: a}
	case exercise.Choose:
		p.work = newChoosing(a)
	case exercise.Order:
		p.work = newOrdering(a)
	case exercise.Predict, exercise.Ignition:
		p.work = newAsking(p, a)
	case exercise.NoKind:
		p.desk.Refuse("the exercise asks for nothing")
		return
	}
	if p.work == nil {
		p.now = a.back
		return
	}
	p.now = p.work
	p.SetSize(p.w, p.h)
	if a.draft != nil && !a.resumed {
		p.work.settle()
		a.draft.Begin(a.session.Answer())
	}
}

// Keep keeps the answer that is not marked, so that it outlives the program.
func (p *Practice) Keep() error {
	if p.work == nil {
		return nil
	}
	p.work.settle()
	a := p.work.base()
	if a.draft == nil || a.session.Stage() == practice.Marked {
		return nil
	}
	return a.draft.Keep(a.session.Answer())
}

// end closes the exercise that is open; what is kept of it waits for its person.
func (p *Practice) end() {
	if p.work == nil {
		return
	}
	err := p.Keep()
	if d := p.work.base().draft; d != nil {
		if wrong := d.Close(); err == nil {
			err = wrong
		}
	}
	if err != nil {
		p.desk.Refuse(err.Error())
	}
	p.work = nil
}

// leave goes back to the step.
func (a *attempt) leave(p *Practice) {
	p.desk.Say("left the exercise")
	p.desk.Doc.SetUnits(p.here().Units())
	p.end()
	if a.draft != nil && a.draft.Kept() {
		p.desk.Say("left the exercise: the answer is kept, and offered when the exercise is opened again")
	}
	p.now = a.back
	p.look()
}

// mark hands the answer in.
func (a *attempt) mark(p *Practice) {
	p.work.settle()
	a.session = a.session.Submit(a.library, p.here().Units())
	entry, _ := a.session.Entry(p.o.Today())
	p.progress.Entries = append(p.progress.Entries[:len(p.progress.Entries):len(p.progress.Entries)], entry)
	m, _ := a.session.Mark()
	p.now = newMarked(a, m)
	p.desk.Say("marked: " + quantity.Percent(m.Score))
	if a.draft != nil {
		if err := a.draft.Drop(); err != nil {
			p.desk.Refuse("marked; but " + err.Error())
		}
	}
	if p.person != "" && p.o.Keeper != nil {
		if err := p.o.Keeper.Add(p.person, entry); err != nil {
			p.desk.Refuse("marked, but progress is not kept: " + err.Error())
		}
	}
}

func (a *attempt) hint(p *Practice) {
	_, cost := a.session.HintsLeft()
	a.session = a.session.Hint()
	p.SetSize(p.w, p.h) // the text that stands first is longer now
	p.here().Say("a hint, for " + quantity.Percent(cost) + " of the full mark: it stands under the task")
}

// workActs are the keys that every kind of exercise has.
func workActs(scope keys.Scope, group string) page.Acts[*Practice] {
	return page.Acts[*Practice]{
		act(scope, "hand in", group, []string{"c"}, "", "check it", "hand the answer in: it is checked and marked", 6, func(p *Practice) string {
			return p.work.unready()
		}, func(p *Practice, _ keys.Event) { p.work.base().mark(p) }),
		act(scope, "hint", group, []string{"h"}, "", "hint", "show the next hint; it costs a share of the mark", 7, func(p *Practice) string {
			if n, _ := p.work.base().session.HintsLeft(); n == 0 {
				return "there is no hint left"
			}
			return ""
		}, func(p *Practice, _ keys.Event) { p.work.base().hint(p) }),
		act(scope, "task", group, []string{"w"}, "", "task", "the whole task: what is asked, the facts, the hints, the story", 8, nil, func(p *Practice, _ keys.Event) {
			a := p.work.base()
			p.read(a.title(p.desk.Theme), func(w int) []string { return a.prose(p, w) })
		}),
		act(scope, "leave", group, []string{keys.Esc}, "", "leave", "leave the exercise; the answer is kept for the next time", 9, nil, func(p *Practice, _ keys.Event) {
			p.work.base().leave(p)
		}),
	}
}

// resuming offers the answer that an earlier sitting left.
type resuming struct {
	*attempt
	left practice.Answer
	when time.Time
}

func (*resuming) scope() keys.Scope { return scopeResume }

func resumeActs() page.Acts[*Practice] {
	const g = "An answer that was not marked"
	return page.Acts[*Practice]{
		act(scopeResume, "go on", g, []string{"1", keys.Enter}, "1", "go on with it", "go on with the answer that is kept", 1, nil, in(func(s *resuming, p *Practice, _ keys.Event) {
			s.session, s.resumed = s.session.With(s.left), true
			p.answer(s.attempt)
			p.here().Say("went on with the answer that was not marked")
			err := p.Keep()
			if err == nil {
				err = s.draft.Forget()
			}
			if err != nil {
				p.here().Refuse(err.Error())
			}
		})),
		act(scopeResume, "anew", g, []string{"2"}, "", "begin anew", "begin anew; what is kept stays until an answer is marked", 2, nil, in(func(s *resuming, p *Practice, _ keys.Event) { p.answer(s.attempt) })),
		act(scopeResume, "back", g, []string{keys.Esc}, "", "back", "back to the step; it stays kept", 3, nil, in(func(s *resuming, p *Practice, _ keys.Event) { p.now = s.back })),
	}
}

func (s *resuming) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	out := []string{widget.Rule(t, w, s.title(t)...), ""}
	for _, l := range draw.Wrap("An answer of "+s.when.Local().Format("2 Jan 2006, 15:04")+" is kept that was not marked.", max(10, min(w-4, 76))) {
		out = append(out, "   "+l)
	}
	out = append(out, "", "   "+t.Key.Render("1")+"  go on with it", "   "+t.Key.Render("2")+"  begin anew; it stays kept until an answer is marked")
	return out[:min(len(out), h)]
}

// title names the exercise.
func (a *attempt) title(t *draw.Theme) []widget.Piece {
	e := a.exercise()
	n, _ := a.session.HintsLeft()
	hints := ""
	if len(e.Hints) > 0 {
		hints = " · " + page.Count(n, "hint") + " left"
	}
	return []widget.Piece{{Text: draw.Clean(e.Title), Look: t.Title}, {Text: " · step " + strconv.Itoa(e.Step) + ", " + kindPhrase(e.Kind) + hints, Look: t.Dim}}
}

// head draws the task first, as whole as the need of what stands under it lets
// it, and tells how many lines are left.
func (a *attempt) head(p *Practice, w, h, need int) (out []string, left int) {
	t := p.desk.Theme
	out = append([]string{widget.Rule(t, w, a.title(t)...)}, a.prose(p, w)...)
	room := max(5, h-need)
	if len(out) > room {
		out = out[:room]
		out[room-1] = draw.Ends(draw.Clip(out[room-1], w-9), t.Dim.Render("… w all "), w)
	}
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
		return "say before it is shown"
	case exercise.Order:
		return "put the plies in order"
	case exercise.Ignition:
		return "read an ignition test"
	case exercise.NoKind:
	}
	return "no task"
}

// prose is the task, first and whole, then what is demanded, the hints that
// were shown, the facts and the story.
func (a *attempt) prose(p *Practice, w int) []string {
	t, e, u := p.desk.Theme, a.exercise(), p.here().Units()
	var out []string
	part := func(label, s string) {
		if s = strings.TrimSpace(s); s == "" {
			return
		}
		for i, l := range draw.Wrap(flow(s), max(10, min(w-11, 110))) {
			if i > 0 {
				label = ""
			}
			out = append(out, " "+t.Label.Render(draw.Left(label, 8))+" "+l)
		}
	}
	part("task", e.Task)
	part("demand", demandText(&e.Demands, u))
	for i, h := range a.session.Hints() {
		part("hint "+strconv.Itoa(i+1), h)
	}
	part("facts", factsText(e, u))
	part("story", e.Scenario)
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
