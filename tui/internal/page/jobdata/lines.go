package jobdata

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/edit"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/tui/internal/page"
)

func header(s *laminate.Schedule) []entry {
	const section = "Schedule"
	line := func(key, label, value string, put func(*laminate.Schedule, string)) entry {
		return entry{section, page.Field{Label: label, Text: value}, func(v string) (edit.Edit, error) {
			return edit.SetHeader(key, stated(label, v), func(s *laminate.Schedule) { put(s, v) }), nil
		}}
	}
	rev := entry{section, page.Field{Label: "revision", Text: whole(s.Revision)}, func(v string) (edit.Edit, error) {
		n, err := readWhole(v)
		return edit.SetHeader("revision", stated("revision", v), func(s *laminate.Schedule) { s.Revision = n }), err
	}}
	return []entry{
		line("title", "title", s.Title, func(s *laminate.Schedule, v string) { s.Title = v }),
		line("job", "job", s.Job, func(s *laminate.Schedule, v string) { s.Job = v }),
		rev,
		line("author", "author", s.Author, func(s *laminate.Schedule, v string) { s.Author = v }),
	}
}

func part(s *laminate.Schedule, u quantity.System) []entry {
	const section = "Part"
	p := &s.Part
	set := edit.SetPart
	list := []entry{
		choice(section, "form", "form", p.Form.String(), laminate.PartForms.All(), set, func(p *laminate.Part, v string) { p.Form, _ = laminate.PartForms.Parse(v) }),
		choice(section, "process", "process", p.Process.String(), laminate.Processes.All(), set, func(p *laminate.Part, v string) { p.Process, _ = laminate.Processes.Parse(v) }),
		measure(section, "inside_diameter", "inside diameter", p.InsideDiameter, u.Size(), set, func(p *laminate.Part, q quantity.Length) { p.InsideDiameter = q }),
		measure(section, "length", "length", p.Length, u.Long(), set, func(p *laminate.Part, q quantity.Length) { p.Length = q }),
		measure(section, "liquid_height", "liquid height", p.LiquidHeight, u.Long(), set, func(p *laminate.Part, q quantity.Length) { p.LiquidHeight = q }),
		measure(section, "area", "area", p.Area, u.Surface(), set, func(p *laminate.Part, q quantity.Area) { p.Area = q }),
		yesNo(section, "flanged", "flanged", p.Flanged, set, func(p *laminate.Part, v laminate.Optional[bool]) { p.Flanged = v }),
		choice(section, "ends", "ends", p.Ends.String(), laminate.EndsWords.All(), set, func(p *laminate.Part, v string) { p.Ends, _ = laminate.EndsWords.Parse(v) }),
		choice(section, "design_basis", "design basis", p.DesignBasis.String(), laminate.DesignBases.All(), set, func(p *laminate.Part, v string) { p.DesignBasis, _ = laminate.DesignBases.Parse(v) }),
		measure(section, "stiffener_spacing", "stiffener spacing", p.StiffenerSpacing, u.Long(), set, func(p *laminate.Part, q quantity.Length) { p.StiffenerSpacing = q }),
		share(section, "modulus_retention", "modulus retention", p.ModulusRetention, "of the modulus, of a warm wall: 80 %, or 0.8", set, func(p *laminate.Part, v laminate.Optional[float64]) { p.ModulusRetention = v }),
		{section, page.Field{Label: "k factors", Text: factors(p.KFactors), Hint: "five, at least 1 each: unit-load basis"}, func(v string) (edit.Edit, error) {
			k, err := readFactors(v)
			return set("k_factors", stated("k factors", v), func(p *laminate.Part) { p.KFactors = k }), err
		}},
		{section, page.Field{Label: "grounded by", Text: p.Grounding, Hint: "how a conductive barrier is grounded"}, func(v string) (edit.Edit, error) {
			return set("grounding", stated("grounded by", v), func(p *laminate.Part) { p.Grounding = v }), nil
		}},
	}
	list[8].field.Hint = "left out: contact goes by the strength table, wound by the strain limit"
	return list
}

