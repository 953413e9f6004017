package stiffness_test

import (
	"math"
	"testing"

	"frp/veilwright/laminate/stiffness"
)

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

// near fails unless got is within rel of want; a NaN never is.
func near(t testing.TB, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.6g, want %.6g within %.2g of it", what, got, want, rel)
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
