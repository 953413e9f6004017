package editor_test

import (
	"bytes"
	"math"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
)

// anyNumber is a number that somebody may have meant, or none.
func anyNumber(t *rapid.T) float64 {
	return rapid.OneOf(rapid.Float64Range(0, 1), rapid.Float64Range(-100, 200), rapid.Float64(),
		rapid.SampledFrom([]float64{0, 0.005, 0.5, 0.95, 0.97, 1, 5, 55, 90, 97, -1, 1e-300, 1e300, math.NaN(), math.Inf(1)})).Draw(t, "number")
}

func anyWord(t *rapid.T) string {
	return rapid.OneOf(rapid.StringMatching(`[a-zA-Z0-9 "#\\é.-]{0,12}`), rapid.String(),
		rapid.SampledFrom([]string{"", "r", "liner", "mat-1.5", "a\x1b[2J", "a\nb", "\u202eabc", " x "})).Draw(t, "word")
}

// anyValue is an edit of a value, absurd ones among them.
func anyValue(t *rapid.T, s *laminate.Schedule, l *laminate.Library) edit.Edit {
	x, w := anyNumber(t), anyWord(t)
	n := rapid.OneOf(rapid.IntRange(-2, 40), rapid.Int()).Draw(t, "whole")
	some := laminate.Some(x)
	row := rapid.IntRange(-1, len(s.Plies)).Draw(t, "row")
	ply := func(f func(*laminate.Ply)) edit.Edit { return edit.SetPly(s, l, row, "k", "what", f) }
	switch rapid.IntRange(0, 24).Draw(t, "value") {
	case 0:
		return ply(func(p *laminate.Ply) { p.GlassContent = some })
	case 1:
		return ply(func(p *laminate.Ply) { p.VoidContent = some })
	case 2:
		return ply(func(p *laminate.Ply) { p.Angle = some })
	case 3:
		return ply(func(p *laminate.Ply) { p.Angle = laminate.Optional[float64]{} })
	case 4:
		return ply(func(p *laminate.Ply) { p.Resin = w })
	case 5:
		return ply(func(p *laminate.Ply) { p.Material = w })
	case 6:
		return ply(func(p *laminate.Ply) { p.Count = n })
	case 7:
		return edit.SetCount(s, l, row, n)
	case 8:
		return edit.TimesRow(s, l, row, n)
	case 9:
		return edit.SetHeader("title", "title", func(s *laminate.Schedule) { s.Title = w })
	case 10:
		return edit.SetHeader("notes", "notes", func(s *laminate.Schedule) { s.Notes = w })
	case 11:
		return edit.SetHeader("revision", "revision", func(s *laminate.Schedule) { s.Revision = laminate.Some(n) })
	case 12:
		return edit.SetPart("inside_diameter", "d", func(p *laminate.Part) { p.InsideDiameter = quantity.New(x, quantity.Inch) })
	case 13:
		return edit.SetPart("area", "a", func(p *laminate.Part) { p.Area = quantity.New(x, quantity.SquareFoot) })
	case 14:
		return edit.SetPart("k_factors", "k", func(p *laminate.Part) {
			p.KFactors = laminate.KFactors{Values: [5]float64{x, 1, 2, 1, 1}, Given: true}
		})
	case 15:
		return edit.SetPart("modulus_retention", "m", func(p *laminate.Part) { p.ModulusRetention, p.Grounding = some, w })
	case 16:
		return edit.SetService("temperature", "t", func(v *laminate.Service) { v.Temperature = quantity.New(x, quantity.Fahrenheit) })
	case 17:
		return edit.SetService("ph", "ph", func(v *laminate.Service) { v.PH = laminate.PHRange{Lowest: x, Highest: anyNumber(t), Given: true} })
	case 18:
		return edit.SetService("pressure", "p", func(v *laminate.Service) {
			v.Pressure, v.Vacuum = quantity.New(x, quantity.PSI), quantity.New(-x, quantity.PSI)
		})
	case 19:
		return edit.SetService("concentration", "c", func(v *laminate.Service) { v.Concentration, v.SpecificGravity, v.Fluid = some, some, w })
	case 20:
		return edit.AddResin(s, laminate.Resin{ID: w, Family: laminate.Isophthalic, FillerContent: some})
	case 21:
		return edit.SetResin(s, 0, "id", "id", func(r *laminate.Resin) { r.ID = w })
	case 22:
		return edit.SetResin(s, 0, "modulus", "m", func(r *laminate.Resin) {
			r.Modulus, r.Poisson, r.FailureStrain, r.StyreneContent = quantity.New(x, quantity.PSI), some, some, some
		})
	case 23:
		return edit.SetMaterial(s, laminate.Material{ID: w, Form: rapid.SampledFrom(laminate.Forms.All()).Draw(t, "form"), Fiber: laminate.EGlass,
			ArealMass: quantity.New(x, quantity.OuncePerSquareFoot), Thickness: quantity.New(x, quantity.Mil), GlassContent: some}, "what")
	}
	return anyEdit(t, s, l)
}

// Whatever an edit accepts can be written and read again without a problem as
// the same schedule, kept in the journal and taken up by the next start.
func TestEdits_whateverIsAcceptedIsSavedReadBackAndRecovered(t *testing.T) {
	home(t)
	dir := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		path := write(t, filepath.Join(dir, "any.toml"), rapid.SampledFrom(texts).Draw(rt, "text"))
		d, err := editor.Open(path, none)
		if err != nil {
			rt.Fatal(err)
		}
		for range rapid.IntRange(1, 8).Draw(rt, "edits") {
			e := anyValue(rt, d.Now(), d.Library())
			if err := d.Apply(e); err != nil {
				if err.Error() == "" {
					rt.Fatalf("%s: refused without a word", e.Label)
				}
				continue
			}
			text := d.Bytes()
			_, again, problems := schedules.Decode(text, d.Library())
			if len(problems) > 0 || !schedules.Same(d.Now(), again) {
				rt.Fatalf("%s was accepted, and is read back with %v from\n%s", e.Label, problems, text)
			}
		}
		unsaved := bytes.Clone(d.Bytes())
		dirty := d.Dirty()
		if err := d.Close(); err != nil {
			rt.Fatal(err)
		}
		next, err := editor.Open(path, none)
		if err != nil {
			rt.Fatal(err)
		}
		if found := next.Pending() != nil; found != dirty {
			rt.Fatalf("unsaved work %v, found %v", dirty, found)
		}
		if dirty {
			if _, err := next.TakeRecovered(); err != nil {
				rt.Fatal(err)
			}
		}
		if !bytes.Equal(next.Bytes(), unsaved) {
			rt.Fatalf("recovered\n%s\nwas\n%s", next.Bytes(), unsaved)
		}
		if err := next.Save(); err != nil {
			rt.Fatal(err)
		}
		if err := next.Close(); err != nil {
			rt.Fatal(err)
		}
	})
}
