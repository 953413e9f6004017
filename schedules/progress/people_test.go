package progress_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"frp/veilwright/rules/practice"
	"frp/veilwright/schedules/progress"
)

func TestPeople(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", t.TempDir())
	if got, err := progress.People(); err != nil || len(got) != 0 {
		t.Fatalf("nobody yet: %v, %v", got, err)
	}
	entry := practice.Entry{Exercise: "a-rinse", Step: 1, Score: 1}
	for i, name := range []string{"Old Hand", "new.hand"} {
		if err := progress.Add(name, entry); err != nil {
			t.Fatal(err)
		}
		path, err := progress.File(name)
		if err != nil {
			t.Fatal(err)
		}
		when := time.Date(2026, 3, 1+i, 0, 0, 0, 0, time.UTC)
		if err := os.Chtimes(path, when, when); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(filepath.Dir(path), "-no person.txt"), nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	got, err := progress.People()
	if want := []string{"new.hand", "Old Hand"}; err != nil || !slices.Equal(got, want) {
		t.Errorf("%v, %v; want %v", got, err, want)
	}
}
