package stiffness

import (
	"fmt"
	"math"
)

// maxCondition bounds the condition number of the stiffness made dimensionless.
// Up to it a compliance keeps six figures of float64's sixteen; a glass or
// carbon wall stands below a thousand.
const maxCondition = 1e10

// invert fills in the compliances. Positive definite matrices are factored by
// Cholesky, which refuses a stack that could give energy back and keeps the
// inverse symmetric.
func (l *Laminate) invert() error {
	h := l.thickness
	// Newtons a meter, newtons and newton meters do not compare. Dividing by a
	// modulus and by h, h²/√12 and h³/12 makes one uniform isotropic plate the
	// same in all three, so what is left of the condition number is the stack's.
	e := math.Max(l.a[0][0], l.a[1][1]) / h
	scale := [6]float64{1, 1, 1, math.Sqrt(12) / h, math.Sqrt(12) / h, math.Sqrt(12) / h}
	for i := range scale {
		scale[i] /= math.Sqrt(e * h)
	}
	var full [6][6]float64
	for i := range 3 {
		for j := range 3 {
			full[i][j] = l.a[i][j] * scale[i] * scale[j]
			full[i][j+3] = l.b[i][j] * scale[i] * scale[j+3]
			full[j+3][i] = full[i][j+3]
			full[i+3][j+3] = l.d[i][j] * scale[i+3] * scale[j+3]
		}
	}
	inv, positive := inverse6(&full)
	l.condition = math.Inf(1)
	if positive {
		l.condition = norm(&full) * norm(&inv)
	}
	if !(l.condition <= maxCondition) {
		return ErrIllConditioned
	}
	for i := range 6 {
		for j := range 6 {
			l.plate[i][j] = inv[i][j] * (scale[i] * scale[j])
		}
	}
	l.tube, l.bend = inverse3(&l.a), inverse3(&l.d)
	return nil
}

// inverse3 returns the inverse of a positive definite 3×3, by L D Lᵀ. A and D are
// principal blocks of a matrix that inverse6 has found positive definite and well
// conditioned, so there is nothing left to refuse.
func inverse3(m *Matrix) Matrix {
	d0 := m[0][0]
	l10, l20 := m[0][1]/d0, m[0][2]/d0
	d1 := m[1][1] - l10*m[0][1]
	l21 := (m[1][2] - l10*m[0][2]) / d1
	d2 := m[2][2] - l20*m[0][2] - l21*l21*d1
	// The inverse of L is unit lower triangular too.
	k20 := l10*l21 - l20
	i22 := 1 / d2
	i12, i02 := -l21*i22, k20*i22
	i11 := 1/d1 - l21*i12
	i01 := -l10/d1 + i02*-l21
	i00 := 1/d0 + l10*l10/d1 + k20*i02
	return Matrix{{i00, i01, i02}, {i01, i11, i12}, {i02, i12, i22}}
}

// inverse6 returns the inverse of a symmetric 6×6, by the factors of Cholesky
// (Golub and Van Loan, Matrix Computations, from memory); not ok where it is not
// positive definite. Measured beside gonum, which tests hold it to: a tenth of the
// time, no allocation, and half a megabyte of the program's file that need not be in
// memory.
func inverse6(m *[6][6]float64) (inv [6][6]float64, ok bool) {
	var low [6][6]float64 // m is low times its transpose, then low is its own inverse
	for j := range 6 {
		for i := j; i < 6; i++ {
			sum := m[i][j]
			for k := range j {
				sum -= low[i][k] * low[j][k]
			}
			if i > j {
				low[i][j] = sum / low[j][j]
				continue
			}
			if !(sum > 0) || math.IsInf(sum, 1) {
				return inv, false
			}
			low[j][j] = math.Sqrt(sum)
		}
	}
	for j := range 6 {
		low[j][j] = 1 / low[j][j]
		for i := j + 1; i < 6; i++ {
			sum := 0.0
			for k := j; k < i; k++ {
				sum -= low[i][k] * low[k][j]
			}
			low[i][j] = sum / low[i][i]
		}
	}
	for i := range 6 {
		for j := range i + 1 {
			sum := 0.0
			for k := i; k < 6; k++ {
				sum += low[k][i] * low[k][j]
			}
			inv[i][j], inv[j][i] = sum, sum
		}
	}
	return inv, true
}

// norm is the 1-norm: the greatest sum of magnitudes in a column.
func norm(m *[6][6]float64) (greatest float64) {
	for j := range 6 {
		sum := 0.0
		for i := range 6 {
			sum += math.Abs(m[i][j])
		}
		greatest = math.Max(greatest, sum)
	}
	return greatest
}

