package settings_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/settings"
)

// Whatever stands in the file: it is read, nothing in it that is no text reaches
// a screen, and what is saved reads the same.
func FuzzLoad(f *testing.F) {
	f.Add("# mine\ntheme = \"light\"\nunits = si\nname = \"A. N. Other\"\nrack = \"mat-1.5 - woven-24\"\n")
	f.Add("name = \"\\x1b[2J\"\r\nname=`raw`\ntheme = 'd'\n= \"x\"\n")
	f.Add("name = \"\\x1b[2J\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		dir := t.TempDir()
		t.Setenv("XDG_CONFIG_HOME", dir)
		t.Setenv("XDG_STATE_HOME", dir)
		file := filepath.Join(dir, "veilwright", "settings.toml")
		if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		s, err := settings.Load()
		values := func(s settings.Settings) []string { return []string{s.Theme, s.Units, s.Name, s.Rack} }
		for _, v := range values(s) {
			if r, bad := word.BadCharacter(v, false); bad {
				t.Fatalf("%q has %U", v, r)
			}
		}
		if err != nil {
			if r, bad := word.BadCharacter(err.Error(), true); bad {
				t.Fatalf("%q has %U", err, r)
			}
		}
		if err := s.Save(); err != nil {
			t.Fatal(err)
		}
		again, err := settings.Load()
		if err != nil || !slices.Equal(values(again), values(s)) {
			t.Fatalf("saved %q, read %q, %v", values(s), values(again), err)
		}
		if left, err := os.ReadDir(filepath.Dir(file)); err != nil || len(left) != 1 {
			t.Fatalf("beside it lie %v, %v", left, err)
		}
	})
}