func service(s *laminate.Schedule, u quantity.System) []entry {
	const section = "Service"
	v := &s.Service
	set := edit.SetService
	return []entry{
		{section, page.Field{Label: "fluid", Text: v.Fluid}, func(t string) (edit.Edit, error) {
			return set("fluid", stated("fluid", t), func(v *laminate.Service) { v.Fluid = t }), nil
		}},
		share(section, "concentration", "concentration", v.Concentration, "by mass: 15 %, or 0.15", set, func(v *laminate.Service, x laminate.Optional[float64]) { v.Concentration = x }),
		measure(section, "temperature", "temperature", v.Temperature, u.Heat(), set, func(v *laminate.Service, q quantity.Temperature) { v.Temperature = q }),
		measure(section, "upset", "upset", v.Upset, u.Heat(), set, func(v *laminate.Service, q quantity.Temperature) { v.Upset = q }),
		{section, page.Field{Label: "pH", Text: ph(v.PH), Hint: "lowest and highest: 3.5 to 6, or 3.5-6"}, func(t string) (edit.Edit, error) {
			r, err := readPH(t)
			return set("ph", stated("pH", t), func(v *laminate.Service) { v.PH = r }), err
		}},
		choice(section, "contact", "contact", v.Contact.String(), laminate.Contacts.All(), set, func(v *laminate.Service, t string) { v.Contact, _ = laminate.Contacts.Parse(t) }),
		carries(section, v.Contains),
		measure(section, "pressure", "pressure inside", v.Pressure, u.Load(), set, func(v *laminate.Service, q quantity.Pressure) { v.Pressure = q }),
		measure(section, "vacuum", "vacuum", v.Vacuum, u.Load(), set, func(v *laminate.Service, q quantity.Pressure) { v.Vacuum = q }),
		measure(section, "test_pressure", "test pressure", v.TestPressure, u.Load(), set, func(v *laminate.Service, q quantity.Pressure) { v.TestPressure = q }),
		number(section, "specific_gravity", "specific gravity", v.SpecificGravity, set, func(v *laminate.Service, x laminate.Optional[float64]) { v.SpecificGravity = x }),
		{section, page.Field{Label: "flame spread", Text: whole(v.FlameSpread), Hint: "highest index allowed; nothing = no requirement"}, func(t string) (edit.Edit, error) {
			n, err := readWhole(t)
			return set("flame_spread", stated("flame spread", t), func(v *laminate.Service) { v.FlameSpread = n }), err
		}},
		yesNo(section, "conductive", "conductive", v.Conductive, set, func(v *laminate.Service, x laminate.Optional[bool]) { v.Conductive = x }),
		yesNo(section, "abrasive", "abrasive", v.Abrasive, set, func(v *laminate.Service, x laminate.Optional[bool]) { v.Abrasive = x }),
	}
}

func carries(section string, has laminate.Traits) entry {
	var names, on []string
	for _, t := range laminate.TraitWords.All() {
		names = append(names, t.String())
		if has.Has(t) {
			on = append(on, t.String())
		}
	}
	value := strings.Join(on, ", ")
	if has.Given && value == "" {
		value = page.NoneOfThem
	}
	return entry{section, page.Field{Label: "contains", Text: value, Choices: names, Several: true, Hint: "digits and space mark"}, func(text string) (edit.Edit, error) {
		var t laminate.Traits
		if text != "" {
			var list []laminate.Trait
			for s := range strings.SplitSeq(text, ",") {
				if x, ok := laminate.TraitWords.Parse(strings.TrimSpace(s)); ok {
					list = append(list, x)
				}
			}
			t = laminate.TraitSet(list...)
		}
		return edit.SetService("contains", stated("contains", text), func(v *laminate.Service) { v.Contains = t }), nil
	}}
}

