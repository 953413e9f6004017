package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/editor"
	"frp/veilwright/schedules/shop"
	"frp/veilwright/schedules/shop/shoptest"
)

// said is what somebody says of a document.
type said struct {
	verdict  string
	problems []string
}

func problemsOf(list []schedules.Problem) []string {
	var all []string
	for _, p := range list {
		all = append(all, p.String())
	}
	return all
}

// checked is what check says; nothing of a sound document that is no schedule.
func checked(t *rapid.T, path string) said {
	var out bytes.Buffer
	Run([]string{"check", "--json", path}, Process{Out: &out, Err: io.Discard, Getenv: os.Getenv})
	var reports []report.Schedule
	if err := json.Unmarshal(out.Bytes(), &reports); err != nil || len(reports) > 1 {
		t.Fatalf("%v in %s", err, out.Bytes())
	}
	if len(reports) == 0 {
		return said{}
	}
	s := said{verdict: reports[0].Verdict}
	for _, p := range reports[0].Problems {
		s.problems = append(s.problems, schedules.Problem{Line: p.Line, Key: p.Key, Message: p.Message}.String())
	}
	return s
}

// opened is what the bench says, which refuses what it cannot show.
func opened(t *rapid.T, path string) said {
	d, err := editor.Open(path, nil)
	var refused *editor.ProblemsError
	switch {
	case errors.As(err, &refused) && len(refused.Problems) == 0:
		return said{} // of another kind
	case errors.As(err, &refused):
		return said{"unusable", problemsOf(refused.Problems)}
	case err != nil:
		t.Fatal(err)
	}
	r := d.Report()
	verdict := r.Verdict
	if d.Job() != nil {
		verdict = d.JobReport().Verdict
	}
	s := said{verdict.String(), problemsOf(d.Problems())}
	if len(s.problems) > 0 {
		var found []string
		for i := range r.Findings {
			found = append(found, r.Findings[i].Message)
		}
		if !slices.Equal(found, s.problems) {
			t.Fatalf("the bench lists %q, and the problems are %q", found, s.problems)
		}
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	return s
}

// The same file is judged the same with and without a screen, broken ones
// included (the folder's list is held to it in tui/internal/app).
func TestCheckAndBench_sayTheSameOfAnyFile(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(dir, "config"))
	t.Setenv("XDG_STATE_HOME", filepath.Join(dir, "state"))
	path := filepath.Join(dir, "any.toml")
	corpus := shoptest.Corpus(t, "../../..")
	hold := func(t *rapid.T, text []byte) {
		if err := os.WriteFile(path, text, 0o600); err != nil {
			t.Fatal(err)
		}
		check, bench := checked(t, path), opened(t, path)
		var one *shop.Shop
		o := one.Read(path)
		if check.verdict == "" && o.Usable() && o.Kind != schedules.Schedule {
			return
		}
		if check.verdict != bench.verdict && (bench.verdict != "" || o.Kind == schedules.Schedule) || bench.verdict != "" && !slices.Equal(check.problems, bench.problems) {
			t.Fatalf("check says %s %q, the bench %s %q of\n%s", check.verdict, check.problems, bench.verdict, bench.problems, text)
		}
	}
	rapid.Check(t, func(t *rapid.T) { hold(t, shoptest.Accident(corpus).Draw(t, "text")) })
}

// What nobody knows, and a band without an angle, are not a matter of the rules.
func TestCheckAndBench_refuseWhatTheLibraryHasNot(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("XDG_STATE_HOME", filepath.Join(dir, "state"))
	const text = "document = \"schedule\"\nformat = 1\n[[resin]]\nid = \"r\"\nfamily = \"vinyl-ester\"\n"
	for name, ply := range map[string]string{"unknown": "material = \"veil-nope\"\nresin = \"r\"\n", "no angle": "material = \"band-helical\"\nresin = \"r\"\n"} {
		path := filepath.Join(dir, "unk.toml")
		if err := os.WriteFile(path, []byte(text+"[[ply]]\n"+ply), 0o600); err != nil {
			t.Fatal(err)
		}
		d, err := editor.Open(path, nil)
		if err != nil {
			t.Fatalf("%s: it cannot be mended on the bench: %v", name, err)
		}
		if got := d.Report(); got.Verdict.String() != "unusable" || len(got.Findings) != 1 || len(got.Findings[0].Rows) != 1 || got.Findings[0].Rows[0] != 0 {
			t.Errorf("%s: the bench says %s with %+v", name, got.Verdict, got.Findings)
		}
		if code := Run([]string{"check", path}, Process{Out: io.Discard, Err: io.Discard, Getenv: os.Getenv}); code != Unusable {
			t.Errorf("%s: check ends with %v", name, code)
		}
		if err := d.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
