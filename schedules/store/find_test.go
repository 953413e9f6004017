package store

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// tree makes files, folders (ending in /) and symbolic links, these only where
// the system has them for this user.
func tree(t *testing.T, root string, paths ...string) {
	t.Helper()
	for _, p := range paths {
		full := filepath.Join(root, p)
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			t.Fatal(err)
		}
		from, to, link := strings.Cut(full, " -> ")
		switch {
		case link && !hasLinks(t):
		case link:
			if err := os.Symlink(to, from); err != nil {
				t.Fatal(err)
			}
		case strings.HasSuffix(p, "/"):
			if err := os.MkdirAll(full, 0o755); err != nil {
				t.Fatal(err)
			}
		default:
			put(t, full, "")
		}
	}
}

func TestFindBooks(t *testing.T) {
	for _, c := range []struct {
		name     string
		there    []string
		dir      string
		explicit []string
		none     bool
		want     []string // below the root
	}{
		{"none anywhere", []string{"jobs/"}, "jobs", nil, false, nil},
		{"beside", []string{"jobs/shop-book.toml"}, "jobs", nil, false, []string{"jobs/shop-book.toml"}},
		{"nearest above alone", []string{"shop-book.toml", "jobs/shop-book.toml", "jobs/a/b/"}, "jobs/a/b", nil, false, []string{"jobs/shop-book.toml"}},
		{"nearest, then the user's", []string{"jobs/shop-book.toml", ".config/veilwright/shop-book.toml"}, "jobs", nil, false, []string{"jobs/shop-book.toml", ".config/veilwright/shop-book.toml"}},
		{"the user's alone", []string{"jobs/", ".config/veilwright/shop-book.toml"}, "jobs", nil, false, []string{".config/veilwright/shop-book.toml"}},
		{"the user's is the nearest too", []string{".config/veilwright/shop-book.toml"}, ".config/veilwright", nil, false, []string{".config/veilwright/shop-book.toml"}},
		{"the user's by a link", []string{"b/shop-book.toml", ".config/veilwright/shop-book.toml -> ../../b/shop-book.toml"}, "b", nil, false, []string{"b/shop-book.toml"}},
		{"explicit ones are all", []string{"jobs/shop-book.toml"}, "jobs", []string{"x.toml", "y.toml"}, false, []string{"x.toml", "y.toml"}},
		{"none asked for", []string{"jobs/shop-book.toml", ".config/veilwright/shop-book.toml"}, "jobs", nil, true, nil},
		{"explicit and none", []string{"jobs/shop-book.toml"}, "jobs", []string{"x.toml"}, true, []string{"x.toml"}},
		{"a folder of that name is none", []string{"shop-book.toml", "jobs/shop-book.toml/"}, "jobs", nil, false, []string{"shop-book.toml"}},
		{"a link to nowhere is told", []string{"shop-book.toml", "jobs/shop-book.toml -> missing"}, "jobs", nil, false, []string{"jobs/shop-book.toml"}},
		{"a folder that is gone", []string{"shop-book.toml"}, "jobs", nil, false, []string{"shop-book.toml"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if slices.ContainsFunc(c.there, func(p string) bool { return strings.Contains(p, " -> ") }) && !hasLinks(t) {
				return
			}
			root := home(t)
			tree(t, root, c.there...)
			want := slices.Clone(c.want)
			if c.explicit == nil {
				for i := range want {
					want[i] = filepath.Join(root, want[i])
				}
			}
			got, err := FindBooks(filepath.Join(root, c.dir), c.explicit, c.none)
			if err != nil || !slices.Equal(got, want) {
				t.Errorf("FindBooks = %q, %v, want %q", got, err, want)
			}
		})
	}
}

func TestFindBooks_inThePresentFolder(t *testing.T) {
	root := home(t)
	tree(t, root, "shop-book.toml", "jobs/")
	for _, from := range []string{root, filepath.Join(root, "jobs")} {
		t.Chdir(from)
		for _, dir := range []string{"", "."} {
			got, err := FindBooks(dir, nil, false)
			if err != nil || len(got) != 1 || filepath.Base(got[0]) != BookName {
				t.Errorf("in %s: %q, %v", from, got, err)
			}
		}
	}
}

func TestFindBooks_saysWhereItCannotLook(t *testing.T) {
	if !hasLinks(t) {
		return
	}
	root := home(t)
	tree(t, root, "loop -> loop", ".config/veilwright/shop-book.toml")
	got, err := FindBooks(filepath.Join(root, "loop"), nil, false)
	if err == nil || !strings.Contains(err.Error(), "circle") || len(got) != 1 {
		t.Errorf("FindBooks = %q, %v", got, err)
	}
}

func TestList_sameWhateverTheOrderOfMaking(t *testing.T) {
	dir := t.TempDir()
	n := 0
	rapid.Check(t, func(r *rapid.T) {
		n++
		root := filepath.Join(dir, fmt.Sprint(n))
		made := rapid.SliceOfDistinct(rapid.StringMatching(`([ab]/){0,3}[a-c.-]{1,2}x\.toml`), rapid.ID[string]).Draw(r, "files")
		tree(t, root, append(made, "an empty folder/")...)
		var want []string
		for _, p := range made {
			if base := filepath.Base(p); !strings.HasPrefix(base, ".") {
				want = append(want, filepath.Join(root, p))
			}
		}
		slices.Sort(want)
		got, err := List(root)
		if err != nil || !slices.Equal(got, want) {
			r.Fatalf("List = %q, %v, want %q", got, err, want)
		}
	})
}

func TestEntries(t *testing.T) {
	root := t.TempDir()
	tree(t, root, "b.toml", "a.toml", "z/", "y.toml/", "notes.txt", ".git/", ".a.toml", "shelf -> z", "gone -> missing", "gone.toml -> missing")
	got, err := Entries(root)
	if err != nil {
		t.Fatal(err)
	}
	var want []Entry
	folders, files := []string{"shelf", "y.toml", "z"}, []string{"a.toml", "b.toml", "gone.toml"}
	if !hasLinks(t) {
		folders, files = folders[1:], files[:2]
	}
	for _, name := range folders {
		want = append(want, Entry{Name: name, Path: filepath.Join(root, name), Folder: true})
	}
	for _, name := range files {
		want = append(want, Entry{Name: name, Path: filepath.Join(root, name)})
	}
	if !slices.Equal(got, want) {
		t.Errorf("Entries = %+v", got)
	}
	if _, err := Entries(filepath.Join(root, "a.toml")); err == nil {
		t.Error("a file has entries")
	}
}
