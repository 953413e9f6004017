package stiffness_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"frp/veilwright/laminate/stiffness"
)

// source heads every file of check values.
type source struct {
	Source     string `json:"source"`
	FromMemory bool   `json:"from_memory"`
	Note       string `json:"note"`
}

type constituentGPa struct {
	E  float64 `json:"e_gpa"`
	Nu float64 `json:"nu"`
}

func (c constituentGPa) si() stiffness.Constituent {
	return stiffness.Constituent{E: c.E * 1e9, Nu: c.Nu}
}

type plyGPa struct {
	E1   float64 `json:"e1_gpa"`
	E2   float64 `json:"e2_gpa"`
	G12  float64 `json:"g12_gpa"`
	Nu12 float64 `json:"nu12"`
}

func (p plyGPa) si() stiffness.Ply {
	return stiffness.Ply{E1: p.E1 * 1e9, E2: p.E2 * 1e9, G12: p.G12 * 1e9, Nu12: p.Nu12}
}

// load reads a file of check values strictly and logs where they come from.
func load(t testing.TB, name string, into any) {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "stiffness", name))
	if err != nil {
		t.Fatal(err)
	}
	var head source
	if err := json.Unmarshal(b, &head); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if head.Source == "" {
		t.Fatalf("%s names no source", name)
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	memory := ""
	if head.FromMemory {
		memory = " (from memory)"
	}
	t.Logf("%s%s", head.Source, memory)
}

// near fails unless got is within rel of want; a NaN never is.
func near(t testing.TB, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.6g, want %.6g within %.2g of it", what, got, want, rel)
	}
}

// nearAbs fails unless got is within tol of want.
func nearAbs(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6g, want %.6g ± %.2g", what, got, want, tol)
	}
}

func stack(p stiffness.Ply, t float64, angles ...float64) []stiffness.Layer {
	out := make([]stiffness.Layer, len(angles))
	for i, a := range angles {
		out[i] = stiffness.Layer{Ply: p, Angle: a, Thickness: t}
	}
	return out
}

func mustNew(t testing.TB, layers []stiffness.Layer) *stiffness.Laminate {
	t.Helper()
	l, err := stiffness.New(layers)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// eGlass is an ordinary E-glass/vinyl ester ply at half fiber by volume, for
// tests that need any ply.
var eGlass = stiffness.Ply{E1: 38e9, E2: 10e9, G12: 3.3e9, Nu12: 0.29}

var (
	glass = stiffness.Constituent{E: 72.4e9, Nu: 0.22}
	resin = stiffness.Constituent{E: 3.3e9, Nu: 0.36}
)