// explain says which layers make a laminate ill-conditioned.
func (l *Laminate) explain(layers []Layer, err error) error {
	type modulus struct {
		name  string
		layer int
		value float64
	}
	var most, least modulus
	tight, tightness := 0, 0.0
	for i := range layers {
		p := layers[i].Ply
		for _, m := range [...]modulus{{"E1", i, p.E1}, {"E2", i, p.E2}, {"G12", i, p.G12}} {
			if most.value == 0 || m.value > most.value {
				most = m
			}
			if least.value == 0 || m.value < least.value {
				least = m
			}
		}
		if v := p.Nu12 * p.Nu21(); v > tightness {
			tight, tightness = i, v
		}
	}
	how := "not positive definite"
	if l.condition > maxCondition && !math.IsInf(l.condition, 1) {
		how = fmt.Sprintf("condition number %.1e, at most %.0e can be trusted", l.condition, maxCondition)
	}
	why := fmt.Sprintf("%s of layer %d is %.4g Pa and %s of layer %d only %.4g Pa, so some way the stack has next to no stiffness",
		most.name, most.layer+1, most.value, least.name, least.layer+1, least.value)
	if tightness > 1-1e-6 {
		why = fmt.Sprintf("Poisson's ratio of layer %d, %.9g, is all but at its bound", tight+1, layers[tight].Ply.Nu12)
	}
	return fmt.Errorf("laminate %w (%s): %s", err, how, why)
}

// Condition returns the condition number, in the 1-norm, of the whole 6×6 stiffness made dimensionless by modulus and thickness: 1 would be a
// stack alike in all six ways.
func (l *Laminate) Condition() float64 { return l.condition }

// Plate returns the free plate's compliance, the inverse of the whole 6×6
// stiffness [A B; B D], about the middle of the layers: rows and columns 0 to 2
// in m/N, 0 to 2 by 3 to 5 in 1/N, 3 to 5 in 1/(N·m).
func (l *Laminate) Plate() [6][6]float64 { return l.plate }

// Moduli are those of one uniform orthotropic sheet of the laminate's thickness
// that gives way as the laminate does.
type Moduli struct {
	Ex, Ey, Gxy float64 // Pa
	Nuxy, Nuyx  float64 // strain along y for a pull along x, and the other way, signs turned
}

func moduli(c Matrix, scale float64) Moduli {
	return Moduli{
		Ex:   scale / c[0][0],
		Ey:   scale / c[1][1],
		Gxy:  scale / c[2][2],
		Nuxy: -c[0][1] / c[0][0],
		Nuyx: -c[0][1] / c[1][1],
	}
}

// block cuts 3×3 out of the plate's compliance, from row and column i on.
func (l *Laminate) block(i int) Matrix {
	var m Matrix
	for r := range 3 {
		for c := range 3 {
			m[r][c] = l.plate[i+r][i+c]
		}
	}
	return m
}

// Membrane returns the tensile moduli of a wall that cannot warp, a tube's or a
// tank's: from A⁻¹, Ex = 1/(a11 h) and so on. Ex is the axial tensile modulus
// and Ey the hoop tensile modulus of ASME Section X, RD-1171.2.
func (l *Laminate) Membrane() Moduli { return moduli(l.tube, 1/l.thickness) }

// FreeMembrane returns the tensile moduli of a coupon that may bend and twist as
// it is pulled, from the inverse of the whole 6×6. None is above Membrane's.
func (l *Laminate) FreeMembrane() Moduli { return moduli(l.block(0), 1/l.thickness) }

// Bending returns the flexural moduli of a wall whose middle is kept from
// straining: from D⁻¹, Ex = 12/(d11 h³) and so on.
func (l *Laminate) Bending() Moduli {
	h := l.thickness
	return moduli(l.bend, 12/(h*h*h))
}

// FreeBending returns the flexural moduli of a wall whose middle strains as it
// likes while it bends, from the inverse of the whole 6×6; the same as D less
// B A⁻¹ B, hence the same about any plane. None is above Bending's, and in a
// stack symmetric about its middle they are Bending's. Ex is the axial and Ey the hoop
// flexural modulus that a bending test of the wall finds, as ASME Section X,
// RD-1171.2 wants for outside pressure.
func (l *Laminate) FreeBending() Moduli {
	h := l.thickness
	return moduli(l.block(3), 12/(h*h*h))
}

// Coupling says how far a laminate is from balanced and from symmetric.
type Coupling struct {
	// Shear is the larger of |A16|/√(A11 A66) and |A26|/√(A22 A66), 0 to 1: 0 in
	// a balanced stack, which pressure does not twist.
	Shear float64
	// Bending is the largest |Bij|/√(Aii Djj), 0 to 1: 0 in a stack symmetric
	// about its middle, which stays flat when pulled.
	Bending float64
}

// Coupling returns both measures; what rounding alone leaves is about 1e-16.
func (l *Laminate) Coupling() Coupling {
	c := Coupling{Shear: math.Max(
		math.Abs(l.a[0][2])/math.Sqrt(l.a[0][0]*l.a[2][2]),
		math.Abs(l.a[1][2])/math.Sqrt(l.a[1][1]*l.a[2][2]))}
	for i := range 3 {
		for j := range 3 {
			c.Bending = math.Max(c.Bending, math.Abs(l.b[i][j])/math.Sqrt(l.a[i][i]*l.d[j][j]))
		}
	}
	return c
}
