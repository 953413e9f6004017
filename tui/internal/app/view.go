package app

import (
	"runtime/debug"
	"strconv"
	"strings"

	"frp/veilwright/laminate/overlay"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/widget"
)

// View draws the screen: exactly its size, whatever a page gives.
func (r *Root) View() (screen string) {
	if r.ending() || r.w < 1 || r.h < 1 {
		return ""
	}
	if !r.stale {
		return r.frame
	}
	defer func() {
		if what := recover(); what != nil {
			r.crash(what, debug.Stack())
			screen = ""
			if r.o.Quit != nil {
				r.o.Quit()
			}
		}
	}()
	r.frame = r.draw()
	r.stale = false
	return r.frame
}

func (r *Root) draw() string {
	f := draw.PageFrame(draw.Size{W: r.w, H: r.h})
	if f.Form == draw.TooSmall {
		return r.send(draw.Fit(draw.Join(draw.Wrap(draw.SmallSentence(draw.Size{W: r.w, H: r.h}), r.w)), r.w, r.h))
	}
	lines := make([]string, 0, r.h)
	lines = append(lines, r.title(f.Title.W))
	notice := r.notice(f.Notice.W)
	lines = append(lines, draw.FitLines(r.body(), f.Body.W, f.Body.H-len(notice)+1)...)
	lines = append(append(lines, notice...), r.help(f.Help.W))
	return r.send(draw.Fit(draw.Join(lines), r.w, r.h))
}

// body is the page, or what lies over the whole of it.
func (r *Root) body() []string {
	if n := len(r.stack); n > 0 {
		return r.stack[n-1].Lines()
	}
	p := r.pages[r.at]
	w := r.beside(p, r.w)
	if w == r.w {
		return p.Lines()
	}
	h := draw.PageFrame(draw.Size{W: r.w, H: r.h}).Body.H
	return draw.Beside(h, "", draw.Block{W: w, Lines: p.Lines()}, draw.Block{W: 1, Lines: widget.Edge(r.desk.Theme, h)},
		draw.Block{W: page.SideCells, Lines: page.WallColumn(r.desk, page.SideCells, h)})
}

// beside is how wide a page is that has no second column of its own: on a wide
// screen the wall stands beside it.
func (r *Root) beside(p page.Page, w int) int {
	if a, alone := p.(page.Alone); alone && draw.FormOf(draw.Size{W: w, H: r.h}) >= draw.Wide && w-page.SideCells-1 >= a.Alone() {
		return w - page.SideCells - 1
	}
	return w
}

// name says in capitals what is shown.
func (r *Root) name() string {
	name := r.pages[r.at].Name()
	whole := false
	if o := r.pages[r.at].Over(); o != nil && o.Whole() {
		name, whole = name+" · "+o.Title(), true
	}
	for _, o := range r.stack {
		if _, form := o.(*page.Form); whole { // what is open over a form leads back to it
			name += " · " + o.Title()
		} else {
			name, whole = o.Title(), form
		}
	}
	return strings.ToUpper(draw.Clean(name))
}

func (r *Root) send(s string) string {
	if r.o.ASCII {
		return draw.ASCII(s)
	}
	return s
}

func (r *Root) title(w int) string {
	t, d := r.desk.Theme, r.here().Doc
	s := d.Now()
	name := r.name()
	what := draw.Clean(s.Title)
	if what == "" {
		what = draw.Clean(d.Name())
	}
	// Of a job the bench and the pages of a wall are on one part, or on what is laid onto
	// it, which has to be seen before a key is pressed.
	if j := d.Job(); j != nil && r.pages[r.at].Name() != "job" && (len(j.Parts) > 0 || d.Lent() != nil) {
		of := ""
		if o := d.Lent(); o == nil {
			of = j.Parts[d.Part()].ID
		} else if of = o.Name(); o.Kind != overlay.None {
			of = o.Laminate + ": " + of + ","
		}
		if p := r.pages[r.at].Name(); (p == "lay-up" || p == "inspect") && r.records.Overlay() != nil {
			of = r.records.What() + ","
		}
		what = draw.Clean(of) + " of " + what
	}
	var about []string
	if s.Job != "" {
		about = append(about, draw.Clean(s.Job))
	}
	if s.Revision.Given {
		about = append(about, "rev "+strconv.Itoa(s.Revision.Value))
	}
	state := "saved"
	if d.Path() == "" {
		state = "no file yet"
	}
	if d.Dirty() {
		state = "not saved"
	}
	if r.fault != "" {
		state = notKept
	}
	if r.amiss != "" {
		state += ", not as on disk"
	}
	if ro, _ := d.ReadOnly(); ro {
		state += ", read only"
	}
	// The course has nothing to do with the document that is open behind it.
	_, course := r.owner()
	switch {
	case name == strings.ToUpper(startTitle):
		state, what, about, course = "", "", nil, true
	case r.here() != r.desk:
		state, course = "an exercise", false
	case course && r.fault == "":
		state, what, about = "", "", nil
	}
	unit := "inch"
	if d.Units() == quantity.Metric {
		unit = "mm"
	}
	right := strings.TrimSpace(state + "   " + unit)
	if tab := keys.Find(keys.Key(keys.Tab), r.tables()...); r.over() == nil && (tab.Can == nil || tab.Can() == "") {
		right += "   Tab pages"
	}
	left := what
	if len(about) > 0 {
		left += "  " + strings.Join(about, " ")
	}
	if w >= 110 && !course {
		if sv := r.service(); sv != "" {
			left += "  │  " + sv
		}
	}
	return widget.Title(t, name, left, right, w)
}

// service is the service in a few words, for wide screens.
func (r *Root) service() string {
	s, u := &r.here().Doc.Now().Service, r.here().Units()
	var parts []string
	add := func(p string) { parts = append(parts, p) }
	if s.Fluid != "" {
		add(draw.Clean(s.Fluid))
	}
	if s.Concentration.Given {
		add(quantity.Share(s.Concentration.Value))
	}
	if h := s.Hottest(); h.Given() {
		add(u.Temperature(h.SI()))
	}
	if s.PH.Given {
		add("pH " + strconv.FormatFloat(s.PH.Lowest, 'g', -1, 64) + "–" + strconv.FormatFloat(s.PH.Highest, 'g', -1, 64))
	}
	if s.Pressure.Given() {
		add(u.Pressure(s.Pressure.SI()))
	}
	for _, c := range s.Contains.List() {
		add(c.String())
	}
	return strings.Join(parts, ", ")
}

func (r *Root) notice(w int) []string {
	n := r.here().Notice
	if r.desk.Notice.Refusal { // what is wrong with the document behind an exercise matters too
		n = r.desk.Notice
	}
	if n.Text == "" && r.fault != "" {
		// It stays: one row, lest the page loses others for good.
		return []string{widget.Notice{Text: notKept + ": " + r.fault, Refusal: true}.Line(r.desk.Theme, w)}
	}
	if n.Text == "" && r.amiss != "" {
		return []string{widget.Notice{Text: r.amiss, Refusal: true}.Line(r.desk.Theme, w)}
	}
	return n.Lines(r.desk.Theme, w)
}

func (r *Root) help(w int) string {
	hints, fixed := keys.Hints(r.tables()...)
	return keys.HelpLine(r.desk.Theme, hints, fixed, w)
}
