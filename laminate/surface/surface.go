package surface

import (
	"errors"
	"fmt"
	"math"
)

// ErrShape is what errors.Is finds in every error about sizes that make no
// such surface.
var ErrShape = errors.New("no such surface")

func sizes(what string, list ...float64) error {
	for _, v := range list {
		if !(v > 1e-9 && v < 1e9) {
			return fmt.Errorf("%s: %w: a size of %.6g m", what, ErrShape, v)
		}
	}
	return nil
}

// Cylinder is the area of a tube without ends: π D L.
func Cylinder(diameter, length float64) (float64, error) {
	if err := sizes("cylinder", diameter, length); err != nil {
		return 0, err
	}
	return math.Pi * diameter * length, nil
}

// Ring is the area between two circles: ¼π (D² − d²). d may be 0.
func Ring(outside, inside float64) (float64, error) {
	if err := sizes("ring", outside); err != nil {
		return 0, err
	}
	if !(inside >= 0 && inside < outside) {
		return 0, fmt.Errorf("ring: %w: %.6g m inside %.6g m", ErrShape, inside, outside)
	}
	return math.Pi / 4 * (outside*outside - inside*inside), nil
}

// Head is the surface of a head above its rim, and what it holds.
type Head struct {
	Area   float64 // m²
	Depth  float64 // m
	Volume float64 // m³
}

// Hemisphere is 2π R².
func Hemisphere(radius float64) (Head, error) {
	if err := sizes("hemisphere", radius); err != nil {
		return Head{}, err
	}
	return Head{Area: 2 * math.Pi * radius * radius, Depth: radius, Volume: 2 * math.Pi / 3 * radius * radius * radius}, nil
}

// Ellipsoid is half an ellipsoid of revolution over a rim of radius a, b deep:
// π a² (1 + (b/a)² artanh(e)/e), e = √(1 − b²/a²). b is at most a.
func Ellipsoid(a, b float64) (Head, error) {
	if err := sizes("ellipsoidal head", a, b); err != nil {
		return Head{}, err
	}
	if b > a*(1+1e-12) {
		return Head{}, fmt.Errorf("ellipsoidal head: %w: %.6g m deep over a radius of %.6g m", ErrShape, b, a)
	}
	e := math.Sqrt(math.Max(0, 1-b*b/(a*a)))
	grown := 1.0 // artanh(e)/e of a sphere
	if e > 1e-6 {
		grown = math.Log((1+e)*a/b) / e // artanh e, which rounds to no number for a flat one
	}
	return Head{Area: math.Pi * a * a * (1 + b*b/(a*a)*grown), Depth: b, Volume: 2 * math.Pi / 3 * a * a * b}, nil
}

// Torisphere is a dish of crown radius L, joined to a rim of diameter D by a
// knuckle of radius r. With c = D/2 − r and φ = asin(c/(L − r)) the area is
// 2π L² (1 − cos φ) + 2π r (c (π/2 − φ) + r cos φ), the depth
// L (1 − cos φ) + r cos φ.
func Torisphere(diameter, crown, knuckle float64) (Head, error) {
	if err := sizes("torispherical head", diameter, crown, knuckle); err != nil {
		return Head{}, err
	}
	c := diameter/2 - knuckle
	if c < 0 || crown <= knuckle || c > crown-knuckle {
		return Head{}, fmt.Errorf("torispherical head: %w: a crown of %.6g m and a knuckle of %.6g m do not meet a rim of %.6g m", ErrShape, crown, knuckle, diameter)
	}
	l, r := crown, knuckle
	phi := math.Asin(c / (l - r))
	// The cap above the knuckle and the knuckle by themselves: the sums in one
	// formula lose all digits where the crown is nearly flat.
	half := math.Sin(phi / 2)
	dome, up := 2*l*half*half, r*math.Cos(phi)
	out := r * math.Sin(phi)
	return Head{
		Area:  2*math.Pi*l*dome + 2*math.Pi*r*(c*(math.Pi/2-phi)+up),
		Depth: dome + up,
		Volume: math.Pi*dome*dome*(3*l-dome)/3 +
			math.Pi*((c*c+r*r)*up+c*(up*out+r*r*(math.Pi/2-phi))-up*up*up/3),
	}, nil
}

