package inspect

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/safety"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules/acceptance"
	"frp/veilwright/tui/internal/draw"
	"frp/veilwright/tui/internal/page"
)

func kindWord(k inspection.Kind, g inspection.Group) string {
	switch k {
	case inspection.WallThickness:
		if g == inspection.WholeWall {
			return "thickness of the whole laminate"
		}
		return "thickness of the " + groupWord(g) + ", at cutouts"
	case inspection.Barcol:
		return "Barcol hardness"
	case inspection.IgnitionLoss:
		return "ignition loss, " + groupWord(g)
	case inspection.Acetone:
		return "acetone wipe"
	case inspection.ResistanceToGround:
		return "resistance to ground"
	case inspection.Visual:
		return "examination by eye"
	case inspection.NoKind:
	}
	return "reading"
}

// kinds asks what is read.
func (p *Page) kinds() page.Overlay {
	list := []struct {
		kind  inspection.Kind
		group inspection.Group
	}{
		{inspection.WallThickness, inspection.WholeWall}, {inspection.WallThickness, inspection.Barrier}, {inspection.WallThickness, inspection.StructuralLayer},
		{inspection.Barcol, inspection.WholeWall}, {inspection.IgnitionLoss, inspection.WholeWall}, {inspection.Acetone, inspection.WholeWall}, {inspection.ResistanceToGround, inspection.WholeWall},
		{inspection.Visual, inspection.WholeWall},
	}
	items := make([]page.Item, len(list))
	for i, k := range list {
		items[i] = page.Item{Name: kindWord(k.kind, k.group)}
	}
	items[4] = page.Item{Name: "ignition loss", Note: "masses before and after"}
	others := []struct {
		name string
		open func() page.Overlay
	}{{"dimension", p.dimension}, {"hydrotest", p.hydrotest}, {"hold or witness point", p.holdPoint}, {"post-cure", p.postCure}, {"instrument and its calibration", p.calibration}, {"face prepared for a bond", p.preparation}, {"bond onto a cured face", p.bond},
		{"specimen that is kept", p.specimen}, {"photograph", p.photograph}, {"serial number, as marked on it", p.records.Mark}}
	for _, o := range others {
		items = append(items, page.Item{Name: o.name})
	}
	items[len(items)-1].Why = p.records.CanMark("6")
	return &page.List{Head: "which reading?", Find: "what", Items: items, Take: func(i int) error {
		if i >= len(list) {
			p.Open(others[i-len(list)].open())
			return nil
		}
		if list[i].kind == inspection.IgnitionLoss {
			p.Open(p.specimens())
			return nil
		}
		p.Open(p.reading(list[i].kind, list[i].group))
		return nil
	}}
}

// specimens asks what an ignition specimen holds.
func (p *Page) specimens() page.Overlay {
	var items []page.Item
	for g := inspection.WholeWall; g <= inspection.OuterSurface; g++ {
		items = append(items, page.Item{Name: groupWord(g)})
	}
	return &page.List{Head: "what is the specimen cut from?", Items: items, Take: func(i int) error {
		p.Open(p.reading(inspection.IgnitionLoss, inspection.Group(i)))
		return nil
	}}
}

// decimal lets the comma of a keypad stand for the point.
func decimal(s string) string {
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	return strings.TrimSpace(s)
}

const (
	clean    = "clean"
	softened = "softened"
	tacky    = "tacky"
	sticky   = "softened or tacky"
)

