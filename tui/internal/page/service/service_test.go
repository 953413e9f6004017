package service

import (
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules/advice"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/pagetest"
	"frp/veilwright/tui/internal/tuitest"
)

func open(t testing.TB, b []byte) (*Service, *page.Desk) {
	t.Helper()
	d, err := editor.FromBytes("example", b, shop.New(shop.Options{NoBook: true}))
	if err != nil {
		t.Fatal(err)
	}
	desk := &page.Desk{Doc: d, Theme: draw.New(draw.Mono), Row: -1}
	p := New(desk)
	p.SetSize(80, 24)
	p.Settle()
	return p, desk
}

// press types keys; it tells whether the last one led back to the page before.
func press(p *Service, names ...string) (back bool) {
	for _, e := range tuitest.Events(names...) {
		back = false
		p.Desk.Back = func() { back = true }
		p.Desk.Pages = p.Desk.Back
		if _, why := pagetest.Press(p, e); why != "" {
			p.Desk.Refuse(why)
		}
	}
	return back
}

func screen(t testing.TB, p *Service) string {
	t.Helper()
	p.Settle()
	f := p.Frame
	return tuitest.Box(t, draw.FitLines(p.Lines(), f.Body.W, f.Body.H), f.Body.W, f.Body.H) + "\n" + p.Desk.Notice.Line(p.Desk.Theme, f.Body.W)
}

// The example's condensate contains fluorides, which attack glass: its veil
// suits not, polyester does (common practice, no source).
func TestPage_tellsWhatSuits(t *testing.T) {
	p, _ := open(t, schedules.Example())
	tuitest.Golden(t, "opened", screen(t, p))
	press(p, "home")
	tuitest.Golden(t, "glass veil", screen(t, p))
	got := screen(t, p)
	if !strings.Contains(got, "! unsuitable  veil-c-10") || !strings.Contains(got, "* usual       veil-polyester-15") {
		t.Errorf("the veils' answers are missing:\n%s", got)
	}
	press(p, "right", "down")
	tuitest.Golden(t, "a resin", screen(t, p))
}

func TestPage_answersFollowAFact(t *testing.T) {
	p, d := open(t, schedules.Example())
	before := p.advice().Veil("veil-c-15").Suits
	press(p, "4", "1", "enter") // fluorides were the first trait: off
	if after := p.advice().Veil("veil-c-15").Suits; before != advice.Unsuitable || after == advice.Unsuitable {
		t.Errorf("without fluorides the glass veil goes from %s to %s", before, after)
	}
	if !strings.Contains(d.Notice.Text, "contains") || d.Notice.Tail != "u undoes it" {
		t.Errorf("the notice says %+v", d.Notice)
	}
	d.Undo()
	if got := p.advice().Veil("veil-c-15").Suits; got != advice.Unsuitable {
		t.Errorf("taken back it is %s", got)
	}
	press(p, "3", "190 degF", "enter") // above the upset of 140 °F, which is raised first
	if !d.Notice.Refusal || !strings.Contains(d.Notice.Text, `"140 degF" is below the temperature of 190 degF`) {
		t.Errorf("a temperature above the upset: %+v", d.Notice)
	}
	press(p, "esc", "esc", "6", "195 degF", "enter", "3", "190 degF", "enter")
	if got := d.Doc.Now().Service.Temperature.Text(); got != "190 degF" || (p.Over() != nil) {
		t.Errorf("temperature %q, typing %v", got, (p.Over() != nil))
	}
	press(p, "5", "seven", "enter")
	if !d.Notice.Refusal || !(p.Over() != nil) {
		t.Errorf("a pH of seven letters was taken: %+v", d.Notice)
	}
	press(p, "esc", "esc")
	if (p.Over() != nil) || !strings.Contains(d.Notice.Text, "left as it was") {
		t.Errorf("leaving says %+v", d.Notice)
	}
	press(p, "9", "1")
	if got := d.Doc.Now().Service.Abrasive; !got.Given || !got.Value || (p.Over() != nil) {
		t.Errorf("abrasive %+v, still open %v", got, (p.Over() != nil))
	}
	if p.advice().Build("100-mil-filled") == nil {
		t.Error("an abrasive service offers no filled build")
	}
}

func TestPage_buildsWhatIsPointedAt(t *testing.T) {
	p, d := open(t, schedules.Example())
	before := string(d.Doc.Bytes())
	press(p, "home")
	if was := d.Doc.Now(); press(p, "enter") || d.Doc.Now() != was {
		t.Error("Enter builds: one too many of it would")
	}
	if press(p, "+") || !d.Notice.Refusal {
		t.Errorf("a veil that does not suit: %+v", d.Notice)
	}
	for p.at.id != "veil-polyester-15" {
		press(p, "down")
	}
	if !press(p, "+") {
		t.Errorf("want the bench: %+v", d.Notice)
	}
	s := d.Doc.Now()
	if s.Plies[0].Material != "veil-polyester-15" || s.Plies[len(s.Plies)-1].Material != "topcoat" {
		t.Errorf("built %+v", s.Plies)
	}
	d.Undo()
	if string(d.Doc.Bytes()) != before {
		t.Error("one undo does not take the barrier back")
	}
}

