package shop_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
)

// Tidying writes zones out where they followed from the sequence. Nothing is
// found otherwise by that, but that they were not written. What fixes a finding
// may be another thing: a ply added moves zones that follow from the sequence,
// and none that are written.
func TestTidy_changesNoFinding(t *testing.T) {
	const zones = "zones-inferred"
	said := func(t *rapid.T, text []byte) string {
		o := shop.New(shop.Options{NoBook: true}).Open("a.toml", text, ".")
		if !o.Usable() {
			t.Fatalf("%s\n%s", o.Why(), text)
		}
		r := rules.Judge(all.Rules(), o.Schedule, o.Library, rules.Options{})
		var b strings.Builder
		for _, f := range r.Findings {
			if f.Rule.ID == zones {
				continue
			}
			fmt.Fprintln(&b, f.Severity, f.Rule.ID, f.Rows, f.Message)
		}
		return b.String()
	}
	rapid.Check(t, func(t *rapid.T) {
		text, _, _ := strings.Cut(plain, "[[ply]]")
		text = strings.Replace(text, "10 psi", fmt.Sprint(rapid.IntRange(0, 300).Draw(t, "pressure"))+" psi", 1)
		text = strings.Replace(text, "[6, 8]", rapid.SampledFrom([]string{"[6, 8]", "[0, 1]", "[13, 14]"}).Draw(t, "ph"), 1)
		text = strings.Replace(text, "contains = []", rapid.SampledFrom([]string{"contains = []", `contains = ["fluorides"]`, `contains = ["solvent"]`}).Draw(t, "contains"), 1)
		for range rapid.IntRange(1, 6).Draw(t, "rows") {
			text += fmt.Sprintf("[[ply]]\nmaterial = %q\nresin = \"ve\"\ncount = %d\n",
				rapid.SampledFrom([]string{"veil-c-15", "veil-polyester-15", "mat-1.5", "mat-0.75", "woven-24", "chop-1.5", "topcoat"}).Draw(t, "material"), rapid.IntRange(1, 15).Draw(t, "count"))
		}
		o := shop.New(shop.Options{NoBook: true}).Open("a.toml", []byte(text), ".")
		tidy, problems := schedules.Tidy([]byte(text), o.Library)
		if len(problems) > 0 {
			t.Fatalf("%v\n%s", problems, text)
		}
		if a, b := said(t, []byte(text)), said(t, tidy); a != b {
			t.Fatalf("before:\n%s\nafter:\n%s\nof\n%s", a, b, text)
		}
	})
}
