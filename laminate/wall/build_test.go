package wall_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall"
)

type source struct {
	Source     string `json:"source"`
	FromMemory bool   `json:"from_memory"`
	Note       string `json:"note"`
}

// load reads a file of check values strictly and logs where they come from.
func load(t testing.TB, folder, name string, into any) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", folder, name))
	if err != nil {
		t.Fatal(err)
	}
	var head source
	if err := json.Unmarshal(b, &head); err != nil || head.Source == "" {
		t.Fatalf("%s names no source (%v)", name, err)
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	t.Log(head.Source)
}

func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6g, want %.6g ± %.2g", what, got, want, tol)
	}
}

var (
	in   = quantity.Inch
	ft   = quantity.Foot
	psi  = quantity.PSI
	degF = quantity.Fahrenheit
)

func loadCase(t testing.TB, r *wall.Result, name string) wall.Case {
	t.Helper()
	for _, c := range r.Cases {
		if c.Name == name {
			return c
		}
	}
	t.Fatalf("no case %s among %+v", name, r.Cases)
	return wall.Case{}
}
