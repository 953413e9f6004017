package rules

import (
	"errors"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/edit"
)

var errChanged = errors.New("the schedule has changed since the fix was offered")

// Fix makes a fix: text in the present tense, label in the past tense for
// the notice line, at the place to show. Nil while another fix is tried out.
func (p *Pass) Fix(text, label string, at laminate.Ref, change func(*edit.Draft) error) *Fix {
	if !p.fix {
		return nil
	}
	judged, lib := p.Schedule, p.Library
	made := func(d *edit.Draft) (*laminate.Schedule, error) {
		if err := change(d); err != nil {
			return nil, err
		}
		return d.Finish()
	}
	do := func(s *laminate.Schedule) (*laminate.Schedule, error) {
		if s != judged && !(slices.Equal(s.Plies, judged.Plies) && slices.Equal(s.Resins, judged.Resins)) {
			return nil, errChanged
		}
		return made(edit.Begin(s, lib))
	}
	return &Fix{Text: text, Edit: edit.Edit{Label: label, At: at, Do: do}, made: made}
}

// StockMat finds the mat to fix with: 1.5 oz/ft² where it is known.
func (p *Pass) StockMat() (string, bool) {
	return catalog.Pick(p.Library, p.Schedule, catalog.Mat15, func(m *laminate.Material) bool { return m.Form == laminate.ChoppedMat && m.Fiber.Glass() })
}

// StockVeil finds a veil of a fiber to fix with.
func (p *Pass) StockVeil(fiber laminate.Fiber) (string, bool) {
	return catalog.Pick(p.Library, p.Schedule, catalog.UsualVeil(fiber), func(m *laminate.Material) bool { return m.Form == laminate.Veil && m.Fiber == fiber })
}