// resins are the resins of the schedule, and a line that adds one.
func resins(s *laminate.Schedule) []entry {
	var list []entry
	for i := range s.Resins {
		r := &s.Resins[i]
		section := "Resin " + r.ID
		set := func(key, what string, f func(*laminate.Resin)) edit.Edit { return edit.SetResin(s, i, key, what, f) }
		list = append(list,
			choice(section, "family", "family", r.Family.String(), laminate.Families.All(), set, func(r *laminate.Resin, v string) { r.Family, _ = laminate.Families.Parse(v) }),
			choice(section, "cure", "cure", r.Cure.String(), laminate.Cures.All(), set, func(r *laminate.Resin, v string) { r.Cure, _ = laminate.Cures.Parse(v) }),
			choice(section, "filler", "filler", r.Filler.String(), laminate.Fillers.All(), set, func(r *laminate.Resin, v string) { r.Filler, _ = laminate.Fillers.Parse(v) }),
			share(section, "filler_content", "filler content", r.FillerContent, "of the mix by mass: 30 %, or 0.3", set, func(r *laminate.Resin, v laminate.Optional[float64]) { r.FillerContent = v }),
			whollyNumber(section, "flame_spread_tested", "flame spread tested", r.FlameSpreadTested, set, func(r *laminate.Resin, v laminate.Optional[int]) { r.FlameSpreadTested = v }),
		)
	}
	families := make([]string, 0, 8)
	for _, f := range laminate.Families.All() {
		families = append(families, f.String())
	}
	section := "Another resin"
	if len(s.Resins) == 0 {
		section = "A resin"
	}
	return append(list, entry{section, page.Field{Label: "of the family", Choices: families, Hint: "a digit adds it as " + nextResin(s)}, func(v string) (edit.Edit, error) {
		f, ok := laminate.Families.Parse(v)
		if !ok {
			return edit.Edit{}, errors.New("a digit takes a family")
		}
		return edit.AddResin(s, laminate.Resin{ID: nextResin(s), Family: f}), nil
	}})
}

// nextResin is an id that no resin has: the barrier's, the structure's, then numbers.
func nextResin(s *laminate.Schedule) string {
	for _, id := range []string{"barrier", "structure"} {
		if _, taken := s.Resin(id); !taken {
			return id
		}
	}
	for n := 3; ; n++ {
		id := "resin-" + strconv.Itoa(n)
		if _, taken := s.Resin(id); !taken {
			return id
		}
	}
}

// setter is an edit of one of the tables T.
type setter[T any] func(key, what string, f func(*T)) edit.Edit

func choice[T any, V fmt.Stringer](section, key, label, value string, all []V, set setter[T], put func(*T, string)) entry {
	names := make([]string, len(all))
	for i, v := range all {
		names[i] = v.String()
	}
	return entry{section, page.Field{Label: label, Text: value, Choices: names}, func(v string) (edit.Edit, error) {
		return set(key, stated(label, v), func(t *T) { put(t, v) }), nil
	}}
}

func yesNo[T any](section, key, label string, value laminate.Optional[bool], set setter[T], put func(*T, laminate.Optional[bool])) entry {
	text := ""
	if value.Given {
		text = map[bool]string{true: "yes", false: "no"}[value.Value]
	}
	return entry{section, page.Field{Label: label, Text: text, Choices: []string{"yes", "no"}}, func(v string) (edit.Edit, error) {
		x := laminate.Optional[bool]{}
		if v != "" {
			x = laminate.Some(v == "yes")
		}
		return set(key, stated(label, v), func(t *T) { put(t, x) }), nil
	}}
}

func measure[T any, D quantity.Dimension](section, key, label string, value quantity.Quantity[D], u quantity.Unit[D], set setter[T], put func(*T, quantity.Quantity[D])) entry {
	hint := u.Symbol() + ", or any unit"
	if value.Given() && !strings.HasSuffix(value.Text(), u.Name()) {
		hint = "= " + value.Format(u, 2)
	}
	return entry{section, page.Field{Label: label, Text: value.Text(), Hint: hint}, func(v string) (edit.Edit, error) {
		q := quantity.Quantity[D]{}
		if strings.TrimSpace(v) != "" {
			var err error
			if q, err = quantity.ParseDefault(v, u); err != nil {
				return edit.Edit{}, fmt.Errorf("%s: %w; write 36 %s, for example", label, err, u.Name())
			}
		}
		return set(key, stated(label, q.Text()), func(t *T) { put(t, q) }), nil
	}}
}

