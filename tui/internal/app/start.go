package app

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/settings"
	"frp/veilwright/schedules/store"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/jobdata"
)

// choice is a line of the start page: what it is and what it opens.
type choice struct {
	section string // the heading that it begins
	text    string
	word    string // at the right end
	look    draw.Style
	do      func()
}

// start is the page that stands first where no document is named: what is new,
// what was open last, what was not saved.
type start struct {
	r       *Root
	text    *page.Text
	choices []choice
	at, top int
	on      []int // by line drawn before it was cut: the choice on it, -1 for none
}

// begin opens the start page.
func (r *Root) begin() {
	if r.asked(startTitle) {
		return
	}
	s := &start{r: r}
	s.gather()
	const g = "Start"
	s.text = &page.Text{Head: startTitle, Full: true, Still: true, Body: s.lines, Away: "the bench", Keys: keys.Table{
		{Keys: keys.Digits(9), Short: "choose", Long: "the numbered line", Group: g, Rank: 1, Do: func(e keys.Event) {
			n, _ := e.Digit()
			if n > len(s.choices) {
				r.desk.Refuse("no line has the number " + strconv.Itoa(n))
				return
			}
			s.choices[n-1].do()
		}},
		{Keys: []string{keys.Enter}, Short: "open", Long: "the selected line", Group: g, Rank: 2, Do: keys.Do(func() { s.choices[s.at].do() })},
		{Keys: []string{keys.Up, keys.Down}, Show: "↑↓", Short: "select", Long: "at the line before, at the next one", Group: g, Rank: 3, Do: keys.By(keys.Up, func(by int) {
			s.at = (s.at + by + len(s.choices)) % len(s.choices)
		})},
		{Keys: []string{"0", "o"}, Show: "0", Short: "open a file", Long: "a file, from a list with verdicts", Group: g, Rank: 4, Do: keys.Do(r.open)},
		{Keys: []string{"+", "p"}, Show: "+", Short: "practice", Long: "lessons and exercises", Group: g, Rank: 5, Do: keys.Do(func() {
			r.remove(s.text)
			r.desk.Page("practice")
		})},
		{Keys: []string{".", ","}, Show: ".", Short: "the example", Long: "the example, to look around in", Group: g, Rank: 6, Do: keys.Do(func() { r.fresh("example", schedules.Example(), nil) })},
		{Keys: []string{"i"}, Long: "inch or mm", Group: g, Rank: 41, Do: keys.Do(r.units)},
		{Keys: []string{"l"}, Long: "the next set of colors", Group: g, Rank: 42, Do: keys.Do(r.nextTheme)},
		{Keys: []string{"q"}, Short: "quit", Long: "quit", Group: g, Rank: 7, Do: keys.Do(r.quit)},
	}}
	s.text.Clicked = func(y int) bool {
		if y += s.top; y < 0 || y >= len(s.on) || s.on[y] < 0 {
			return false
		}
		s.at = s.on[y]
		return true
	}
	r.push(s.text)
}

const startTitle = "start"

// forms are the parts that a new wall is begun for, by their digits.
var forms = []laminate.PartForm{laminate.Pipe, laminate.Duct, laminate.Tank, laminate.Panel}

