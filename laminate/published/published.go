// Package published reads the check values of testdata for tests: figures from
// outside the project, each file with its source.
package published

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// Head heads every file of check values; what a file is read into embeds it.
type Head struct {
	Source     string `json:"source"`
	FromMemory bool   `json:"from_memory"`
	Note       string `json:"note"`
}

// Load reads a file of testdata, such as "vessel/heads.json", strictly and logs
// where its values come from. A file that names no source fails the test.
func Load(t testing.TB, file string, into any) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join(root(t), "testdata", filepath.FromSlash(file)))
	if err != nil {
		t.Fatal(err)
	}
	var head Head
	if err := json.Unmarshal(b, &head); err != nil || head.Source == "" {
		t.Fatalf("%s names no source (%v)", file, err)
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	if head.FromMemory {
		t.Logf("%s (from memory)", head.Source)
		return
	}
	t.Log(head.Source)
}

// root is the folder of the module that the test runs in.
func root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		if up := filepath.Dir(dir); up != dir {
			dir = up
			continue
		}
		t.Fatal("no go.mod above the test")
	}
}

// Failing is a test, of package testing or of properties.
type Failing interface {
	Helper()
	Errorf(format string, args ...any)
}

// Near wants got to be within tol of want, commonly half a unit of the last printed
// place; a NaN never is.
func Near(t Failing, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.9g, want %.9g ± %.2g", what, got, want, tol)
	}
}