func TestPage_proposesWholeWalls(t *testing.T) {
	p, d := open(t, schedules.Example())
	// What a warm wall keeps is not stated: it is assumed, and left incomplete.
	d.Apply(edit.SetPart("modulus_retention", "not stated", func(q *laminate.Part) { q.ModulusRetention = laminate.Optional[float64]{} }))
	open := string(d.Doc.Bytes())
	press(p, "p", "1")
	if n := d.Report().Analysis.Zones[laminate.StructuralLayer].Plies; n == 0 || d.Notice.Refusal {
		t.Errorf("%d structural plies: %+v", n, d.Notice)
	}
	if d.Undo(); string(d.Doc.Bytes()) != open {
		t.Error("one undo does not take the proposal back")
	}
	d.Apply(edit.SetPart("modulus_retention", "0.8", func(q *laminate.Part) { q.ModulusRetention = laminate.Some(0.8) }))
	before := string(d.Doc.Bytes())
	press(p, "p")
	if p.Over() == nil {
		t.Fatalf("no proposals: %+v", d.Notice)
	}
	tuitest.Golden(t, "proposals", screen(t, p))
	if !press(p, "1") {
		t.Errorf("want the bench: %+v", d.Notice)
	}
	if breaks, _, _, _ := d.Report().Counts(); breaks != 0 {
		t.Errorf("the proposal breaks %d rules", breaks)
	}
	if d.Undo(); string(d.Doc.Bytes()) != before {
		t.Error("one undo does not take the wall back")
	}
	press(p, "p", "esc")
	if (p.Over() != nil) || string(d.Doc.Bytes()) != before {
		t.Error("leaving the proposals changed something")
	}
}

// What is taken is the whole proposal, the spacing of its rings too.
func TestPage_takesAProposalWithItsRings(t *testing.T) {
	p, d := open(t, schedules.Example())
	d.Apply(edit.SetPart("part", "a wide part under vacuum", func(q *laminate.Part) {
		q.InsideDiameter, q.StiffenerSpacing = quantity.New(96, quantity.Inch), quantity.Length{}
		q.Length, q.Flanged, q.ModulusRetention = quantity.New(20, quantity.Foot), laminate.Some(false), laminate.Some(0.8)
	}))
	d.Apply(edit.SetService("vacuum", "2 psi", func(q *laminate.Service) { q.Vacuum = quantity.New(2, quantity.PSI) }))
	list, err := advice.Propose(d.Doc.Now(), d.Doc.Library(), advice.Options{Units: d.Units(), Replace: true})
	if err != nil {
		t.Fatal(err)
	}
	ringed := slices.IndexFunc(list, func(c advice.Candidate) bool { return c.Figures.Rings > 0 })
	if ringed < 0 || ringed > 8 {
		t.Fatalf("of %d proposals none has rings", len(list))
	}
	press(p, "p", strconv.Itoa(ringed+1))
	if got, want := d.Doc.Now(), list[ringed].Schedule; !reflect.DeepEqual(got.Part, want.Part) || d.Report().Verdict != list[ringed].Report.Verdict {
		t.Errorf("taken it is %v with %+v, proposed %v with %+v", d.Report().Verdict, got.Part, list[ringed].Report.Verdict, want.Part)
	}
}

func TestPage_wide(t *testing.T) {
	p, _ := open(t, schedules.Example())
	p.SetSize(120, 36)
	press(p, "4")
	tuitest.Golden(t, "a fact 120x36", screen(t, p))
}

// What exclude each other is a row of its own, said in the rule above too.
func TestPage_conflicts(t *testing.T) {
	p, d := open(t, schedules.Example())
	d.Apply(edit.SetService("contains", "contains", func(s *laminate.Service) {
		s.Contains = laminate.TraitSet(laminate.Fluorides, laminate.Hypochlorite)
	}))
	p.Settle()
	press(p, "end", "up")
	if got := screen(t, p); !strings.Contains(got, "conflict") || !strings.Contains(got, conflictsRow) {
		t.Errorf("no conflict is shown:\n%s", got)
	}
	if press(p, "+") || !d.Notice.Refusal {
		t.Errorf("a conflict was built: %+v", d.Notice)
	}
	tuitest.Golden(t, "conflicts", screen(t, p))
}

func TestRows_ratings(t *testing.T) {
	rows := rowsOf(&advice.Advice{Ratings: []laminate.Rating{{Grade: "A", Family: laminate.VinylEster, Build: "100 mil", Source: "own coupons", Date: "2025", Book: "shop-book.toml", Line: 9}}})
	if len(rows) != 1 || rows[0].id != ratingsRow || !strings.Contains(rows[0].reasons[0].Text, "A: vinyl-ester, 100 mil") || !strings.Contains(rows[0].reasons[0].Basis, "line 9") {
		t.Errorf("%+v", rows)
	}
}

func TestPage_emptyDocument(t *testing.T) {
	p, _ := open(t, schedules.Blank("Nothing yet"))
	tuitest.Golden(t, "empty", screen(t, p))
}

func TestPage_anyKeysAnySize(t *testing.T) {
	keys := []string{"1", "4", "5", "8", "9", "enter", "esc", "up", "down", "left", "right", "pgdown", "home", "end", "x", "space", "b"}
	rapid.Check(t, func(rt *rapid.T) {
		p, _ := open(t, schedules.Example())
		for range 3 {
			press(p, rapid.SliceOfN(rapid.SampledFrom(keys), 1, 5).Draw(rt, "keys")...)
			p.SetSize(rapid.IntRange(1, 220).Draw(rt, "w"), rapid.IntRange(1, 70).Draw(rt, "h"))
			p.Settle()
			screen(t, p)
		}
	})
}