// reading is the form on which readings of one kind are entered one after another.
func (p *Page) reading(k inspection.Kind, g inspection.Group) page.Overlay {
	u := p.Desk.Units()
	place := &page.Field{Label: "place", Text: p.kept.place, Hint: "kept for the next one"}
	value := &page.Field{Label: "value"}
	after := &page.Field{Label: "after", Hint: "g, after ignition"}
	counted := &page.Field{Label: "plies", Hint: "counted in what is left; empty: not counted"}
	side := &page.Field{Label: "side", Choices: []string{spec.ProcessSide.String(), spec.OutsideFace.String()}}
	method := &page.Field{Label: "method", Text: p.kept.method, Hint: "gauge or procedure; kept for the next one"}
	instrument := &page.Field{Label: "instrument", Text: p.kept.instrument, Hint: "kept for the next one"}
	witness := &page.Field{Label: "witness", Text: p.kept.witness, Hint: "who is there; kept for the next one"}
	side.Text = p.kept.side
	p.records.Offer(place, method, instrument, witness)
	s := &page.Form{Head: kindWord(k, g) + ": value Enter value Enter; Enter alone ends", Fields: []*page.Field{value, place, side, method, witness, instrument}, Needs: 1, EmptyEnds: true, Again: true}
	switch k {
	case inspection.WallThickness:
		value.Hint = u.Thin().Symbol()
	case inspection.Barcol:
		value.Hint = "0 to 100"
	case inspection.IgnitionLoss:
		value.Label, value.Hint = "before", "g, before ignition"
		s.Fields, s.Needs = []*page.Field{value, after, place, counted, method, witness, instrument}, 2
		s.Head = kindWord(k, g) + ": before Enter after Enter; Enter alone ends"
	case inspection.Acetone:
		value.Choices = []string{clean, softened, tacky}
		s.Head = kindWord(k, g) + ": a digit, Enter; Enter alone ends"
	case inspection.ResistanceToGround:
		value.Hint = "Mohm"
	case inspection.Visual:
		value.Label, value.Hint = "area", u.Surface().Symbol()+" examined; empty: all of the side"
		s.Fields, s.Needs, s.EmptyEnds, s.Again = []*page.Field{place, side, value, method, witness}, 0, false, false
		s.Head = kindWord(k, g) + ": what is seen is entered as a defect (2), and none is nothing seen"
	case inspection.NoKind:
	}
	asked := doubts{}
	taken := func() (*record.Reading, error) {
		r := &record.Reading{Entry: p.records.By(), Kind: k, Group: g, Place: strings.TrimSpace(place.Text),
			Method: strings.TrimSpace(method.Text), Witness: strings.TrimSpace(witness.Text), Instrument: strings.TrimSpace(instrument.Text)}
		r.Side, _ = spec.Sides.Parse(side.Text)
		if n := strings.TrimSpace(counted.Text); n != "" {
			plies, err := strconv.Atoi(n)
			if err != nil || plies < 0 {
				return r, errors.New("plies: enter a whole number, or nothing")
			}
			r.Plies = laminate.Some(plies)
		}
		return r, fill(r, text(value), text(after), u)
	}
	s.Check = func(i int) error {
		switch {
		case s.Fields[i] == witness:
			return p.records.OwnWitness(witness, "")
		case s.Fields[i] == value && k != inspection.IgnitionLoss, s.Fields[i] == after, s.Fields[i] == counted:
			r, err := taken()
			if err == nil && s.Fields[i] == value {
				err = p.doubtful(asked, value, r)
			}
			return err
		case s.Fields[i] == value:
			return unit(asked, value, quantity.Gram, specimenMass, "a specimen weighs about 5 g", "mg", "kg")
		}
		return nil
	}
	s.Take = func() error {
		r, err := taken()
		if err == nil {
			err = p.records.OwnWitness(witness, "")
		}
		if err != nil {
			return err
		}
		if err := p.records.Append(r); err != nil {
			return err
		}
		counted.Text = "" // it is of this specimen alone
		p.kept.place, p.kept.side, p.kept.method, p.kept.witness, p.kept.instrument = place.Text, side.Text, method.Text, witness.Text, instrument.Text
		p.Desk.Tell(p.recorded(r), "4 strikes an entry")
		return nil
	}
	s.Leave = func() { p.Open(p.kinds()) }
	s.Below = func(w, _ int) []string { return p.moves(p.Desk.Theme, k, g, w) }
	return s
}

func fill(r *record.Reading, value, after string, u quantity.System) (err error) {
	switch r.Kind {
	case inspection.WallThickness:
		r.Thickness, err = quantity.ParseDefault(value, u.Thin())
		if err == nil && !(r.Thickness.SI() > 0 && r.Thickness.SI() <= 1) {
			err = fmt.Errorf("%s is not a wall thickness: above 0 and at most 1 m", r.Thickness.Text())
		}
	case inspection.Barcol:
		r.Value, err = strconv.ParseFloat(decimal(value), 64)
		if err != nil || !(r.Value >= 0 && r.Value <= 100) {
			err = errors.New("enter a number from 0 to 100: the Barcol scale")
		}
	case inspection.IgnitionLoss:
		if r.Before, err = quantity.ParseDefault(value, quantity.Gram); err != nil {
			return err
		}
		if r.After, err = quantity.ParseDefault(after, quantity.Gram); err != nil {
			return err
		}
		_, err = inspection.Loss(r.Before.SI(), r.After.SI())
	case inspection.Acetone:
		if value != clean && value != softened && value != tacky {
			return errors.New("1 is clean, 2 softened, 3 tacky")
		}
		r.Clean, r.Softened = value == clean, value == softened
	case inspection.ResistanceToGround:
		r.Resistance, err = quantity.ParseDefault(value, quantity.Megohm)
		if err == nil && !(r.Resistance.SI() >= 0 && !math.IsInf(r.Resistance.SI(), 0)) {
			err = errors.New("a resistance is not below 0")
		}
	case inspection.Visual:
		if value == "" {
			return nil
		}
		r.Area, err = quantity.ParseDefault(value, u.Surface())
		if err == nil && !(r.Area.SI() > 0) {
			err = errors.New("an area is above 0")
		}
	case inspection.NoKind:
	}
	return err
}

