package app

import (
	"runtime/debug"
	"strconv"
	"strings"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/widget"
)

// View draws the screen: exactly its size, whatever a page gives.
func (r *Root) View() (screen string) {
	if r.over() || r.w < 1 || r.h < 1 {
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
	lines = append(lines, draw.FitLines(r.top().Lines(), f.Body.W, f.Body.H)...)
	lines = append(lines, r.notice(f.Notice.W), r.help(f.Help.W))
	return r.send(draw.Fit(draw.Join(lines), r.w, r.h))
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
	name := strings.ToUpper(draw.Clean(r.top().Name()))
	what := draw.Clean(s.Title)
	if what == "" {
		what = draw.Clean(d.Name())
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
	if ro, _ := d.ReadOnly(); ro {
		state += ", read only"
	}
	own := r.here() != r.desk
	if own {
		state = "an exercise"
	}
	unit := "inch"
	if d.Units() == quantity.Metric {
		unit = "mm"
	}
	right := state + "   " + unit
	if !own && !r.top().Busy() {
		right += "   Tab pages"
	}
	left := what
	if len(about) > 0 {
		left += "  " + strings.Join(about, " ")
	}
	if w >= 110 {
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

func (r *Root) notice(w int) string {
	n := r.here().Notice
	if r.desk.Notice.Refusal { // what is wrong with the document behind an exercise matters too
		n = r.desk.Notice
	}
	if n.Text == "" && r.fault != "" {
		n = widget.Notice{Text: notKept + ": " + r.fault, Refusal: true}
	}
	return n.Line(r.desk.Theme, w)
}

func (r *Root) help(w int) string {
	top := r.top()
	scopes := []keys.Scope{top.Scope()}
	can := top.Can
	if !top.Busy() {
		scopes = append(scopes, keys.Global)
		can = func(id keys.ID) string {
			if why := r.acts.Why(r, keys.Global, id); why != "" {
				return why
			}
			return top.Can(id)
		}
	}
	hints, fixed := r.table.Hints(can, scopes...)
	return keys.HelpLine(r.desk.Theme, hints, fixed, w)
}