// gather collects the lines.
func (s *start) gather() {
	r := s.r
	for i, f := range forms {
		c := choice{text: f.String(), do: func() { r.newWall(f) }}
		if i == 0 {
			c.section = "New wall, or a job of several"
		}
		s.choices = append(s.choices, c)
	}
	s.choices = append(s.choices, choice{text: "job: equipment of several parts", do: r.newJob})
	for i, e := range settings.Templates() {
		c := choice{text: strings.TrimSuffix(e.Name, store.Extension), do: func() { r.fromTemplate(e.Path) }}
		if i == 0 {
			c.section = "From the shop's templates"
		}
		s.choices = append(s.choices, c)
	}
	found, _ := store.Pending() // what cannot be read is asked about where its document is opened
	section := "Not saved when the program ended"
	s.at = -1
	for i := range found {
		u := &found[i]
		if u.Path != "" && filepath.Ext(u.Path) != store.Extension {
			continue
		}
		if s.at < 0 {
			s.at = len(s.choices)
		}
		text, word := unsavedLine(u)
		s.choices = append(s.choices, choice{section, text, word + ", " + r.age(u.Time), r.desk.Theme.Warning, func() { r.recover(*u) }})
		section = ""
	}
	section = "Go on"
	for _, f := range settings.Recents() {
		if s.at < 0 {
			s.at = len(s.choices)
		}
		text := f.Title
		if text == "" {
			text = filepath.Base(f.Path)
		}
		if f.Job != "" {
			text += "  " + f.Job
		}
		if f.Revision != "" {
			text += " rev " + f.Revision
		}
		text += "  (" + filepath.Base(filepath.Dir(f.Path)) + "/" + filepath.Base(f.Path) + ")"
		s.choices = append(s.choices, choice{section, text, f.Verdict + ", " + r.age(f.When), draw.Style{}, func() { r.openFile(f.Path) }})
		section = ""
	}
	s.at = max(0, s.at)
}

// unsavedLine names work that was not saved, and says how it stands to its file.
func unsavedLine(u *store.Unsaved) (text, word string) {
	text = "“" + u.Label + "”"
	if u.Path == "" {
		return text, "no file yet"
	}
	text = filepath.Base(u.Path) + "  " + text
	switch how, err := store.Since(u.Path, u.Base); {
	case err != nil:
		return text, "file not readable"
	case how == store.Unchanged && u.Base.IsZero():
		return text, "never saved"
	case how == store.Unchanged:
		return text, "file unchanged"
	case how == store.Removed:
		return text, "file removed"
	}
	return text, "FILE IS NEWER"
}

// lines draws the page.
func (s *start) lines(w int) []string {
	t := s.r.desk.Theme
	h := draw.PageFrame(draw.Size{W: s.r.w, H: s.r.h}).Body.H
	var out []string
	at := 0
	s.on = s.on[:0]
	roomy := h >= len(s.choices)+12
	for i := range s.choices {
		c := &s.choices[i]
		if c.section != "" {
			if roomy || i == 0 && h >= 18 {
				out = append(out, "")
			}
			out = append(out, "   "+t.Title.Render(draw.Cut(c.section, w-4)))
		}
		for len(s.on) < len(out) {
			s.on = append(s.on, -1)
		}
		s.on = append(s.on, i)
		number := " "
		if i < 9 {
			number = strconv.Itoa(i + 1)
		}
		word := draw.Clean(c.word)
		text := draw.Left(draw.Clean(c.text), max(8, w-8-draw.Width(word)))
		if i == s.at {
			at = len(out)
			out = append(out, t.Selected.Render(draw.Left(" "+draw.Pointer+number+" "+text+"  "+word, w-1)))
			continue
		}
		out = append(out, "  "+t.Key.Render(number)+" "+text+"  "+c.look.Render(word))
	}
	last := "   " + t.Key.Render("0") + " open a file    " + t.Key.Render("+") + " practice    " + t.Key.Render(".") + " the example"
	room := max(1, h-3)
	s.top = max(0, min(s.top, at-1, len(out)-room))
	s.top = max(s.top, at-room+1)
	out = out[s.top:min(len(out), s.top+room)]
	for len(out) < h-2 && (roomy || len(out) < h-3) {
		out = append(out, "")
		if !roomy {
			break
		}
	}
	return append(out, last)
}

// newWall begins a wall for a part of some form, and asks for its facts.
func (r *Root) newWall(f laminate.PartForm) {
	r.fresh("new schedule", schedules.Blank(""), func() {
		r.desk.Apply(edit.SetPart("form", "form "+f.String(), func(p *laminate.Part) { p.Form = f }))
		r.push(jobdata.Begin(r.desk, r.propose))
		r.desk.Say("what it has to bear: Enter goes on, with nothing typed a fact stays not stated")
	})
}