// recorded says what was entered, and whether it is outside the expected range.
func (p *Page) recorded(r *record.Reading) string {
	s := fmt.Sprintf("recorded as entry %d: %s", len(p.records.Record().Entries()), p.value(r))
	if r.Kind == inspection.WallThickness && p.stated {
		if e, err := p.predict(r.Group); err == nil && math.Abs(r.Thickness.SI()-e.Thickness.Mean) > e.Thickness.Half {
			s += ", OUTSIDE THE EXPECTED RANGE " + p.range95(inspection.Spread{Thickness: e.Thickness})
		}
	}
	return s
}

func (p *Page) value(r *record.Reading) string {
	switch r.Kind {
	case inspection.WallThickness:
		return r.Thickness.Text()
	case inspection.Barcol:
		return "Barcol " + quantity.Number(r.Value, 1)
	case inspection.IgnitionLoss:
		s := r.Before.Text() + " → " + r.After.Text()
		if loss, err := inspection.Loss(r.Before.SI(), r.After.SI()); err == nil {
			s += ", loss " + quantity.Percent(loss)
		}
		return s
	case inspection.Acetone:
		if r.Clean {
			return "acetone " + clean
		}
		if r.Softened {
			return "acetone " + softened
		}
		return "acetone " + tacky
	case inspection.ResistanceToGround:
		return r.Resistance.Text()
	case inspection.Visual:
		if r.Area.Given() {
			return "examined, " + r.Area.Text()
		}
		return "examined"
	case inspection.NoKind:
	}
	return "no reading"
}

// readings are those of a kind and part of the wall that count.
func (p *Page) readings(k inspection.Kind, g inspection.Group) []*record.Reading {
	r := p.records.Record()
	if r == nil {
		return nil
	}
	var list []*record.Reading
	all := r.Now().Readings
	for i := range all {
		if all[i].Kind == k && all[i].Group == g && !all[i].Struck {
			list = append(list, &all[i])
		}
	}
	return list
}

// statistics says what readings of one kind come to.
func (p *Page) statistics(k inspection.Kind, list []*record.Reading) string {
	n := page.Count(len(list), "reading")
	values := make([]float64, len(list))
	bad := 0
	for i, r := range list {
		switch k {
		case inspection.WallThickness:
			values[i] = r.Thickness.SI()
		case inspection.Barcol:
			values[i] = r.Value
		case inspection.IgnitionLoss:
			values[i], _ = inspection.Loss(r.Before.SI(), r.After.SI())
		case inspection.ResistanceToGround:
			values[i] = r.Resistance.SI()
		case inspection.Acetone:
			if !r.Clean {
				bad++
			}
		case inspection.Visual, inspection.NoKind:
		}
	}
	s, err := inspection.Summarize(values)
	if err != nil {
		return "no reading yet"
	}
	u := p.Desk.Units()
	switch k {
	case inspection.WallThickness:
		if len(list) == 1 { // which has no deviation
			return n + ": " + u.Thickness(s.Mean)
		}
		bare := func(m float64) string { return u.Bare(m, quantity.Thickness) }
		return fmt.Sprintf("%s: mean %s, %s to %s, deviation %s", n, bare(s.Mean), bare(s.Lowest), bare(s.Highest), u.Thickness(s.Deviation))
	case inspection.Barcol:
		line := fmt.Sprintf("%s: plain mean %s, %s to %s", n, quantity.Number(s.Mean, 1), quantity.Number(s.Lowest, 1), quantity.Number(s.Highest, 1))
		if mean, err := inspection.BarcolAverage(values); err == nil {
			return line + "; without two at each end " + quantity.Number(mean, 1)
		}
		return line + "; ten are needed for the average"
	case inspection.IgnitionLoss:
		return fmt.Sprintf("%s: mean loss %s, lowest %s, highest %s", page.Count(len(list), "specimen"), quantity.Percent(s.Mean), quantity.Percent(s.Lowest), quantity.Percent(s.Highest))
	case inspection.Acetone:
		return fmt.Sprintf("%s: %d clean, %d %s", page.Count(len(list), "wipe"), len(list)-bad, bad, sticky)
	case inspection.ResistanceToGround:
		return n + ": highest " + u.Figure(s.Highest, quantity.Resistivity)
	case inspection.Visual, inspection.NoKind:
	}
	return n
}

