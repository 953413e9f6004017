package settings_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"frp/veilwright/schedules/settings"
)

func home(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	t.Setenv("XDG_CONFIG_HOME", filepath.Join(dir, "config"))
	t.Setenv("XDG_STATE_HOME", filepath.Join(dir, "state"))
	return dir
}

func TestSettings_readBackWhatIsSavedAndKeepOtherLines(t *testing.T) {
	dir := home(t)
	file := filepath.Join(dir, "config", "veilwright", "settings.toml")
	if s, err := settings.Load(); err != nil || s.Theme != "" {
		t.Errorf("without a file: %+v, %v", s, err)
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte("# mine\ntheme = \"light\"\nunits = si\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := settings.Load()
	if s.Theme != "light" || err == nil || !strings.Contains(err.Error(), "settings.toml:3: units") {
		t.Errorf("%+v, %v", s, err)
	}
	s.Units, s.Name = "si", `J. "Jo" Doe`
	if err := s.Save(); err != nil {
		t.Fatal(err)
	}
	again, err := settings.Load()
	if err != nil || again.Theme != "light" || again.Units != "si" || again.Name != s.Name {
		t.Errorf("%+v, %v", again, err)
	}
	if text, _ := os.ReadFile(file); !strings.HasPrefix(string(text), "# mine\n") {
		t.Errorf("the comment is gone:\n%s", text)
	}
}

func TestRecents_areTheLastFirstEachOnceAndOnlyWhatIsThere(t *testing.T) {
	dir := home(t)
	for _, name := range []string{"a.toml", "b.toml", "a.toml", "gone.toml"} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := settings.Remember(settings.Recent{Path: path, Title: name, When: time.Unix(1, 0)}); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(filepath.Join(dir, "gone.toml")); err != nil {
		t.Fatal(err)
	}
	list := settings.Recents()
	if len(list) != 2 || list[0].Title != "a.toml" || list[1].Title != "b.toml" {
		t.Errorf("%+v", list)
	}
}
