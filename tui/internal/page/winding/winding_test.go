package winding

import (
	"math"
	"strings"
	"testing"

	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/keys"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/pagetest"
	"frp/veilwright/tui/internal/tuitest"

	"pgregory.net/rapid"
)

const pipe = `document = "schedule"
format = 1
title = "Wound brine line"
[part]
form = "pipe"
process = "wound"
inside_diameter = "24 in"
[[resin]]
id = "all"
family = "vinyl-ester"
[[material]]
id = "shop-band"
form = "roving-band"
fiber = "e-glass"
tow = "2200 tex"
tows = 20
band_width = "100 mm"
glass_content = 0.70
[[ply]]
material = "shop-band"
resin = "all"
angle = 55
count = 4
`

func desk(t testing.TB, text string) *page.Desk {
	t.Helper()
	d, err := editor.FromBytes("wound.toml", []byte(text), shop.New(shop.Options{NoBook: true}))
	if err != nil {
		t.Fatal(err)
	}
	return &page.Desk{Doc: d, Theme: draw.New(draw.Mono)}
}

func press(p *Winding, names ...string) {
	for _, n := range names {
		e := keys.Event{Key: n}
		if r := []rune(n); len(r) == 1 {
			e.Rune = r[0]
		}
		if _, why := pagetest.Press(p, e); why != "" {
			p.Desk.Refuse(why)
		}
	}
}

func page80(t testing.TB, text string) *Winding {
	p := New(desk(t, text))
	p.SetSize(80, 24)
	p.Settle()
	return p
}

// By hand: lead πD/tan 55° = 1341 mm = 52.8 in; πD cos 55°/100 mm = 10.98, so
// 11 circuits; 20 × 2200 tex / 100 mm = 440 g/m² a layer, 880 g/m² a cover;
// netting tan² 55° = 2.04.
func TestWinding_figuresTheBandByHand(t *testing.T) {
	p := page80(t, pipe)
	got, err := p.try()
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(got.pattern.Lead-math.Pi*0.6096/math.Tan(55*math.Pi/180)) > 1e-9 || got.pattern.Circuits != 11 {
		t.Errorf("lead %v, circuits %d", got.pattern.Lead, got.pattern.Circuits)
	}
	if math.Abs(got.pattern.LayerMass-0.440) > 1e-9 || math.Abs(got.pattern.CoverMass-0.880) > 1e-9 {
		t.Errorf("masses %v %v", got.pattern.LayerMass, got.pattern.CoverMass)
	}
	text := strings.Join(p.Lines(), "\n")
	for _, want := range []string{"52.79 in", "11 (10.98 exact)", "54.7°", "design aid"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on\n%s", want, text)
		}
	}
	// The cover's thickness is what the analysis computes for a ply of it.
	if want := p.Desk.Report().Analysis.Rows[0].Thickness; math.Abs(got.laid.Thickness-want) > 1e-9 {
		t.Errorf("thickness %v, the analysis computes %v", got.laid.Thickness, want)
	}
}

func TestWinding_keepsTheBandAsOneChange(t *testing.T) {
	p := page80(t, pipe)
	press(p, "3", "1", "0", keys.Enter)
	if len(p.Desk.Doc.Now().Plies) != 1 || p.Desk.Doc.Dirty() {
		t.Fatal("typing alone must change nothing")
	}
	before := p.Desk.Report().Analysis.Rows[0].Thickness
	press(p, "+")
	s := p.Desk.Doc.Now()
	if m := s.Materials[0]; m.ID != "shop-band" || m.Tows.Value != 10 {
		t.Fatalf("material %+v, notice %q", m, p.Desk.Notice.Text)
	}
	if got := p.Desk.Report().Analysis.Rows[0].Thickness; math.Abs(got/before-0.5) > 1e-9 {
		t.Errorf("half the tows must lay half the cover: %v of %v", got, before)
	}
	p.Desk.Undo()
	if p.Desk.Doc.Dirty() {
		t.Error("one undo must take it back")
	}
}

func TestWinding_givesTheAngle(t *testing.T) {
	p := page80(t, pipe)
	press(p, "6", "6", "0", keys.Enter, "*")
	if a := p.Desk.Doc.Now().Plies[0].Angle; a.Value != 60 {
		t.Errorf("angle %v, notice %q", a, p.Desk.Notice.Text)
	}
}

func TestWinding_saysWhatIsMissing(t *testing.T) {
	p := page80(t, strings.Replace(pipe, "inside_diameter = \"24 in\"\n", "", 1))
	if text := strings.Join(p.Lines(), "\n"); !strings.Contains(text, "cannot be determined: diameter: not stated") {
		t.Errorf("the page does not say it:\n%s", text)
	}
	press(p, "5", "0", keys.Enter)
	if _, err := p.try(); err == nil {
		t.Error("a diameter of zero must be refused")
	}
	press(p, "6", "x", keys.Enter)
	if _, err := p.try(); err == nil {
		t.Error("a word is no angle")
	}
}

// Over a veil and two mats of 113.1 mil a 24 in pipe is wound on 24.23 in.
func TestWinding_startsOverWhatLiesUnderThePly(t *testing.T) {
	p := page80(t, strings.Replace(pipe, "[[ply]]", `[[ply]]
material = "veil-c-15"
resin = "all"
[[ply]]
material = "mat-1.5"
resin = "all"
count = 2
gel_after = true
[[ply]]`, 1))
	if got := p.fields[fieldDiameter].Text; got != "24.23 in" {
		t.Errorf("wound on %q", got)
	}
	press(p, "5", "3", "0", keys.Enter)
	if got := p.fields[fieldDiameter].Text; got != "30 in" {
		t.Errorf("a bare figure becomes %q, it must get its unit", got)
	}
}

func TestWinding_escLeavesAFigureAsItWas(t *testing.T) {
	p := page80(t, pipe)
	press(p, "3", "9", keys.Esc, keys.Esc)
	if p.fields[fieldTows].Text != "20" || p.Over() != nil {
		t.Errorf("tows %q, open %v", p.fields[fieldTows].Text, p.Over() != nil)
	}
}

func TestWinding_anyKeysAnySize(t *testing.T) {
	d := desk(t, pipe)
	rapid.Check(t, func(t *rapid.T) {
		p := New(d)
		p.SetSize(rapid.IntRange(1, 250).Draw(t, "w"), rapid.IntRange(1, 80).Draw(t, "h"))
		p.Settle()
		for range rapid.IntRange(0, 30).Draw(t, "n") {
			press(p, rapid.SampledFrom([]string{"1", "2", "3", "4", "5", "6", "+", "*", "0", "x", ".", keys.Enter, keys.Esc, keys.Up, keys.Down, keys.Left}).Draw(t, "key"))
			p.Lines()
		}
	})
}

func TestWinding_golden(t *testing.T) {
	p := page80(t, pipe)
	tuitest.Golden(t, "winding 80x24", strings.Join(p.Lines(), "\n")+"\n")
}