// computed is the schedule's thickness of a part of the wall, m.
func (p *Page) computed(g inspection.Group) float64 {
	sum := 0.0
	rows := p.records.Analysis().Rows
	for i := range rows {
		if r := &rows[i]; g.Holds(r.Zone) {
			sum += r.Thickness * float64(r.Last-r.First+1)
		}
	}
	return sum
}

// hazards are what taking a reading brings with it.
func hazards(k inspection.Kind, g inspection.Group) []safety.Trigger {
	switch k {
	case inspection.Acetone:
		return []safety.Trigger{safety.Wiping}
	case inspection.IgnitionLoss:
		return []safety.Trigger{safety.Cutting, safety.Igniting}
	case inspection.WallThickness:
		if g != inspection.WholeWall {
			return []safety.Trigger{safety.Cutting} // a cutout
		}
	case inspection.Visual:
		return []safety.Trigger{safety.Entering}
	case inspection.Barcol, inspection.ResistanceToGround, inspection.NoKind:
	}
	return nil
}

// moves draws what readings of one kind come to and the verdicts they move.
func (p *Page) moves(t *draw.Theme, k inspection.Kind, g inspection.Group, w int) []string {
	p.compare()
	var lines []string
	for _, c := range safety.For(hazards(k, g)...) {
		lines = append(lines, page.Labeled(t, labelCells, c.Label, c.Line, w, t.Warning)...)
	}
	lines = append(lines, part(t, w, "so far", p.statistics(k, p.readings(k, g)))...)
	if k == inspection.WallThickness || k == inspection.IgnitionLoss {
		lines = append(lines, p.odds(k, g, w)...)
	}
	demanded := false
	for i := range p.rows {
		r := &p.rows[i]
		if r.note || !judges(r.Key, k, g) {
			continue
		}
		demanded = true
		for j, s := range draw.Wrap(draw.Clean(r.Demand+": "+r.Found), max(20, w-17)) {
			word := ""
			if j == 0 {
				word = verdictWord(r.Verdict)
			}
			lines = append(lines, " "+verdictLook(t, r.Verdict).Render(draw.Left(word, 14))+s)
		}
	}
	if !demanded {
		required := "nothing of this kind"
		if specified, _ := p.records.Specification(); specified == nil {
			required = "not known: no specification is chosen (5)"
		}
		lines = append(lines, part(t, w, "required", required)...)
	}
	return lines
}

// judges tells whether a line's verdict rests on readings of a kind and part.
func judges(key string, k inspection.Kind, g inspection.Group) bool {
	part := map[inspection.Group]string{inspection.WholeWall: "total", inspection.Barrier: "barrier", inspection.StructuralLayer: "structure"}[g]
	if key == "plan."+k.String() {
		return true
	}
	switch k {
	case inspection.WallThickness:
		return key == part+".thickness measured" || g == inspection.WholeWall && (key == "inspection.thickness_readings" || key == "inspection.spot_minimum")
	case inspection.Barcol:
		return key == "inspection.barcol"
	case inspection.IgnitionLoss:
		return key == "inspection.ignition_specimens" || key == part+".glass_content measured"
	case inspection.Acetone:
		return key == "inspection.acetone"
	case inspection.ResistanceToGround:
		return key == "inspection.resistance_to_ground_max"
	case inspection.Visual:
		return key == "inspection.visual"
	case inspection.NoKind:
	}
	return false
}

// answerNow is whether the part is accepted, as things stand.
func (p *Page) answerNow() acceptance.Answer {
	p.compare()
	return p.result.Part
}
