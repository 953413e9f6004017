package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

// Where the locale is no UTF-8, commands print ASCII; documents stay as they are.
func TestLocale_withoutUTF8CommandsPrintASCII(t *testing.T) {
	in := func(args ...string) (string, string) {
		var out, said bytes.Buffer
		Run(args, Process{Out: &out, Err: &said, Getenv: func(name string) string {
			return map[string]string{"LC_ALL": "C", "LANG": "C.UTF-8"}[name]
		}})
		return out.String(), said.String()
	}
	path := filepath.Join(t.TempDir(), "a.toml")
	text, _ := in("new", "--example")
	text = "# ° stays\n" + text
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"check", path}, {"wall", path}, {"takeoff", path}, {"advise", path}, {"winding", path}, {"catalog"}, {"rules"},
		{"rules", "veil-missing"}, {"practice", "--glossary"}, {"practice", "--course", "1"}, {"print", "lay-up-sheet", path}, {"--help"},
	} {
		out, said := in(args...)
		if out+said == "" {
			t.Errorf("%v prints nothing", args)
		}
		for _, b := range []byte(out + said) {
			if b >= 0x80 {
				t.Errorf("%v prints %q", args, out+said)
				break
			}
		}
	}
	if out, _ := in("diff", path, path); out == "" {
		t.Error("diff prints nothing")
	}
	b, err := os.ReadFile(path)
	if err != nil || string(b) != text {
		t.Errorf("the document is %q, %v", b, err)
	}
}
