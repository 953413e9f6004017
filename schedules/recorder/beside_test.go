package recorder

import (
	"os"
	"path/filepath"
	"testing"

	"frp/veilwright/laminate/record"
)

// Of the records in a folder those are named whose lay-up may go on, the latest first.
func TestUnfinished_namesWhatMayGoOn(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	folder := t.TempDir()
	write := func(name string, entries ...record.Any) {
		r, err := Begin(filepath.Join(folder, name), head())
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if err := r.Append(e); err != nil {
				t.Fatal(err)
			}
		}
		if err := r.Close(); err != nil {
			t.Fatal(err)
		}
	}
	decide := func(o record.Outcome, minute int) *record.Decision {
		return &record.Decision{Entry: by("inspector", minute), Outcome: o, Why: "w"}
	}
	write("a-begun.toml")
	write("b-one.toml", tick(1))
	write("c-two-of-them-once-again.toml", tick(1), tick(2), tick(2))
	write("d-all.toml", tick(1), tick(2), tick(3))
	write("e-accepted.toml", tick(1), decide(record.Accept, 9))
	write("f-rejected.toml", tick(1), decide(record.Reject, 9))
	write("g-repaired.toml", tick(1), decide(record.Reject, 9), &record.Disposition{Entry: by("inspector", 10), Of: 2, Action: record.Repair, Why: "w"})
	write("h-scrapped.toml", tick(1), decide(record.Reject, 9), &record.Disposition{Entry: by("inspector", 10), Of: 2, Action: record.Scrap, Why: "w"})
	write("i-beyond.toml", tick(1), tick(2), tick(4))
	for name, text := range map[string]string{"k.toml": "document = \"schedule\"\n", "l.toml": "what", "m.txt": ""} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	all := Lying(folder, 3, func(r *record.Record) bool { return r.Serial == "D-1" })
	over := map[string]string{}
	for _, b := range all {
		if over[filepath.Base(b.Path)] = b.Over; b.Over == "" {
			delete(over, filepath.Base(b.Path))
		}
	}
	if len(over) != 4 || over["d-all.toml"] != "all plies laid" || over["e-accepted.toml"] != "accepted" || over["f-rejected.toml"] != "rejected" || over["h-scrapped.toml"] != "rejected" {
		t.Errorf("over: %v", over)
	}
	var got []string
	for _, b := range Unfinished(all) {
		got = append(got, filepath.Base(b.Path))
		if want := map[string]int{"a-begun.toml": 0, "b-one.toml": 1, "c-two-of-them-once-again.toml": 2, "g-repaired.toml": 1, "i-beyond.toml": 2}[got[len(got)-1]]; len(b.Laid) != want {
			t.Errorf("%s: laid %v", b.Path, b.Laid)
		}
	}
	want := []string{"g-repaired.toml", "i-beyond.toml", "c-two-of-them-once-again.toml", "b-one.toml", "a-begun.toml"}
	if len(got) != len(want) {
		t.Fatalf("%v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Fatalf("%v, want %v", got, want)
		}
	}
	if list := Lying(folder, 3, func(r *record.Record) bool { return r.Serial == "D-2" }); list != nil {
		t.Errorf("of another: %v", list)
	}
}