// Frustum is a cone between two radii, the half-angle at its apex in radians:
// π (R1 + R2)(R1 − R2)/sin α. The smaller radius may be 0.
func Frustum(large, small, halfAngle float64) (Head, error) {
	if err := sizes("cone", large); err != nil {
		return Head{}, err
	}
	if !(small >= 0 && small < large) || !(halfAngle > 0 && halfAngle < math.Pi/2) {
		return Head{}, fmt.Errorf("cone: %w: from %.6g m to %.6g m at %.6g rad", ErrShape, large, small, halfAngle)
	}
	depth := (large - small) / math.Tan(halfAngle)
	return Head{
		Area: math.Pi * (large + small) * (large - small) / math.Sin(halfAngle), Depth: depth,
		Volume: math.Pi / 3 * depth * (large*large + large*small + small*small),
	}, nil
}

// KnuckledBottom is a flat bottom of inside radius R turned up by a knuckle r:
// π (R − r)² + π² r (R − r) + 2π r². Without a knuckle it is the disc.
func KnuckledBottom(radius, knuckle float64) (float64, error) {
	if err := sizes("bottom", radius); err != nil {
		return 0, err
	}
	if !(knuckle >= 0 && knuckle <= radius) {
		return 0, fmt.Errorf("bottom: %w: a knuckle of %.6g m in a radius of %.6g m", ErrShape, knuckle, radius)
	}
	flat := radius - knuckle
	return math.Pi*flat*flat + math.Pi*math.Pi*knuckle*flat + 2*math.Pi*knuckle*knuckle, nil
}

// Elbow is a tube of radius r bent round a radius R by an angle in radians:
// 2π r R Δ. The tube must not meet itself.
func Elbow(radius, bend, turn float64) (float64, error) {
	if err := sizes("elbow", radius, bend, turn); err != nil {
		return 0, err
	}
	if bend < radius || turn > 2*math.Pi {
		return 0, fmt.Errorf("elbow: %w: a tube of radius %.6g m bent round %.6g m", ErrShape, radius, bend)
	}
	return 2 * math.Pi * radius * bend * turn, nil
}

// Miter is an elbow of straight pieces.
type Miter struct {
	HalfAngle float64 // of one joint, rad
	Centre    float64 // length of its centre line, m
	Area      float64 // m²
	Seam      float64 // one joint's way round, m
}

// Mitered is a tube of diameter D turned by an angle Δ (rad) in n joints round a
// bend radius: half-angle θ = Δ/2n, centre line 2 n R tan θ, seams ellipses of
// half axes D/2 and D/(2 cos θ).
func Mitered(diameter, bend, turn float64, joints int) (Miter, error) {
	if err := sizes("mitered elbow", diameter, bend, turn); err != nil {
		return Miter{}, err
	}
	theta := turn / 2 / float64(joints)
	if joints < 1 || theta >= math.Pi/4+1e-9 || bend < diameter/2 {
		return Miter{}, fmt.Errorf("mitered elbow: %w: %d joints for %.6g rad round %.6g m", ErrShape, joints, turn, bend)
	}
	m := Miter{HalfAngle: theta, Centre: 2 * float64(joints) * bend * math.Tan(theta), Seam: ellipse(diameter/2/math.Cos(theta), diameter/2)}
	m.Area = math.Pi * diameter * m.Centre
	return m, nil
}

// ellipse is the way round an ellipse by Ramanujan's second formula.
func ellipse(a, b float64) float64 {
	h := (a - b) / (a + b) * (a - b) / (a + b)
	return math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
}