// newJob begins a job of several parts, and asks for what decides it.
func (r *Root) newJob() {
	r.fresh("new job", schedules.BlankJob(""), func() {
		r.push(jobdata.BeginJob(r.desk, func() {
			r.land()
			r.desk.Note("next: p proposes its walls and joints; what is assumed is noted", "u undoes it")
		}))
		r.desk.Say("what it has to bear: Enter goes on, with nothing typed a fact stays not stated")
	})
}

// propose lays the wall that follows from the facts, and shows the bench.
func (r *Root) propose() {
	label, e, err := jobdata.Proposal(r.desk)
	if err != nil {
		r.desk.Refuse(err.Error())
		return
	}
	r.at = 0
	if r.desk.Apply(e) {
		r.desk.Note(label, r.desk.Undoes())
	}
}

// fromTemplate begins a new schedule with what a template holds; the template
// stays as it is.
func (r *Root) fromTemplate(path string) {
	file, err := store.Read(path)
	if err != nil {
		r.desk.Refuse(err.Error())
		return
	}
	r.fresh("new schedule", file.Bytes, func() {
		r.desk.Say("begun from the template " + filepath.Base(path) + ": s asks for a name of its own")
	})
}

// fresh opens a document that has no file in the place of the one that is open.
func (r *Root) fresh(name string, text []byte, then func()) {
	r.unsaved("go on", func() {
		d, err := editor.FromBytes(name, text, r.o.Shop)
		if err != nil {
			r.desk.Refuse(err.Error())
			return
		}
		r.stack, r.at = nil, 0
		r.become(d)
		if then != nil {
			then()
		}
	})
}

// recover opens work that was not saved.
func (r *Root) recover(u store.Unsaved) {
	r.unsaved("go on", func() {
		d, err := editor.Recover(u, r.o.Shop)
		if err != nil {
			r.desk.Refuse(err.Error())
			return
		}
		r.stack, r.at = nil, 0
		r.become(d)
		tail := "e shows what differs from the file"
		if keys.Find(keys.Key("e"), r.pages[r.at].Table()) != nil { // the page has its own
			tail = ""
		}
		r.desk.Note("took up the unsaved work of "+d.Name()+": s saves it", tail)
	})
}

// remember notes that a document is open or was saved, beside everything else.
func (r *Root) remember() {
	d := r.desk.Doc
	if d.Path() == "" || !r.o.Keep {
		return
	}
	s := d.Now()
	f := settings.Recent{Path: d.Path(), Title: s.Title, Job: s.Job, Verdict: r.verdict().String(), When: r.now()}
	if s.Revision.Given {
		f.Revision = strconv.Itoa(s.Revision.Value)
	}
	r.do(guard(func() tea.Msg {
		_ = settings.Remember(f) // a list that cannot be kept is no reason to say anything
		return nil
	}))
}

// set changes the user's settings.
func (r *Root) set(change func(*settings.Settings)) {
	if !r.o.Keep {
		return
	}
	s, err := settings.Load()
	change(&s)
	if err == nil {
		err = s.Save()
	}
	r.o.Units = s.Units
	if err != nil {
		r.desk.Refuse("the settings are not kept: " + err.Error())
	}
}

// nextTheme changes the colors and keeps them.
func (r *Root) nextTheme() {
	kinds := draw.Kinds()
	for i, k := range kinds {
		if k == r.desk.Theme.Kind {
			r.setTheme(kinds[(i+1)%len(kinds)])
			return
		}
	}
}

func (r *Root) setTheme(k draw.Kind) {
	// Pages and what is open hold the theme by its address.
	*r.desk.Theme = *draw.NewAt(k, r.desk.Theme.Depth)
	r.replacedLook()
	r.desk.Note(fmt.Sprintf("colors: %s", k), "l shows the next ones")
	r.set(func(s *settings.Settings) { s.Theme = string(k) })
}

// replacedLook has everything drawn anew: what is kept drawn is kept by the
// report that it was drawn of, and another system of units makes another one.
func (r *Root) replacedLook() {
	d := r.desk.Doc
	u := d.Units()
	d.SetUnits(quantity.US)
	if u == quantity.US {
		d.SetUnits(quantity.Metric)
	}
	d.Report()
	d.SetUnits(u)
	r.desk.Replaced()
	r.resize(r.w, r.h)
}
