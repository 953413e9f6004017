package schedules

import (
	"bytes"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// anyDocument draws an example document in one of the manners files come in.
func anyDocument(all map[string][]byte) *rapid.Generator[[]byte] {
	var names []string
	for n := range all {
		names = append(names, n)
	}
	slices.Sort(names)
	return rapid.Custom(func(t *rapid.T) []byte {
		b := slices.Clone(all[rapid.SampledFrom(names).Draw(t, "document")])
		if rapid.Bool().Draw(t, "crlf") {
			b = crlf(b)
		}
		if rapid.Bool().Draw(t, "no last line end") {
			b = bytes.TrimRight(b, "\r\n")
		}
		if rapid.Bool().Draw(t, "mark") {
			b = append([]byte("\ufeff"), b...)
		}
		return b
	})
}

var anyText = rapid.StringMatching(`[a-zA-Z0-9 "'\\#=\[\]äß°]{0,12}`)

func anyPly(t *rapid.T, s *laminate.Schedule) laminate.Ply {
	p := laminate.Ply{Material: rapid.SampledFrom([]string{"mat-1.5", "veil-c-10", "woven-24", `odd "id" [1]`}).Draw(t, "material"),
		Count: rapid.IntRange(1, 5).Draw(t, "count")}
	if len(s.Resins) > 0 {
		p.Resin = s.Resins[rapid.IntRange(0, len(s.Resins)-1).Draw(t, "resin")].ID
	}
	return p
}

// edit makes one change that leaves the schedule usable.
func edit(t *rapid.T, s *laminate.Schedule) *laminate.Schedule {
	s = s.Clone()
	n := len(s.Plies)
	row := func() int { return rapid.IntRange(0, n-1).Draw(t, "row") }
	what := rapid.SampledFrom([]string{"insert", "delete", "move", "duplicate", "count", "angle", "zone", "gel", "share", "reverse",
		"title", "notes", "diameter", "flanged", "ph", "contains", "add resin", "drop resin", "swap resins", "cure", "clear part", "add material", "drop materials"}).Draw(t, "edit")
	if n == 0 && slices.Contains([]string{"delete", "move", "duplicate", "count", "angle", "zone", "gel", "share"}, what) {
		what = "insert"
	}
	switch what {
	case "insert":
		s.Plies = slices.Insert(s.Plies, rapid.IntRange(0, n).Draw(t, "at"), anyPly(t, s))
	case "delete":
		i := row()
		s.Plies = slices.Delete(s.Plies, i, i+1)
	case "move":
		i := row()
		p := s.Plies[i]
		s.Plies = slices.Delete(s.Plies, i, i+1)
		s.Plies = slices.Insert(s.Plies, rapid.IntRange(0, n-1).Draw(t, "to"), p)
	case "duplicate":
		s.Plies = append(s.Plies, s.Plies[row()])
	case "count":
		s.Plies[row()].Count = rapid.IntRange(1, 9).Draw(t, "count")
	case "angle":
		if i := row(); s.Plies[i].Material != "shop-mat" { // the document's own chopped mat has no direction
			s.Plies[i].Angle = laminate.Optional[float64]{Value: 0, Given: rapid.Bool().Draw(t, "given")}
		}
	case "zone":
		s.Plies[row()].Zone = rapid.SampledFrom(append(laminate.Zones.All(), laminate.NoZone)).Draw(t, "zone")
	case "gel":
		s.Plies[row()].GelAfter = rapid.Bool().Draw(t, "gel")
	case "share":
		s.Plies[row()].GlassContent = laminate.Some(rapid.Float64Range(0.01, 0.95).Draw(t, "share"))
	case "reverse":
		slices.Reverse(s.Plies)
	case "title":
		s.Title = anyText.Draw(t, "title")
	case "notes":
		s.Notes = strings.Join(rapid.SliceOfN(anyText, 0, 3).Draw(t, "notes"), "\n")
	case "diameter":
		s.Part.InsideDiameter = quantity.New(rapid.Float64Range(1, 100).Draw(t, "inches"), quantity.Inch).Spelled(quantity.Inch)
	case "flanged":
		s.Part.Flanged = laminate.Optional[bool]{Given: rapid.Bool().Draw(t, "given")}
	case "ph":
		s.Service.PH = laminate.PHRange{Lowest: -1, Highest: rapid.Float64Range(0, 15).Draw(t, "ph"), Given: true}
	case "contains":
		s.Service.Contains = laminate.TraitSet(rapid.SliceOfN(rapid.SampledFrom(laminate.TraitWords.All()), 0, 3).Draw(t, "traits")...)
	case "add resin":
		s.Resins = append(s.Resins, laminate.Resin{ID: "new" + strings.Repeat("x", len(s.Resins)), Family: laminate.Chlorendic})
	case "drop resin":
		used := map[string]bool{}
		for _, p := range s.Plies {
			used[p.Resin] = true
		}
		s.Resins = slices.DeleteFunc(s.Resins, func(r laminate.Resin) bool { return !used[r.ID] })
	case "swap resins":
		slices.Reverse(s.Resins)
	case "cure":
		for i := range s.Resins {
			s.Resins[i].Cure = rapid.SampledFrom([]laminate.Cure{laminate.NoCure, laminate.PeroxideAmine}).Draw(t, "cure")
		}
	case "clear part":
		s.Part = laminate.Part{}
	case "add material":
		s.Materials = append(s.Materials, laminate.Material{ID: "m" + strings.Repeat("x", len(s.Materials)), Form: laminate.ResinCoat,
			Thickness: quantity.New(10, quantity.Mil).Spelled(quantity.Mil), Waxed: rapid.Bool().Draw(t, "waxed")})
	case "drop materials":
		s.Materials = nil
	}
	// Not given has no value: that is how it reads back.
	for i := range s.Plies {
		if !s.Plies[i].Angle.Given {
			s.Plies[i].Angle = laminate.Optional[float64]{}
		}
	}
	return s
}

func TestRender_anyEditsReadBackAndUndoToTheSameBytes(t *testing.T) {
	all := documents(t)
	rapid.Check(t, func(t *rapid.T) {
		b := anyDocument(all).Draw(t, "bytes")
		src, s, problems := Decode(b, nil)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		steps := []*laminate.Schedule{s}
		for range rapid.IntRange(1, 8).Draw(t, "edits") {
			steps = append(steps, edit(t, steps[len(steps)-1]))
		}
		for i := len(steps) - 1; i >= 0; i-- {
			text := src.Render(steps[i])
			_, back, problems := Decode(text, nil)
			if len(problems) > 0 {
				t.Fatalf("%v in\n%s", problems, text)
			}
			if a, b := bare(back), bare(steps[i]); !reflect.DeepEqual(a, b) {
				t.Fatalf("reads back as\n%+v\nnot\n%+v\nfrom\n%s", a, b, text)
			}
			if i == 0 && !bytes.Equal(text, b) {
				t.Fatalf("undone it is\n%s", text)
			}
			if again := src.Render(steps[i]); !bytes.Equal(again, text) {
				t.Fatal("twice gives other bytes")
			}
			tidy, problems := Tidy(text, nil)
			twice, _ := Tidy(tidy, nil)
			if len(problems) > 0 || !bytes.Equal(tidy, twice) {
				t.Fatalf("%v: tidied once\n%s\ntwice\n%s", problems, tidy, twice)
			}
		}
	})
}

func TestRender_commentsSurviveEveryEditThatDeletesNothing(t *testing.T) {
	all := documents(t)
	for _, odd := range []string{"inline-tables.toml", "odd-comments.toml"} {
		delete(all, odd) // their comments move where a table is rewritten
	}
	rapid.Check(t, func(t *rapid.T) {
		b := anyDocument(all).Draw(t, "bytes")
		src, s, _ := Decode(b, nil)
		now := s.Clone()
		now.Plies = rapid.Permutation(now.Plies).Draw(t, "order")
		for range rapid.IntRange(0, 3).Draw(t, "new") {
			now.Plies = slices.Insert(now.Plies, rapid.IntRange(0, len(now.Plies)).Draw(t, "at"), anyPly(t, now))
		}
		for i := range now.Plies {
			now.Plies[i].Count++
		}
		text := src.Render(now)
		if a, b := commentsOf(b), commentsOf(text); !slices.Equal(a, b) {
			t.Fatalf("comments were\n%q, are\n%q in\n%s", a, b, text)
		}
	})
}
