package gather_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"frp/veilwright/cmd/internal/gather"
)

const limit = 1 << 20

func names(found []gather.Input) []string {
	var n []string
	for _, in := range found {
		n = append(n, filepath.ToSlash(in.Name))
	}
	return n
}

func put(t *testing.T, path, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestFind_searchesFoldersSortedAndNotIntoDotFolders(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, f := range []string{"jobs/b.toml", "jobs/a.toml", "jobs/deep/er/c.toml", "jobs/.git/d.toml", "jobs/notes.txt", "jobs/.hidden.toml", "z.toml"} {
		put(t, f, "x")
	}
	if err := os.Symlink("../z.toml", "jobs/link.toml"); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("..", "jobs/deep/loop"); err != nil {
		t.Fatal(err)
	}
	got := names(gather.Find([]string{"z.toml", "jobs", "-", "gone.toml"}, strings.NewReader(""), limit))
	want := []string{"z.toml", "jobs/.hidden.toml", "jobs/a.toml", "jobs/b.toml", "jobs/deep/er/c.toml", "jobs/link.toml", "-", "gone.toml"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestFind_followsALinkedFolderThatIsNamed(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "real/a.toml", "x")
	if err := os.Symlink("real", "linked"); err != nil {
		t.Fatal(err)
	}
	if got := names(gather.Find([]string{"linked"}, nil, limit)); len(got) != 1 || got[0] != "linked/a.toml" {
		t.Errorf("found %q", got)
	}
}

func TestFind_saysThatAFolderHoldsNothing(t *testing.T) {
	found := gather.Find([]string{t.TempDir()}, nil, limit)
	if len(found) != 1 || !found[0].Nothing {
		t.Errorf("found %+v", found)
	}
}

func TestRead_saysInOneSentenceWhatIsWrong(t *testing.T) {
	t.Chdir(t.TempDir())
	put(t, "big.toml", strings.Repeat("#", limit+1))
	if err := os.Symlink("nowhere", "dangling.toml"); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"gone.toml":     "does not exist",
		"dangling.toml": "does not exist",
		"big.toml":      "is larger than 1 MiB, the most a document may have",
		"/dev/zero":     "is larger than 1 MiB, the most a document may have",
	} {
		found := gather.Find([]string{name}, nil, limit)
		_, err := found[0].Read()
		if err == nil || err.Error() != want {
			t.Errorf("%s: got %v, want %s", name, err, want)
		}
	}
}

func TestRead_takesStandardInputAndExactlyTheLimit(t *testing.T) {
	for _, size := range []int{0, 1, limit} {
		found := gather.Find([]string{"-"}, strings.NewReader(strings.Repeat("#", size)), limit)
		text, err := found[0].Read()
		if err != nil || len(text) != size {
			t.Errorf("%d bytes: got %d, %v", size, len(text), err)
		}
	}
}
