package schedules

import (
	"bytes"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/word"
)

// FuzzDecode wants no panic, lines inside the file, printable problems, and of
// whatever is taken that it comes back byte for byte and tidies once for all.
func FuzzDecode(f *testing.F) {
	for _, b := range documents(f) {
		f.Add(b)
	}
	f.Add([]byte(shopBook))
	f.Add([]byte(small))
	f.Add([]byte(head + "[[ply]]\nmaterial.x = 1\n[ply.zone]\n[a.b]\nc=[{d=1}]"))
	f.Add([]byte(head + "ply = [{material='a'}, 1]\npart.form.x = 1"))
	lib := catalog.Library()
	f.Fuzz(func(t *testing.T, b []byte) {
		Sniff(b)
		src, s, problems := Decode(b, lib)
		DecodeBook(b)
		lines := 1 + bytes.Count(b, []byte("\n"))
		for _, p := range problems {
			if r, bad := word.BadCharacter(p.String(), false); bad || p.Line > lines || p.Message == "" {
				t.Fatalf("problem %+v (%U) of %d lines", p, r, lines)
			}
		}
		if s == nil && len(problems) == 0 {
			t.Fatal("neither a schedule nor a problem")
		}
		if s == nil {
			return
		}
		if src.Partial() {
			Decode(src.Render(s), lib) // says what was read, and can be read itself
			return
		}
		if got := src.Render(s); !bytes.Equal(got, b) {
			t.Fatalf("came back as %q", got)
		}
		laminate.Analyze(s, lib)
		if len(problems) > 0 {
			return
		}
		now := s.Clone()
		now.Title += "x"
		now.Plies = append([]laminate.Ply{{Material: "m", Count: 1}}, now.Plies...)
		if len(now.Title) < 10_000 && now.NumberOfPlies() <= laminate.MostPlies && len(now.Plies) <= laminate.MostRows {
			says(t, src.Render(now), now)
		}
		tidy, problems := Tidy(b, nil)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if twice, problems := Tidy(tidy, nil); !bytes.Equal(tidy, twice) {
			t.Fatalf("%v: tidied once %q, twice %q", problems, tidy, twice)
		}
		says(t, tidy, s)
	})
}
