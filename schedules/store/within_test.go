package store

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestWithin_readsNothingOutsideTheFolder(t *testing.T) {
	top := t.TempDir()
	folder := filepath.Join(top, "job")
	for name, text := range map[string]string{"outside.toml": "secret", "job/a.toml": "a", "job/deep/b.toml": "b"} {
		path := filepath.Join(top, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	inside := map[string]string{"a.toml": "a", "deep/b.toml": "b", "./deep/../a.toml": "a"}
	outside := map[string]string{"../outside.toml": "outside", filepath.Join(top, "outside.toml"): "outside", "gone.toml": "exist", "deep": "folder"}
	if hasLinks(t) {
		for link, to := range map[string]string{"inside.toml": "a.toml", "out.toml": "../outside.toml", "up": ".."} {
			if err := os.Symlink(to, filepath.Join(folder, link)); err != nil {
				t.Fatal(err)
			}
		}
		inside["inside.toml"] = "a"
		outside["out.toml"], outside["up/outside.toml"] = "outside", "outside"
	}
	for name, want := range inside {
		if got, err := Within(folder, name); string(got.Bytes) != want || err != nil {
			t.Errorf("%s: %q %v, want %q", name, got.Bytes, err, want)
		}
	}
	for name, why := range outside {
		if got, err := Within(folder, name); got.Bytes != nil || err == nil || !strings.Contains(err.Error(), why) {
			t.Errorf("%s: %q %v, want an error with %q", name, got.Bytes, err, why)
		}
	}
}