func share[T any](section, key, label string, value laminate.Optional[float64], hint string, set setter[T], put func(*T, laminate.Optional[float64])) entry {
	text := ""
	if value.Given {
		text = quantity.ShareText(value.Value)
	}
	return entry{section, page.Field{Label: label, Text: text, Hint: hint}, func(v string) (edit.Edit, error) {
		x, err := page.ReadShare(v)
		if err != nil {
			return edit.Edit{}, fmt.Errorf("%s: %w; write 15 %% or 0.15", label, err)
		}
		shown := ""
		if x.Given {
			shown = quantity.ShareText(x.Value)
		}
		return set(key, stated(label, shown), func(t *T) { put(t, x) }), nil
	}}
}

func number[T any](section, key, label string, value laminate.Optional[float64], set setter[T], put func(*T, laminate.Optional[float64])) entry {
	text := ""
	if value.Given {
		text = strconv.FormatFloat(value.Value, 'f', -1, 64)
	}
	return entry{section, page.Field{Label: label, Text: text}, func(v string) (edit.Edit, error) {
		x := laminate.Optional[float64]{}
		if t := strings.TrimSpace(v); t != "" {
			n, err := strconv.ParseFloat(t, 64)
			if err != nil {
				return edit.Edit{}, fmt.Errorf("%s: %q is not a number; write 1.2, for example", label, t)
			}
			x = laminate.Some(n)
		}
		return set(key, stated(label, v), func(t *T) { put(t, x) }), nil
	}}
}

func whollyNumber[T any](section, key, label string, value laminate.Optional[int], set setter[T], put func(*T, laminate.Optional[int])) entry {
	return entry{section, page.Field{Label: label, Text: whole(value)}, func(v string) (edit.Edit, error) {
		n, err := readWhole(v)
		return set(key, stated(label, v), func(t *T) { put(t, n) }), err
	}}
}

func stated(label, value string) string {
	if strings.TrimSpace(value) == "" {
		return label + " not stated"
	}
	return label + " " + value
}

func whole(o laminate.Optional[int]) string {
	if !o.Given {
		return ""
	}
	return strconv.Itoa(o.Value)
}

func readWhole(s string) (laminate.Optional[int], error) {
	s = strings.TrimSpace(s)
	if s == "" {
		return laminate.Optional[int]{}, nil
	}
	n, err := strconv.Atoi(s)
	if err != nil {
		return laminate.Optional[int]{}, fmt.Errorf("%q is not a whole number; write 25, for example", s)
	}
	return laminate.Some(n), nil
}

func ph(r laminate.PHRange) string {
	if !r.Given {
		return ""
	}
	return quantity.SpanText(r.Lowest, r.Highest)
}

func readPH(s string) (laminate.PHRange, error) {
	if strings.TrimSpace(s) == "" {
		return laminate.PHRange{}, nil
	}
	low, high, err := quantity.ParseSpan(s)
	if err != nil {
		return laminate.PHRange{}, fmt.Errorf("pH: %w", err)
	}
	return laminate.PHRange{Lowest: low, Highest: high, Given: true}, nil
}

func factors(k laminate.KFactors) string {
	if !k.Given {
		return ""
	}
	words := make([]string, len(k.Values))
	for i, v := range k.Values {
		words[i] = strconv.FormatFloat(v, 'f', -1, 64)
	}
	return strings.Join(words, ", ")
}

func readFactors(s string) (laminate.KFactors, error) {
	words := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' })
	k := laminate.KFactors{}
	if len(words) == 0 {
		return k, nil
	}
	if len(words) != len(k.Values) {
		return k, fmt.Errorf("%d k factors are needed, not %d; write 1.5, 1.2, 1, 1.1, 1.5", len(k.Values), len(words))
	}
	for i, w := range words {
		v, err := strconv.ParseFloat(w, 64)
		if err != nil {
			return k, fmt.Errorf("k factors: %q is not a number; write 1.5, 1.2, 1, 1.1, 1.5", w)
		}
		k.Values[i] = v
	}
	k.Given = true
	return k, nil
}
