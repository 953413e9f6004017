package wall

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stiffness"
	"frp/veilwright/laminate/wall/moduli"
)

// counted is a ply row that counts.
type counted struct {
	row     int
	figures *laminate.RowFigures
	ply     *laminate.Ply
	law     stiffness.Ply // with what warmth has left of it
	basis   string
	angle   float64 // degrees
	cover   bool    // of two layers, +angle inside and −angle outside
	thick   float64 // m, all plies of the row
	layer   int     // index of its first layer in the laminate
}

// collect finds the rows that count, their thickness and their moduli, and
// stacks them.
func (e *evaluation) collect() {
	e.rows = slices.Grow(e.rows[:0], len(e.a.Rows))
	layers := 0
	for i := range e.a.Rows {
		f := &e.a.Rows[i]
		n := e.s.Plies[i].Count
		if !thick(f) && n > 0 && e.wholeOpen == "" {
			e.wholeOpen = plyName(f) + ": its thickness is not known" + lacking(f, &e.s.Plies[i])
		}
		if !e.counts(f.Zone) || n < 1 {
			continue
		}
		if f.Material == nil {
			e.trouble(f, "its material is not known")
			continue
		}
		c := counted{row: i, figures: f, ply: &e.s.Plies[i], thick: f.Thickness * float64(n)}
		if !thick(f) || !sound(c.thick) {
			e.trouble(f, "its thickness is not known"+lacking(f, &e.s.Plies[i]))
			continue
		}
		e.r.Thickness += c.thick
		c.angle = c.ply.Angle.Or(0)
		form := f.Material.Form
		if (form == laminate.Unidirectional || form == laminate.RovingBand) && !c.ply.Angle.Given {
			e.trouble(f, "its fibers have no angle (angle)")
		}
		if c.cover = form == laminate.RovingBand && c.angle > 0 && c.angle < laminate.HoopFrom; c.cover {
			layers += 2 * n
		} else {
			layers++
		}
		law, basis, why := e.laws.Ply(f)
		if why != "" {
			e.trouble(f, why)
		}
		c.law, c.basis = law, basis
		e.rows = append(e.rows, c)
	}
	e.r.Counted = len(e.rows)
	if len(e.rows) == 0 && e.r.Problem == "" {
		e.r.Problem = "no structural ply: every ply is barrier or outer surface"
		if len(e.a.Rows) == 0 {
			e.r.Problem = "no structural ply: the schedule has no plies"
		}
	}
	if e.r.Problem == "" {
		e.stack(layers)
	}
}

// thick tells whether a row's thickness is known.
func thick(f *laminate.RowFigures) bool {
	return f.ThicknessKnown && f.Thickness > 0 && sound(f.Thickness)
}

// lacking names the keys that a row's thickness waits for.
func lacking(f *laminate.RowFigures, p *laminate.Ply) string {
	if f.Material == nil {
		return ", nor its material"
	}
	keys := append(f.Material.Lacks(), p.Lacks(f.Material)...)
	if len(keys) == 0 && f.Resin == nil {
		keys = []string{"resin"}
	}
	if len(keys) == 0 {
		return ""
	}
	return " (" + strings.Join(keys, ", ") + ")"
}

func (e *evaluation) counts(z laminate.Zone) bool {
	return z == laminate.StructuralLayer || e.o.CountBarrier && z.InBarrier()
}

// trouble keeps the first reason why there is no laminate.
func (e *evaluation) trouble(f *laminate.RowFigures, why string) {
	if e.r.Problem == "" {
		e.r.Problem = plyName(f) + ": " + why
	}
}

func plyName(f *laminate.RowFigures) string {
	if f.Last > f.First {
		return "plies " + strconv.Itoa(f.First) + " to " + strconv.Itoa(f.Last)
	}
	return "ply " + strconv.Itoa(f.First)
}

// stack builds the laminate. Equal rows that follow one another become one
// layer, since strain runs straight through them.
func (e *evaluation) stack(most int) {
	layers := slices.Grow(e.layers[:0], most)
	for i := range e.rows {
		c := &e.rows[i]
		if c.cover {
			c.layer = len(layers)
			half := c.thick / float64(2*c.ply.Count)
			for range c.ply.Count {
				layers = append(layers,
					stiffness.Layer{Ply: c.law, Angle: c.angle, Thickness: half},
					stiffness.Layer{Ply: c.law, Angle: -c.angle, Thickness: half})
			}
			continue
		}
		if n := len(layers); n > 0 && layers[n-1].Ply == c.law && layers[n-1].Angle == c.angle {
			layers[n-1].Thickness += c.thick
			c.layer = n - 1
			continue
		}
		c.layer = len(layers)
		layers = append(layers, stiffness.Layer{Ply: c.law, Angle: c.angle, Thickness: c.thick})
	}
	e.layers = layers
	lam, err := e.o.Trial.Stiffness(layers, &e.memory)
	if err != nil {
		e.r.Problem = "counted plies from the inside: " + err.Error()
		return
	}
	e.lam = lam
	e.r.A, e.r.B, e.r.D, e.r.Membrane = e.lam.A(), e.lam.B(), e.lam.D(), e.lam.Membrane()
}

// failureStrain gives the least failure strain of the resins that count; the
// reason names the missing key when one is not known.
func (e *evaluation) failureStrain() (least float64, reason string) {
	least = math.Inf(1)
	var last *laminate.Resin
	for i := range e.rows {
		r := e.rows[i].figures.Resin
		if r == nil {
			return 0, plyName(e.rows[i].figures) + " names no resin, so the resin's failure strain is not known"
		}
		if r == last {
			continue
		}
		last = r
		strain, known := moduli.FailureStrain(e.lib, r)
		if !known {
			return 0, fmt.Sprintf("the failure strain of resin %q is not known (failure_strain)", r.ID)
		}
		least = math.Min(least, strain)
	}
	if !sound(least) {
		return 0, "no ply counts, so no resin's failure strain does"
	}
	return least, ""
}
