package practice

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/bench"
	"frp/veilwright/tui/internal/widget"
)

// atBench answers an exercise on the bench, on a document of the exercise's
// own. Nothing is said there of what the rules find: that comes with the mark.
type atBench struct {
	*attempt
	desk  *page.Desk
	bench *bench.Bench
	found *finding // of a fix: where the plies at fault are named
}

// newAtBench opens the bench on the answer as it stands.
func newAtBench(p *Practice, a *attempt, found *finding) work {
	d, err := editor.Unjudged(a.exercise().Title, a.session.Answer().Schedule, a.library)
	if err != nil {
		p.desk.Refuse(err.Error())
		return nil
	}
	d.SetUnits(p.desk.Units())
	b := &atBench{attempt: a, desk: &page.Desk{Doc: d, Theme: p.desk.Theme, Row: -1, Quiet: true}, found: found}
	b.bench = bench.New(b.desk, p.lead())
	return b
}

func (b *atBench) settle() { b.session = b.session.Lay(b.desk.Doc.Now()) }

func (b *atBench) scope() keys.Scope { return scopeBench }

func (b *atBench) lines(p *Practice, _, _ int) []string { return b.bench.Lines() }

// lead is what stands first on the bench while an exercise is answered.
func (p *Practice) lead() *bench.Lead {
	return &bench.Lead{
		Name:  "practice",
		Rows:  benchActs().Table(p, scopeBench),
		Title: func() []widget.Piece { return p.work.base().title(p.desk.Theme) },
		Text:  func(w int) []string { return p.work.base().prose(p, w) },
		More:  "w all",
	}
}

func benchActs() page.Acts[*Practice] {
	const g = "The exercise"
	return append(workActs(scopeBench, g), act(scopeBench, "faults", g, []string{"b"}, "", "", "of a fix: back to the plies that are at fault", 23, func(p *Practice) string {
		if b, ok := p.now.(*atBench); !ok || b.found == nil {
			return "nothing is to be found in this exercise"
		}
		return ""
	}, in(func(b *atBench, p *Practice, _ keys.Event) {
		b.settle()
		p.work, p.now = b.found, b.found
	})))
}

// finding names the plies at fault of what is given.
type finding struct {
	*attempt
	row   int
	fixes work // the bench, once it was opened
}

func (*finding) scope() keys.Scope { return scopeFind }

// settle puts what was fixed so far into the answer.
func (f *finding) settle() {
	if f.fixes != nil {
		f.fixes.settle()
	}
}

// blame names plies, or takes that back.
func (f *finding) blame(p *Practice, plies ...int) {
	for _, n := range plies {
		f.session = f.session.Blame(n)
	}
	p.desk.Say("at fault: " + faultText(f.session.Answer().Faults))
}

func faultText(list []int) string {
	if len(list) == 0 {
		return "no ply named yet"
	}
	s := "ply"
	if len(list) > 1 {
		s = "plies"
	}
	for i, n := range list {
		if i > 0 {
			s += ","
		}
		s += " " + strconv.Itoa(n)
	}
	return s
}

func findActs() page.Acts[*Practice] {
	const g = "Finding what is wrong"
	return append(page.Acts[*Practice]{
		act(scopeFind, "blame", g, digits(), "1-9", "at fault", "name the ply of this number as at fault, or take that back", 1, nil, in(func(f *finding, p *Practice, e keys.Event) {
			d, _ := e.Digit()
			if d > f.exercise().Given.NumberOfPlies() {
				p.desk.Refuse("there is no ply " + strconv.Itoa(d))
				return
			}
			f.blame(p, d)
		})),
		act(scopeFind, "blame row", g, []string{keys.Space}, "", "", "name all plies of the row pointed at", 20, nil, in(func(f *finding, p *Practice, _ keys.Event) {
			a := laminate.Analyze(&f.exercise().Given, f.library)
			var plies []int
			for n := a.Rows[f.row].First; n <= a.Rows[f.row].Last; n++ {
				plies = append(plies, n)
			}
			f.blame(p, plies...)
		})),
		act(scopeFind, "row", g, arrows(), "↑↓", "", "point at another row", 21, nil, in(func(f *finding, _ *Practice, e keys.Event) {
			f.row = moved(f.row, e, len(f.exercise().Given.Plies))
		})),
		act(scopeFind, "fix", g, []string{keys.Enter}, "", "then fix it", "go on to the bench and put it right", 2, nil, in(func(f *finding, p *Practice, _ keys.Event) {
			if f.fixes == nil {
				f.fixes = newAtBench(p, f.attempt, f)
			}
			if f.fixes != nil {
				p.work, p.now = f.fixes, f.fixes
				p.SetSize(p.w, p.h)
				p.here().Say("now put it right; b goes back to the plies at fault")
			}
		})),
	}, workActs(scopeFind, g)...)
}

func (f *finding) lines(p *Practice, w, h int) []string {
	t := p.desk.Theme
	s := &f.exercise().Given
	a := laminate.Analyze(s, f.library)
	out, left := f.head(p, w, h, min(len(s.Plies)+5, h-6))
	faults := f.session.Answer().Faults
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "which plies are at fault? " + faultText(faults), Look: t.Strong}))
	list := plyLines(p, s, a, w, f.row, true, func(row int) string {
		for _, n := range faults {
			if n >= a.Rows[row].First && n <= a.Rows[row].Last {
				return "!"
			}
		}
		return " "
	})
	out = append(out, window(list, f.row, left-2)...)
	return append(out, t.Dim.Render(draw.Cut(" "+draw.Pointer+" where no ply is wrong but one is missing, name none and go on", w)))
}
