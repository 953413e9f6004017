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
type home struct {
	at     int
	lesson course.Lesson // of the step pointed at, where it is shown
}

func (h *home) rows(p *Practice) keys.Table {
	const g = "On the practice page"
	return keys.Table{
		{Keys: []string{"n"}, Short: "next exercise", Long: "the exercise that is due: what was missed comes back sooner", Group: g, Rank: 1, Can: p.noExercise, Do: keys.Do(p.next)},
		{Keys: keys.Digits(exercise.Steps), Short: "step", Show: "1-" + strconv.Itoa(exercise.Steps), Long: "the numbered step: its text and its exercises", Group: g, Rank: 2, Do: digit(p.openStep)},
		{Keys: []string{keys.Enter}, Long: "the selected step", Group: g, Rank: 9, Do: keys.Do(func() { p.openStep(h.at + 1) })},
		points(&h.at, exercise.Steps, g, "", "choose another step"),
		{Keys: []string{"g"}, Short: "glossary", Long: "the words of the trade and their sources", Group: g, Rank: 3, Do: keys.Do(p.glossary)},
		{Keys: []string{"w"}, Short: "who", Long: "whose progress is kept", Group: g, Rank: 4, Do: keys.Do(func() { p.ask(func() {}) })},
		{Keys: []string{keys.Esc}, Long: "one step back, where something is open", Group: g, Rank: 9, Do: keys.Do(func() {
			p.Desk.Refuse("nothing is open here: Tab shows the pages, q quits")
		})},
	}
}

