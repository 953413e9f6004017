package practice

import (
	"cmp"
	"slices"
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
	a := &attempt{session: practice.Start(e), library: p.Desk.Doc.Library(), back: back}
	var err error
	if a.draft, err = progress.OpenDraft(p.person, e.ID); err != nil {
		defer func() { p.here().Refuse("an answer is not kept: " + err.Error()) }()
	}
	if a.draft != nil {
		if left, when, ok := a.draft.Left(); ok {
			p.now = back
			p.resume(a, left, when)
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
		if !a.exercise().NamesPlies() {
			p.work = newAtBench(p, a, nil)
			break
		}
		p.work = &finding{attempt: a}
	case exercise.Choose:
		p.work = newChoosing(a)
	case exercise.Order:
		p.work = newOrdering(a)
	case exercise.Predict, exercise.Ignition:
		p.work = &asking{attempt: a}
	case exercise.NoKind:
		p.Desk.Refuse("the exercise has no task")
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
	if err := p.letGo(); err != nil {
		p.Desk.Refuse(err.Error())
	}
}

func (p *Practice) letGo() error {
	if p.work == nil {
		return nil
	}
	err := p.Keep()
	if d := p.work.base().draft; d != nil {
		err = cmp.Or(err, d.Close())
	}
	p.work = nil
	return err
}

// leave goes back to the step.
func (a *attempt) leave(p *Practice) {
	p.Desk.Say("left the exercise")
	p.Desk.Doc.SetUnits(p.here().Units())
	p.end()
	if a.draft != nil && a.draft.Kept() {
		p.Desk.Say("left the exercise: the answer is kept, and offered when the exercise is opened again")
	}
	p.now = a.back
	p.look()
}

// check hands the answer in; where the schedule is as it was given, or a question is
// not answered, it asks first.
func (a *attempt) check(p *Practice) {
	p.work.settle()
	lacks := "The schedule is as it was given"
	if n := a.session.Unanswered(); n > 0 {
		lacks = page.Count(n, "question") + " not answered"
	} else if !a.session.Unchanged() {
		a.mark(p)
		return
	}
	p.open(&page.List{
		Head: "hand it in? " + lacks, Verb: "answer",
		Items: []page.Item{{Name: "no, go on with the exercise"}, {Name: "yes, hand it in as it is"}},
		Take: func(i int) error {
			if i == 1 {
				a.mark(p)
			}
			return nil
		},
	})
}

// mark hands the answer in.
func (a *attempt) mark(p *Practice) {
	p.work.settle()
	a.session = a.session.Submit(a.library, p.here().Units())
	entry, _ := a.session.Entry(p.o.Today())
	p.progress.Entries = append(p.progress.Entries[:len(p.progress.Entries):len(p.progress.Entries)], entry)
	m, _ := a.session.Mark()
	p.now = newMarked(a, m)
	p.Desk.Say("marked: " + quantity.Percent(m.Score))
	if e := practice.NextOf(p.progress, p.list, a.exercise(), p.o.Today()); e != nil {
		p.Desk.Notice.Tail = "n next: " + draw.Clean(e.Title)
	}
	if a.draft != nil {
		if err := a.draft.Drop(); err != nil {
			p.Desk.Refuse("marked; but " + err.Error())
		}
	}
	if p.person != "" && p.o.Keeper != nil {
		if err := p.o.Keeper.Add(p.person, entry); err != nil {
			p.Desk.Refuse("marked, but progress is not kept: " + err.Error())
		}
	}
}

func (a *attempt) hint(p *Practice) {
	_, cost := a.session.HintsLeft()
	a.session = a.session.Hint()
	p.SetSize(p.w, p.h) // the text that stands first is longer now
	p.here().Say("a hint, for " + quantity.Percent(cost) + " of the full mark: it stands under the task")
}

// workRows are the keys that every kind of exercise has.
func (p *Practice) workRows(group string) keys.Table {
	return keys.Table{
		{Keys: []string{"c"}, Short: "check it", Long: "hand the answer in: it is checked and marked", Group: group, Rank: 4, Can: func() string {
			return p.work.unready()
		}, Do: keys.Do(func() { p.work.base().check(p) })},
		{Keys: []string{"h"}, Short: "hint", Long: "show the next hint; it costs a share of the mark", Group: group, Rank: 5, Can: func() string {
			if n, _ := p.work.base().session.HintsLeft(); n == 0 {
				return "there is no hint left"
			}
			return ""
		}, Do: keys.Do(func() { p.work.base().hint(p) })},
		{Keys: []string{"w"}, Short: "task", Long: "the whole task: question, job data, hints, scenario", Group: group, Rank: 6, Do: keys.Do(func() {
			a := p.work.base()
			p.open(&page.Text{Head: "the task", Full: true, Body: func(w int) []string { return a.prose(p, w) }})
		})},
		{Keys: []string{keys.Esc}, Short: "leave", Long: "leave the exercise; the answer is kept for the next time", Group: group, Rank: 7, Do: keys.Do(func() {
			p.work.base().leave(p)
		})},
	}
}

// resume offers the answer that an earlier sitting left.
func (p *Practice) resume(a *attempt, left practice.Answer, when time.Time) {
	p.open(&page.List{
		Head: a.exercise().Title, Full: true, Verb: "do it",
		Text:  "An answer of " + when.Local().Format("2 Jan 2006, 15:04") + " is kept that was not marked.",
		Items: []page.Item{{Name: "go on with it"}, {Name: "begin anew; it stays kept until an answer is marked"}},
		Take: func(i int) error {
			p.Close()
			if i == 1 {
				p.answer(a)
				return page.ErrStay
			}
			a.session, a.resumed = a.session.With(left), true
			p.answer(a)
			p.here().Say("went on with the answer that was not marked")
			err := p.Keep()
			if err == nil {
				err = a.draft.Forget()
			}
			if err != nil {
				p.here().Refuse(err.Error())
			}
			return page.ErrStay
		},
	})
}

// title names the exercise, in w cells without its kind, which the task tells too.
func (a *attempt) title(t *draw.Theme, w int) []widget.Piece {
	e := a.exercise()
	n, _ := a.session.HintsLeft()
	name, step, kind, hints := draw.Clean(e.Title), " · step "+strconv.Itoa(e.Step), ", "+kindPhrase(e), ""
	if len(e.Hints) > 0 {
		hints = " · " + page.Count(n, "hint") + " left"
	}
	if draw.Width(name+step+kind+hints) > w {
		kind = ""
	}
	return []widget.Piece{{Text: name, Look: t.Title}, {Text: step + kind + hints, Look: t.Dim}}
}

// head draws the task, which stands first, in at most h lines.
func (a *attempt) head(p *Practice, w, h int) []string {
	t := p.Desk.Theme
	out := append([]string{widget.Rule(t, w, a.title(t, w-6)...)}, a.prose(p, w)...)
	if h = max(4, h); len(out) > h {
		out = out[:h]
		out[h-1] = draw.Ends(draw.Clip(out[h-1], w-9), t.Dim.Render("… w all "), w)
	}
	return out
}

func kindPhrase(e *exercise.Exercise) string {
	switch e.Kind {
	case exercise.Build:
		return "build the barrier"
	case exercise.Choose:
		return "choose veil and resin"
	case exercise.Fix:
		if !e.NamesPlies() {
			return "put it right"
		}
		return "find and fix"
	case exercise.Predict:
		if !slices.ContainsFunc(e.Questions, func(q exercise.Question) bool { return q.Ask.Answer() != exercise.Word }) {
			return "say what check finds"
		}
		return "predict the figures"
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
	t, e, u := p.Desk.Theme, a.exercise(), p.here().Units()
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
	part("required", demandText(&e.Demands, u))
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
		return quantity.US.Span(r.Lowest, r.Highest, quantity.Content) + " glass"
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
