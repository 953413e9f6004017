package stiffness

import "fmt"

// Constituent is fiber or resin, isotropic. Carbon fiber is not: its E2 and
// G12 come out too high here, and a ply of it is better given by test values.
type Constituent struct {
	E  float64 // Young's modulus, Pa
	Nu float64 // Poisson's ratio, above -1 and below 0.5
}

// G returns the shear modulus in Pa.
func (c Constituent) G() float64 { return c.E / (2 * (1 + c.Nu)) }

func (c Constituent) check(name string) error {
	if !within(c.E, minModulus, maxModulus) {
		return checkModulus(name+" modulus", c.E)
	}
	// The shear modulus must exist and stay inside the moduli's own domain.
	if !(c.Nu > -1 && c.Nu < 0.5) {
		return &DomainError{name + " Poisson's ratio", c.Nu, "above -1 and below 0.5"}
	}
	if !within(c.G(), minModulus, maxModulus) {
		return checkModulus(name+" shear modulus", c.G())
	}
	return nil
}

func checkMix(fiber, matrix Constituent, vf float64) error {
	if err := fiber.check("fiber"); err != nil {
		return err
	}
	if err := matrix.check("resin"); err != nil {
		return err
	}
	if !within(vf, 0, 1) {
		return &DomainError{"fiber volume fraction", vf, "from 0 to 1"}
	}
	return nil
}

// halpinTsai returns a property between pm (vf 0) and pf (vf 1).
//
// Source: Halpin & Kardos, The Halpin-Tsai Equations: A Review, Polymer
// Engineering and Science 16 (1976).
func halpinTsai(pf, pm, xi, vf float64) float64 {
	r := pf / pm
	eta := (r - 1) / (r + xi)
	return pm * (1 + xi*eta*vf) / (1 - eta*vf)
}

// Unidirectional returns the ply of straight, parallel fiber at the fiber
// volume fraction vf, from 0 (resin alone) to 1: E1 and ν12 by the rule of
// mixtures, E2 by Halpin–Tsai with ξ = 2, G12 with ξ = 1. Round fibers cannot be
// packed beyond about 0.9; the function goes to 1 because its limit is known.
//
// Source: Halpin & Kardos 1976; ξ as given there for round fibers in a square
// array.
func Unidirectional(fiber, matrix Constituent, vf float64) (Ply, error) {
	if err := checkMix(fiber, matrix, vf); err != nil {
		return Ply{}, fmt.Errorf("unidirectional ply: %w", err)
	}
	p := unidirectional(fiber, matrix, vf)
	if err := p.Check(); err != nil {
		return Ply{}, fmt.Errorf("unidirectional ply: %w", err)
	}
	return p, nil
}

func unidirectional(fiber, matrix Constituent, vf float64) Ply {
	return Ply{
		E1:   vf*fiber.E + (1-vf)*matrix.E,
		E2:   halpinTsai(fiber.E, matrix.E, 2, vf),
		G12:  halpinTsai(fiber.G(), matrix.G(), 1, vf),
		Nu12: vf*fiber.Nu + (1-vf)*matrix.Nu,
	}
}

// Random returns the ply of fiber lying every way in the plane (chopped mat,
// sprayed chop, veil), alike in all directions, from the moduli that a
// unidirectional ply has at the same fiber volume fraction vf, from 0 to 1:
// E = 3/8 E1 + 5/8 E2, G = 1/8 E1 + 1/4 E2, ν = E/2G − 1. ν lies between 1/4 and
// 1/2 whatever the constituents; even at vf 0 it is 1/3 and not the resin's.
//
// It tends high: E is 8 to 11 % above the exact average of the unidirectional
// stiffness over all directions at 10 to 30 % fiber, strands are neither endless
// nor straight, and the unit modulus of mat in BS 4994, 14 000 N/mm per kg/m² and
// meant to design by, is some 30 % below it.
//
// Source: Akasaka; Agarwal & Broutman, Analysis and Performance of Fiber
// Composites (from memory).
func Random(fiber, matrix Constituent, vf float64) (Ply, error) {
	if err := checkMix(fiber, matrix, vf); err != nil {
		return Ply{}, fmt.Errorf("random ply: %w", err)
	}
	u := unidirectional(fiber, matrix, vf)
	e := 3.0/8*u.E1 + 5.0/8*u.E2
	g := 1.0/8*u.E1 + 1.0/4*u.E2
	p := Ply{E1: e, E2: e, G12: g, Nu12: e/(2*g) - 1}
	if err := p.Check(); err != nil {
		return Ply{}, fmt.Errorf("random ply: %w", err)
	}
	return p, nil
}

// Woven returns the ply of woven roving at the fiber volume fraction vf of the
// whole ply, from 0 to 1: two unidirectional sheets at that fraction sharing
// one strain, warpShare of them along axis 1 and the rest across, from 0 to 1
// (5/9 for a 5×4 weave), the stiffness of the pair times crimp, above 0 and at
// most 1, for the waviness of the yarns. Crimp lowers all moduli, shear among
// them, alike and leaves Poisson's ratio.
//
// Source: classical lamination of a cross-ply; the usual crimp factor of 0.9 is
// from memory.
func Woven(fiber, matrix Constituent, vf, warpShare, crimp float64) (Ply, error) {
	if err := checkMix(fiber, matrix, vf); err != nil {
		return Ply{}, fmt.Errorf("woven ply: %w", err)
	}
	if !within(warpShare, 0, 1) {
		return Ply{}, fmt.Errorf("woven ply: %w", &DomainError{"warp share", warpShare, "from 0 to 1"})
	}
	if !(crimp > 0 && crimp <= 1) {
		return Ply{}, fmt.Errorf("woven ply: %w", &DomainError{"crimp factor", crimp, "above 0 and at most 1"})
	}
	u := unidirectional(fiber, matrix, vf)
	if err := u.Check(); err != nil {
		return Ply{}, fmt.Errorf("woven ply: %w", err)
	}
	q := u.reduced()
	q11 := warpShare*q.q11 + (1-warpShare)*q.q22
	q22 := warpShare*q.q22 + (1-warpShare)*q.q11
	p := Ply{
		E1:   crimp * (q11 - q.q12*q.q12/q22),
		E2:   crimp * (q22 - q.q12*q.q12/q11),
		G12:  crimp * q.q66,
		Nu12: q.q12 / q22,
	}
	if err := p.Check(); err != nil {
		return Ply{}, fmt.Errorf("woven ply: %w", err)
	}
	return p, nil
}
