package layup

import (
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate/spec"
	"frp/veilwright/tui/internal/page"
	"frp/veilwright/tui/internal/page/records"
)

// points are hold points that are not passed.
type points struct {
	list    []spec.Hold
	file    string // the specification that has them
	unknown string // why it is not known whether there are some
}

// pointsBefore are the points that a ply may not be laid past.
func (p *Page) pointsBefore(ply int) points {
	var x points
	x.list, x.file, x.unknown = p.records.Holding(ply)
	return x
}

// before are those of them that lie before a ply.
func (x points) before(p *Page, ply int) points {
	x.list = slices.DeleteFunc(slices.Clone(x.list), func(h spec.Hold) bool { return p.at(ply) < p.at(h.BeforePly.Value) })
	return x
}

// said says of each that it stops.
func (x *points) said() (list []string) {
	for i := range x.list {
		list = append(list, x.list[i].Text()+" ("+x.file+"): not passed")
	}
	if x.unknown != "" {
		list = append(list, x.unknown)
	}
	return list
}

// answer is what settles them, by its key.
func (x *points) answer() string {
	if len(x.list) > 0 {
		return "6 records it passed"
	}
	return "7 chooses the specification"
}

// holdBefore names the points that are passed right before a ply is laid.
func (p *Page) holdBefore(ply int) string {
	var names []string
	for i := range p.points.list {
		if h := &p.points.list[i]; h.BeforePly.Value == ply {
			names = append(names, h.Point)
		}
	}
	if names == nil {
		return ""
	}
	return "HOLD POINT: " + strings.Join(names, ", ")
}

// askHold is the form by which a hold point is passed, or not: the first that stops
// the ply shown.
func (p *Page) askHold() {
	of := ""
	if list, _, _ := p.records.Holding(p.ply()); len(list) > 0 {
		of = list[0].Point
	}
	fields, read := p.records.HoldPoint(of, "")
	p.records.Offer(fields...)
	s := &page.Form{Head: "a hold or witness point", Fields: fields}
	if of != "" {
		s.At = 1 // which one is said
	}
	s.Check = func(i int) error {
		_, err := read()
		if err != nil && i < len(fields)-1 && !strings.HasPrefix(err.Error(), fields[i].Label+":") {
			err = nil
		}
		return err
	}
	s.Take = func() error {
		h, err := read()
		if err != nil {
			return err
		}
		if err := p.records.Append(h); err != nil {
			return err
		}
		p.Desk.Say(fmt.Sprintf("recorded as entry %d: %s", len(p.records.Record().Entries()), records.HoldText(h)))
		return nil
	}
	p.Open(s)
}

// lastPly is the last ply that is laid, 0 where there is none.
func (p *Page) lastPly() int {
	if list := p.order().Plies; len(list) > 0 {
		return list[len(list)-1]
	}
	return 0
}