func (p *Practice) noExercise() string {
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

// onward starts the next exercise of the step of one that is marked; where there is
// none it goes back to the steps, where the next of all stands.
func (p *Practice) onward(after *exercise.Exercise) {
	if e := practice.NextOf(p.progress, p.list, after, p.o.Today()); e != nil {
		p.start(e)
		return
	}
	p.end()
	p.home.at = after.Step - 1
	p.now = p.home
	p.look()
	said := "step " + strconv.Itoa(after.Step) + " is done for today"
	if p.progress.Of(after.ID).Missed() {
		said = "of step " + strconv.Itoa(after.Step) + " only the exercise just missed is left"
	}
	p.Desk.Say(said)
	if p.noExercise() == "" {
		p.Desk.Notice.Tail = "n starts what is due next"
	}
}

// titleCells is the room of the longest title of a step.
const titleCells = 36

// besideCells is how wide the steps are where the lesson of the one pointed at
// stands beside them.
const besideCells = 82

// lines draws the steps, and on a wide screen what the one pointed at holds.
func (h *home) lines(p *Practice, w, h2 int) []string {
	if p.Frame.Form < draw.Wide {
		return h.steps(p, w, h2)
	}
	t, side := p.Desk.Theme, w-besideCells-1
	if h.lesson.Step != h.at+1 {
		h.lesson = course.At(h.at + 1) // once, and not at every frame
	}
	lesson := h.lesson
	right := []string{" " + t.Title.Render(draw.Cut(lesson.Title, side-1)), ""}
	for _, e := range p.of(h.at + 1) {
		right = append(right, " "+draw.Left(draw.Cut(draw.Clean(e.Title), max(1, side-10)), max(2, side-9))+t.Dim.Render(draw.Left(e.Kind.String(), 8)))
	}
	right = append(right, "")
	for paragraph := range strings.SplitSeq(lesson.Text, "\n\n") {
		for _, l := range draw.Wrap(strings.ReplaceAll(paragraph, "\n", " "), side-2) {
			right = append(right, " "+l)
		}
		right = append(right, "")
	}
	return draw.Beside(h2, "", draw.Block{W: besideCells, Lines: h.steps(p, besideCells, h2)}, draw.Block{W: 1, Lines: widget.Edge(t, h2)}, draw.Block{W: side, Lines: right})
}

func (h *home) steps(p *Practice, w, h2 int) []string {
	t := p.Desk.Theme
	who := "no name yet: the first exercise asks once, to keep progress"
	switch {
	case p.person != "":
		who = draw.Clean(p.person)
	case p.nobody:
		who = "no name: progress is not kept"
	}
	out := []string{" " + t.Label.Render("person") + " " + draw.Cut(who, max(1, w-12)), ""}
	totals := practice.ByStep(practice.Summary(p.progress, p.list))
	most := 0
	for i := range totals {
		most = max(most, totals[i].Exercises)
	}
	for i := range exercise.Steps {
		s := course.At(i + 1)
		n := totals[i]
		state := strconv.Itoa(n.Passed) + " of " + strconv.Itoa(n.Exercises) + " mastered"
		if n.Tried > n.Passed {
			state += ", " + strconv.Itoa(n.Tried-n.Passed) + " again"
		}
		gauge := draw.Run("●", n.Passed) + draw.Run("◐", n.Tried-n.Passed) + draw.Run("○", n.Exercises-n.Tried)
		name := draw.Left(draw.Clean(s.Title), max(10, min(titleCells, w-most-32)))
		line := strconv.Itoa(i+1) + " " + name + " " + draw.Left(gauge, most+1) + state
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
	for _, s := range draw.Wrap("Exercises are marked by the same rules as any schedule. Nothing here touches the document that is open.", max(10, min(w-4, 76))) {
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

// named goes on once it is known who practices.
func (p *Practice) named(then func()) {
	if p.person != "" || p.nobody || p.o.Keeper == nil {
		then()
		return
	}
	p.ask(then)
}

const whose = "whose progress is kept?"

// ask asks who practices: one of those who did before, or a new name.
func (p *Practice) ask(then func()) {
	var people []string
	if p.o.Keeper != nil {
		var err error
		if people, err = p.o.Keeper.People(); err != nil {
			p.Desk.Refuse(err.Error())
		}
	}
	if len(people) == 0 {
		p.askName(then)
		return
	}
	var items []page.Item
	for _, name := range people {
		items = append(items, page.Item{Name: name})
	}
	items = append(items, page.Item{Name: "another name"})
	p.open(&page.List{
		Head: whose, Full: true, Items: items, Verb: "that is me", Leave: func() { p.unnamed(then) },
		Take: func(i int) error {
			if i == len(people) {
				p.askName(then)
				return page.ErrStay
			}
			return p.take(people[i], then)
		},
	})
}

// askName takes a name that is typed.
func (p *Practice) askName(then func()) {
	name := &page.Field{Label: "name", Hint: "Esc goes on without: nothing is kept"}
	if p.person != "" {
		name.Hint = "Esc: " + draw.Clean(p.person) + " stays"
	}
	p.open(&page.Form{
		Head: whose, Full: true, Text: "Progress is kept on this machine only, under the name typed here.", Fields: []*page.Field{name},
		Leave: func() { p.unnamed(then) }, Take: func() error { return p.take(name.Text, then) },
	})
}

// take makes a person the one who practices, and goes on.
func (p *Practice) take(name string, then func()) error {
	name = strings.TrimSpace(draw.Clean(name))
	if err := p.be(name); err != nil {
		return err
	}
	p.Close()
	p.Desk.Say("progress is kept for " + name)
	then()
	return page.ErrStay // it is closed already, and something else may be open
}

// unnamed goes on where no name was said: as who practices already, or without one.
func (p *Practice) unnamed(then func()) {
	if p.person == "" {
		p.without(then)
		return
	}
	p.Desk.Say("progress is kept for " + p.person)
	then()
}

// without goes on without a name.
func (p *Practice) without(then func()) {
	p.nobody, p.person, p.progress = true, "", practice.Progress{}
	p.Desk.Say("nothing is kept; w on the first screen of this page asks for a name")
	then()
}

func (p *Practice) be(name string) error {
	if name == "" {
		return errors.New("a name is needed to keep progress: Esc goes on without")
	}
	if p.o.Keeper == nil {
		return errors.New("no place to keep progress")
	}
	progress, err := p.o.Keeper.Load(name)
	if err != nil {
		return err
	}
	p.person, p.nobody, p.progress = name, false, progress
	return nil
}
