// Package barrier owns the rules about the corrosion barrier, inner surface
// and interior layer together: its thickness, glass content and make-up.
package barrier

import (
	"errors"
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/rules"
)

const family = "barrier"

// Rules lists the family.
func Rules() []*rules.Rule {
	return []*rules.Rule{
		InnerSurfaceThickness, InnerSurfaceRich, InteriorLayerLight, BarrierThin, BarrierGlassContent,
		ContinuousFiberInBarrier, HeavyBarrierAtFlange, HeavyBarrier, DoubleBarrierUsual,
	}
}

// unknownThickness reports a zone whose thickness cannot be figured.
func unknownThickness(p *rules.Pass, what string, in func(laminate.Zone) bool) {
	rows := p.Rows(func(r *laminate.RowFigures) bool { return in(r.Zone) && !r.ThicknessKnown })
	if rows == nil {
		return
	}
	p.Report(rules.Finding{
		Severity: rules.Incomplete, Rows: rows,
		Message: "the thickness of " + what + " cannot be determined: the thickness of " + p.Plies(rows) + " is not known",
	})
}

// lastRow is the last row that matches, −1 when none does.
func lastRow(p *rules.Pass, match func(r *laminate.RowFigures) bool) int {
	for i := len(p.Analysis.Rows) - 1; i >= 0; i-- {
		if match(&p.Analysis.Rows[i]) {
			return i
		}
	}
	return -1
}

func choppedInterior(r *laminate.RowFigures) bool {
	return r.Zone == laminate.InteriorLayer && rules.FormOf(r).Chopped()
}

func veil(r *laminate.RowFigures) bool {
	return r.Zone == laminate.InnerSurface && rules.FormOf(r) == laminate.Veil
}

// matPlan says how more mats get into the interior layer: by raising the last
// chopped row, or by new plies after the last row of the barrier.
type matPlan struct {
	row      int // the row to raise, −1 when a new one is laid
	at       int // where a new row goes
	material *laminate.Material
	id       string
	resin    string
}

func planMats(p *rules.Pass) (matPlan, bool) {
	if row := lastRow(p, choppedInterior); row >= 0 {
		return matPlan{row: row, material: p.Analysis.Rows[row].Material, id: p.Schedule.Plies[row].Material}, true
	}
	last := lastRow(p, func(r *laminate.RowFigures) bool { return r.Zone == laminate.InnerSurface })
	id, ok := p.StockMat()
	if last < 0 || !ok {
		return matPlan{}, false
	}
	m, _ := p.Library.Material(p.Schedule, id)
	return matPlan{row: -1, at: last + 1, material: m, id: id, resin: p.Schedule.Plies[last].Resin}, true
}

// apply puts n more mats in. The gel stop of the barrier stays its last.
func (m matPlan) apply(d *edit.Draft, n int) error {
	if n <= 0 {
		return errors.New("no mat to add")
	}
	if m.row >= 0 {
		d.Plies[m.row].Count += n
		if d.Plies[m.row].Count > laminate.MostCount {
			return errors.New("more plies in one row than a schedule may have")
		}
		return nil
	}
	gel := d.Plies[m.at-1].GelAfter
	d.Plies[m.at-1].GelAfter = false
	d.Insert(m.at, laminate.Ply{Material: m.id, Resin: m.resin, Zone: laminate.InteriorLayer, Count: n, GelAfter: gel})
	return nil
}

func (m matPlan) text(n int) string {
	return quantity.Counted(n, "more ply", "more plies") + " of " + m.id + " to the interior layer"
}

func (m matPlan) place() laminate.Ref {
	if m.row >= 0 {
		return laminate.PlyRef(m.row, "count")
	}
	return laminate.PlyRef(m.at, "")
}

func (m matPlan) fix(p *rules.Pass, n int) *rules.Fix {
	if n <= 0 {
		return nil
	}
	return p.Fix("add "+m.text(n), "added "+m.text(n), m.place(), func(d *edit.Draft) error { return m.apply(d, n) })
}

// takeIn is the fix where the chopped plies are there, straight on the veil
// and in its resin, and only no zone was written down for them: a row too long
// to be inferred as interior layer becomes one by being called so.
func takeIn(p *rules.Pass) *rules.Fix {
	at := p.Analysis.BarrierEnd
	if p.Facts.Mats > 0 || at == 0 || at == len(p.Schedule.Plies) {
		return nil
	}
	row := &p.Analysis.Rows[at]
	if row.ZoneGiven || !rules.FormOf(row).Chopped() || p.Schedule.Plies[at].Resin != p.Schedule.Plies[at-1].Resin {
		return nil
	}
	plies := p.Plies([]int{at})
	return p.Fix("make "+plies+" interior layer", "made "+plies+" interior layer", laminate.PlyRef(at, "zone"),
		func(d *edit.Draft) error {
			d.SetZone(at, laminate.InteriorLayer)
			return nil
		})
}

// steps is how many whole steps it takes to get over a gap.
func steps(gap, step float64) int {
	if gap <= 0 || step <= 0 {
		return 0
	}
	return int(math.Ceil(gap/step - 1e-9))
}

// shedShares is the fix that takes the shares booked on rows back, so that
// the materials' own stand.
func shedShares(p *rules.Pass, zone func(laminate.Zone) bool) *rules.Fix {
	var rows []int
	for i := range p.Schedule.Plies {
		if zone(p.Analysis.Rows[i].Zone) && p.Schedule.Plies[i].GlassContent.Given {
			rows = append(rows, i)
		}
	}
	if rows == nil {
		return nil
	}
	plies := p.Plies(rows)
	return p.Fix("remove the glass content stated on "+plies+" and use the material's own", "removed the glass content stated on "+plies,
		laminate.PlyRef(rows[0], "glass_content"), func(d *edit.Draft) error {
			for _, i := range rows {
				d.Plies[i].GlassContent = laminate.Optional[float64]{}
			}
			return nil
		})
}
