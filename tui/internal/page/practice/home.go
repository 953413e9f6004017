package practice

import (
	"errors"
	"strconv"
	"strings"

	"frp/veilwright/laminate/exercise"
	"frp/veilwright/rules/practice"
	"frp/veilwright/rules/practice/course"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// home lists the steps of the course.
type home struct{ at int }

func (*home) scope() keys.Scope { return scopeHome }

func homeActs() page.Acts[*Practice] {
	const g = "On the practice page"
	return page.Acts[*Practice]{
		act(scopeHome, "step", g, []string{"1", "2", "3", "4", "5"}, "1-5", "step", "the numbered step: its text and its exercises", 2, nil, func(p *Practice, e keys.Event) {
			d, _ := e.Digit()
			p.openStep(d)
		}),
		act(scopeHome, "step pointed at", g, []string{keys.Enter}, "", "", "the step pointed at", 20, nil, in(func(h *home, p *Practice, _ keys.Event) { p.openStep(h.at + 1) })),
		act(scopeHome, "point", g, arrows(), "↑↓", "", "point at another step", 21, nil, in(func(h *home, _ *Practice, e keys.Event) {
			h.at = moved(h.at, e, exercise.Steps)
		})),
		act(scopeHome, "nothing open", g, []string{keys.Esc}, "", "", "one step back, where something is open", 22, nil, func(p *Practice, _ keys.Event) {
			p.desk.Refuse("nothing is open here: Tab shows the pages, q quits")
		}),
		act(scopeHome, "next", g, []string{"n"}, "", "next exercise", "the exercise that is due: what was missed comes back sooner", 1, (*Practice).noExercise, func(p *Practice, _ keys.Event) { p.next() }),
		act(scopeHome, "glossary", g, []string{"g"}, "", "glossary", "the words of the trade and where they come from", 3, nil, func(p *Practice, _ keys.Event) { p.glossary() }),
		act(scopeHome, "who", g, []string{"w"}, "", "who", "whose progress is kept", 4, nil, func(p *Practice, _ keys.Event) { p.ask(func() { p.now = p.home }) }),
	}
}

func (p *Practice) noExercise() string {
	p.load()
	if len(p.list) == 0 {
		return "there is no exercise that could be read"
	}
	return ""
}

// next starts the exercise that is due.
func (p *Practice) next() {
	p.named(func() {
		if e := practice.Next(p.progress, p.list, p.o.Today()); e != nil {
			p.home.at = max(0, min(exercise.Steps-1, e.Step-1))
			p.start(e)
		}
	})
}

func (h *home) lines(p *Practice, w, h2 int) []string {
	t := p.desk.Theme
	who := "nobody named yet: the first exercise asks once, to keep progress"
	switch {
	case p.person != "":
		who = draw.Clean(p.person)
	case p.nobody:
		who = "nobody: progress is not kept"
	}
	out := []string{" " + t.Label.Render("person") + " " + draw.Cut(who, max(1, w-12)), ""}
	totals := practice.ByStep(practice.Summary(p.progress, p.list))
	for i := range exercise.Steps {
		s := course.At(i + 1)
		n := totals[i]
		state := strconv.Itoa(n.Passed) + " of " + strconv.Itoa(n.Exercises) + " mastered"
		if n.Tried > n.Passed {
			state += ", " + strconv.Itoa(n.Tried-n.Passed) + " again"
		}
		gauge := draw.Run("●", n.Passed) + draw.Run("◐", n.Tried-n.Passed) + draw.Run("○", n.Exercises-n.Tried)
		name := draw.Left(draw.Clean(s.Title), max(10, min(36, w-44)))
		line := strconv.Itoa(i+1) + "  " + name + "  " + draw.Left(gauge, 10) + " " + state
		if i == h.at {
			out = append(out, t.Selected.Render(draw.Left(" "+draw.Pointer+" "+line, w)))
		} else {
			out = append(out, draw.Left("   "+line, w))
		}
	}
	out = append(out, "")
	if e := practice.Next(p.progress, p.list, p.o.Today()); e != nil {
		why := "new"
		if st := p.progress.Of(e.ID); st.Missed() {
			why = "missed last time"
		} else if st.Tries > 0 {
			why = "due again"
		}
		out = append(out, " "+t.Key.Render("n")+"  "+t.Strong.Render(draw.Cut(draw.Clean(e.Title), max(1, w-30)))+t.Dim.Render("  step "+strconv.Itoa(e.Step)+", "+why))
	}
	out = append(out, "")
	for _, s := range draw.Wrap("Exercises are marked by the very rules, demands and arithmetic that judge every other schedule. Nothing here touches the document that is open.", max(10, min(w-4, 76))) {
		out = append(out, "   "+t.Dim.Render(s))
	}
	if len(p.problems) > 0 {
		out = append(out, "", widget.Rule(t, w, widget.Piece{Text: "could not be read", Look: t.Break}))
		for _, s := range p.problems {
			out = append(out, " "+draw.Cut(draw.Clean(s), max(1, w-2)))
		}
	}
	return out[:min(len(out), h2)]
}

// who asks whose progress it is.
type who struct {
	people []string
	line   widget.Input
	open   bool // a new name is typed
	then   func()
}

func (*who) scope() keys.Scope { return scopeWho }
func (s *who) typing() bool    { return s.open }

func (s *who) typed(p *Practice, e keys.Event) {
	if !s.line.Handle(e) {
		p.desk.Refuse(keys.Name(e.Key) + " does nothing here: Enter takes the name, Esc goes on without one")
	}
}

// named goes on once it is known who practices.
func (p *Practice) named(then func()) {
	if p.person != "" || p.nobody || p.o.Keeper == nil {
		then()
		return
	}
	p.ask(then)
}

func (p *Practice) ask(then func()) {
	s := &who{then: then}
	if p.o.Keeper != nil {
		people, err := p.o.Keeper.People()
		if err != nil {
			p.desk.Refuse(err.Error())
		}
		s.people = people[:min(len(people), 9)]
	}
	s.open = len(s.people) == 0
	p.now = s
}

// take makes a person the one who practices.
func (s *who) take(p *Practice, name string) {
	name = strings.TrimSpace(draw.Clean(name))
	if err := p.be(name); err != nil {
		p.desk.Refuse(err.Error())
		return
	}
	p.desk.Say("progress is kept for " + name)
	s.then()
}

func (p *Practice) be(name string) error {
	if name == "" {
		return errors.New("a name is needed to keep progress: Esc goes on without")
	}
	if p.o.Keeper == nil {
		return errors.New("there is nowhere to keep progress")
	}
	progress, err := p.o.Keeper.Load(name)
	if err != nil {
		return err
	}
	p.person, p.nobody, p.progress = name, false, progress
	return nil
}

func whoActs() page.Acts[*Practice] {
	const g = "Whose progress is kept"
	return page.Acts[*Practice]{
		act(scopeWho, "person", g, digits(), "1-9", "that is me", "the numbered person", 1, nil, in(func(s *who, p *Practice, e keys.Event) {
			d, _ := e.Digit()
			if d > len(s.people) {
				p.desk.Refuse("nobody has the number " + strconv.Itoa(d) + ": 0 takes another name")
				return
			}
			s.take(p, s.people[d-1])
		})),
		act(scopeWho, "other", g, []string{"0"}, "", "another name", "type another name", 2, nil, in(func(s *who, _ *Practice, _ keys.Event) { s.open = true })),
		act(scopeWho, "take name", g, []string{keys.Enter}, "", "take it", "take the name that is typed", 3, nil, in(func(s *who, p *Practice, _ keys.Event) { s.take(p, s.line.Text()) })),
		act(scopeWho, "without", g, []string{keys.Esc}, "", "without", "go on without a name: nothing is kept", 4, nil, in(func(s *who, p *Practice, _ keys.Event) {
			p.nobody, p.person, p.progress = true, "", practice.Progress{}
			p.desk.Say("nothing is kept: w names somebody")
			s.then()
		})),
	}
}

func (s *who) lines(p *Practice, w, _ int) []string {
	t := p.desk.Theme
	out := []string{"", " " + t.Title.Render(draw.Cut("Whose progress is kept?", max(1, w-2))), ""}
	for i, name := range s.people {
		out = append(out, "   "+t.Key.Render(strconv.Itoa(i+1))+"  "+draw.Cut(draw.Clean(name), max(1, w-8)))
	}
	if s.open {
		return append(out, "   "+t.Label.Render("name")+" "+s.line.View(t, max(4, w-12)))
	}
	return append(out, "   "+t.Key.Render("0")+"  another name")
}
