package practice

import (
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/exercise"
	"frp/veilwright/laminate/overlay"
	"frp/veilwright/rules"
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
	d, err := editor.Unjudged(a.exercise().Title, a.session.Answer().Schedule, a.library, laidAs(a.exercise()))
	if err != nil {
		p.Desk.Refuse(err.Error())
		return nil
	}
	d.SetUnits(p.Desk.Units())
	b := &atBench{attempt: a, desk: &page.Desk{Doc: d, Theme: p.Desk.Theme, Row: -1, Quiet: true, Rack: p.Desk.Rack}, found: found}
	const g = "The exercise"
	own := append(p.workRows(g), keys.Row{Keys: []string{"b"}, Long: "of a fix: back to the defective plies", Group: g, Rank: 99, Can: func() string {
		if found == nil {
			return "no ply is named as defective in this exercise"
		}
		return ""
	}, Do: keys.Do(func() {
		b.settle()
		p.work, p.now = found, found
	})})
	b.bench = bench.New(b.desk, &bench.Lead{
		Name: p.Name(), Rows: own,
		Lines: func(w, h int) []string { return a.head(p, w, h) },
		Tall:  func(w int) int { return 1 + len(a.prose(p, w)) },
	})
	return b
}

// laidAs is what the plies of an exercise are laid as, nil of a wall.
func laidAs(e *exercise.Exercise) *rules.Overlaid {
	if e.Overlay == overlay.None {
		return nil
	}
	j, o := e.Job(&e.Given)
	return &rules.Overlaid{Overlay: o, Job: j}
}

func (b *atBench) settle() { b.session = b.session.Lay(b.desk.Doc.Now()) }

// rows and lines are the bench's own.
func (b *atBench) rows(*Practice) keys.Table { return b.bench.Table() }

func (b *atBench) lines(*Practice, int, int) []string { return b.bench.Lines() }

// finding names the plies at fault of what is given.
type finding struct {
	*attempt
	row   int
	fixes work // the bench, once it was opened
}

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
	p.Desk.Say("defective: " + faultText(f.session.Answer().Faults))
}

func faultText(list []int) string {
	if len(list) == 0 {
		return "no ply selected yet"
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

func (f *finding) rows(p *Practice) keys.Table {
	const g = "Finding what is wrong"
	given := &f.exercise().Given
	return append(keys.Table{
		{Keys: keys.Digits(9), Show: "1-9", Short: "defective", Long: "select the ply with this number as defective, or clear it", Group: g, Rank: 1, Do: digit(func(d int) {
			if d > given.NumberOfPlies() {
				p.Desk.Refuse("there is no ply " + strconv.Itoa(d))
				return
			}
			f.blame(p, d)
		})},
		{Keys: []string{keys.Space}, Long: "select all plies of the row you are on", Group: g, Rank: 9, Do: keys.Do(func() {
			a := laminate.Analyze(given, f.library)
			var plies []int
			for n := a.Rows[f.row].First; n <= a.Rows[f.row].Last; n++ {
				plies = append(plies, n)
			}
			f.blame(p, plies...)
		})},
		points(&f.row, len(given.Plies), g, "", "choose another row"),
		{Keys: []string{keys.Enter}, Short: "then fix it", Long: "go on to the bench and put it right", Group: g, Rank: 2, Do: keys.Do(func() {
			if f.fixes == nil {
				f.fixes = newAtBench(p, f.attempt, f)
			}
			if f.fixes != nil {
				p.work, p.now = f.fixes, f.fixes
				p.SetSize(p.w, p.h)
				p.here().Say("now put it right; b goes back to the defective plies")
			}
		})},
	}, p.workRows(g)...)
}

func (f *finding) lines(p *Practice, w, h int) []string {
	t := p.Desk.Theme
	s := &f.exercise().Given
	a := laminate.Analyze(s, f.library)
	out := f.head(p, w, h-min(len(s.Plies)+5, h-6))
	left := h - len(out)
	faults := f.session.Answer().Faults
	out = append(out, widget.Rule(t, w, widget.Piece{Text: "which plies are defective? " + faultText(faults), Look: t.Strong}))
	list := plyLines(p, s, a, w, f.row, true, func(row int) string {
		for _, n := range faults {
			if n >= a.Rows[row].First && n <= a.Rows[row].Last {
				return "!"
			}
		}
		return " "
	})
	out = append(out, window(list, f.row, left-2)...)
	return append(out, t.Dim.Render(draw.Cut(" "+draw.Pointer+" if no ply is defective but one is missing, select none and go on", w)))
}
