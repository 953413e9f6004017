package schedules

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/spell"
	"frp/veilwright/schedules/internal/tables"
)

// specDemands are the tables of a specification that an exercise has too.
var specDemands = sync.OnceValue(func() []tables.Table {
	return []tables.Table{
		tables.One("barrier", []tables.Field{
			wordsField("veil_fiber", func(b *spec.Barrier) *[]laminate.Fiber { return &b.VeilFiber }, laminate.Fibers),
			tables.WholeField("veil_plies", func(b *spec.Barrier) *laminate.Optional[int] { return &b.VeilPlies }),
			tables.FlagField("veil_plies_exact", func(b *spec.Barrier) *bool { return &b.VeilExact }),
			tables.WholeField("mat_plies", func(b *spec.Barrier) *laminate.Optional[int] { return &b.MatPlies }),
			tables.SizeField("mat_areal_mass", func(b *spec.Barrier) *quantity.ArealMass { return &b.MatArealMass }),
			rangeField("thickness", func(b *spec.Barrier) *spec.Thickness { return &b.Thickness }),
			shareRangeField("glass_content", func(b *spec.Barrier) *spec.Range { return &b.GlassContent }),
			wordsField("resin", func(b *spec.Barrier) *[]laminate.Family { return &b.Resin }, laminate.Families),
			tables.WordField("filler", func(b *spec.Barrier) *laminate.Filler { return &b.Filler }, laminate.Fillers),
			shareRangeField("filler_content", func(b *spec.Barrier) *spec.Range { return &b.FillerContent }),
			tables.AnswerField("conductive", func(b *spec.Barrier) *laminate.Optional[bool] { return &b.Conductive }),
		}, func(d *spec.Specification) *spec.Barrier { return &d.Barrier }),
		tables.One("structure", []tables.Field{
			tables.WordField("process", func(s *spec.Structure) *laminate.Process { return &s.Process }, laminate.Processes),
			wordsField("resin", func(s *spec.Structure) *[]laminate.Family { return &s.Resin }, laminate.Families),
			rangeField("thickness", func(s *spec.Structure) *spec.Thickness { return &s.Thickness }),
			shareRangeField("glass_content", func(s *spec.Structure) *spec.Range { return &s.GlassContent }),
			wordsField("forms", func(s *spec.Structure) *[]laminate.Form { return &s.Forms }, laminate.Forms),
			spanField("angle", "degrees from the axis, 0 to 90, the lower first", 0, 90, func(s *spec.Structure) *spec.Range { return &s.Angle }),
		}, func(d *spec.Specification) *spec.Structure { return &d.Structure }),
		tables.One("outer_surface", []tables.Field{
			tables.AnswerField("required", func(d *spec.Specification) *laminate.Optional[bool] { return &d.OuterSurface }),
		}, func(d *spec.Specification) *spec.Specification { return d }),
		tables.One("total", []tables.Field{
			rangeField("thickness", func(d *spec.Specification) *spec.Thickness { return &d.Total }),
		}, func(d *spec.Specification) *spec.Specification { return d }),
		tables.Many("sequence", laminate.MostPlies, []tables.Field{
			tables.WordField("form", func(s *spec.Step) *laminate.Form { return &s.Form }, laminate.Forms),
			tables.CountField("plies", func(s *spec.Step) *int { return &s.Plies }),
			tables.FlagField("any", func(s *spec.Step) *bool { return &s.Any }),
		}, func(d *spec.Specification) *[]spec.Step { return &d.Sequence }),
	}
})

// specTables are all of its tables: the top level, what is demanded of the wall
// and what is inspected.
var specTables = sync.OnceValue(func() []tables.Table {
	return slices.Concat([]tables.Table{
		tables.One("", declared(Specification,
			tables.TextField("title", func(d *spec.Specification) *string { return &d.Title }),
			tables.TextField("number", func(d *spec.Specification) *string { return &d.Number }),
		), func(d *spec.Specification) *spec.Specification { return d }),
	}, specDemands(), []tables.Table{
		tables.One("inspection", []tables.Field{
			tables.WholeField("thickness_readings", func(i *spec.Inspection) *laminate.Optional[int] { return &i.ThicknessReadings }),
			tables.ShareField("spot_minimum", func(i *spec.Inspection) *laminate.Optional[float64] { return &i.SpotMinimum }),
			tables.NumberField("barcol", "the resin manufacturer's figure, 0 to 100", func(i *spec.Inspection) *laminate.Optional[float64] { return &i.Barcol }),
			tables.WholeField("barcol_readings", func(i *spec.Inspection) *laminate.Optional[int] { return &i.BarcolReadings }),
			tables.WholeField("ignition_specimens", func(i *spec.Inspection) *laminate.Optional[int] { return &i.IgnitionSpecimens }),
			tables.AnswerField("acetone", func(i *spec.Inspection) *laminate.Optional[bool] { return &i.Acetone }),
			tables.AnswerField("layup_record", func(i *spec.Inspection) *laminate.Optional[bool] { return &i.LayupRecord }),
			tables.AnswerField("calibrated", func(i *spec.Inspection) *laminate.Optional[bool] { return &i.Calibrated }),
			tables.SizeField("resistance_to_ground_max", func(i *spec.Inspection) *quantity.Resistance { return &i.ResistanceToGroundMax }),
			tables.TextField("acceptance_level", func(i *spec.Inspection) *string { return &i.AcceptanceLevel }),
		}, func(d *spec.Specification) *spec.Inspection { return &d.Inspection }),
		tables.Many("inspection.defect", laminate.MostRows, defectFields(), func(d *spec.Specification) *[]spec.DefectLimit { return &d.Inspection.Defects }),
		tables.Many("inspection.plan", laminate.MostRows, []tables.Field{
			tables.WordField("of", func(p *spec.Plan) *inspection.Kind { return &p.Of }, inspection.Kinds),
			groupField("zone", "total (the whole wall), barrier, or a zone: what is measured", func(p *spec.Plan) *inspection.Group { return &p.Group }),
			tables.TextField("places", func(p *spec.Plan) *string { return &p.Places }),
			tables.WordField("side", func(p *spec.Plan) *spec.Side { return &p.Side }, spec.Sides),
			tables.TextField("method", func(p *spec.Plan) *string { return &p.Method }),
			tables.WholeField("number", func(p *spec.Plan) *laminate.Optional[int] { return &p.Number }),
			tables.WordField("judge", func(p *spec.Plan) *spec.Judge { return &p.Judge }, spec.Judges),
			tables.ShareField("spot_minimum", func(p *spec.Plan) *laminate.Optional[float64] { return &p.SpotMinimum }),
			tables.TextField("witness", func(p *spec.Plan) *string { return &p.Witness }),
		}, func(d *spec.Specification) *[]spec.Plan { return &d.Inspection.Plans }),
		tables.Many("inspection.dimension", laminate.MostRows, []tables.Field{
			tables.WordField("what", func(d *spec.Dimension) *spec.Measure { return &d.What }, spec.Measures),
			boundsField("value", func(d *spec.Dimension) *spec.Bounds { return &d.Value }),
			tables.TextField("places", func(d *spec.Dimension) *string { return &d.Places }),
		}, func(d *spec.Specification) *[]spec.Dimension { return &d.Inspection.Dimensions }),
		tables.One("inspection.hydrotest", []tables.Field{
			tables.SizeField("pressure", func(h *spec.Hydrotest) *quantity.Pressure { return &h.Pressure }),
			tables.TextField("held", func(h *spec.Hydrotest) *string { return &h.Held }),
			tables.TextField("witness", func(h *spec.Hydrotest) *string { return &h.Witness }),
		}, func(d *spec.Specification) *spec.Hydrotest { return &d.Inspection.Hydrotest }),
		tables.One("inspection.post_cure", []tables.Field{
			tables.SizeField("temperature", func(p *spec.PostCure) *quantity.Temperature { return &p.Temperature }),
			tables.TextField("held", func(p *spec.PostCure) *string { return &p.Held }),
		}, func(d *spec.Specification) *spec.PostCure { return &d.Inspection.PostCure }),
		tables.Many("inspection.hold", laminate.MostRows, []tables.Field{
			tables.TextField("point", func(h *spec.Hold) *string { return &h.Point }),
			tables.WholeField("before_ply", func(h *spec.Hold) *laminate.Optional[int] { return &h.BeforePly }),
			tables.TextField("witness", func(h *spec.Hold) *string { return &h.Witness }),
		}, func(d *spec.Specification) *[]spec.Hold { return &d.Inspection.Holds }),
	})
})

// The tables of a specification; in an exercise those of specDemands stand
// elsewhere.
const (
	barrierTable    = 1
	sequenceTable   = 5
	inspectionTable = 6
	limitTable      = 7
	planTable       = 8
	dimensionTable  = 9
	hydrotestTable  = 10
	postCureTable   = 11
	holdTable       = 12
)

var defectFields = sync.OnceValue(func() []tables.Field {
	return []tables.Field{
		tables.WordField("kind", func(l *spec.DefectLimit) *spec.Defect { return &l.Kind }, spec.Defects),
		tables.WordField("side", func(l *spec.DefectLimit) *spec.Side { return &l.Side }, spec.Sides),
		tables.SizeField("size_max", func(l *spec.DefectLimit) *quantity.Length { return &l.SizeMax }),
		tables.SizeField("depth_max", func(l *spec.DefectLimit) *quantity.Length { return &l.DepthMax }),
		tables.WholeField("per_area_max", func(l *spec.DefectLimit) *laminate.Optional[int] { return &l.PerAreaMax }),
		tables.SizeField("area", func(l *spec.DefectLimit) *quantity.Area { return &l.Area }),
	}
})

// rangeField is a lowest and a highest length; "" leaves a side open.
func rangeField[T any](key string, at func(*T) *spec.Thickness) tables.Field {
	return tables.Of(key, `a list of 2 lengths, the lowest first; "" leaves a side open`, at,
		func(value any) (t spec.Thickness, wrong string) {
			list, wrong := tables.WordsOf(value)
			if wrong != "" || len(list) != 2 {
				return t, `a list of 2 lengths with their units is expected, such as ["100 mil", "140 mil"], "" for an open side`
			}
			for i, side := range []*quantity.Length{&t.Lowest, &t.Highest} {
				if list[i] == "" {
					continue
				}
				if err := quantity.Read(side, list[i]); err != nil {
					return t, err.Error()
				}
				if side.SI() <= 0 || side.In(quantity.Meter) > 1 {
					return t, fmt.Sprintf("%s is not above 0 and at most 1 m", tables.Quoted(list[i]))
				}
			}
			if t.Lowest.Given() && t.Highest.Given() && t.Lowest.Cmp(t.Highest) > 0 {
				return t, "the lowest comes first"
			}
			return t, ""
		},
		func(t spec.Thickness) (string, bool) {
			return spell.Words([]string{t.Lowest.Text(), t.Highest.Text()}), t.Given()
		})
}

func shareRangeField[T any](key string, at func(*T) *spec.Range) tables.Field {
	return spanField(key, "a list of 2 shares from 0 to 1, the lowest first", 0, 1, at)
}

// spanField is a lowest and a highest number.
func spanField[T any](key, what string, least, most float64, at func(*T) *spec.Range) tables.Field {
	return tables.Of(key, what, at,
		func(value any) (r spec.Range, wrong string) {
			list, wrong := tables.Numbers(value, 2)
			switch {
			case wrong != "":
				return r, wrong
			case list[0] > list[1]:
				return r, "the lowest comes first"
			case list[0] < least || list[1] > most:
				return r, fmt.Sprintf("both must lie between %v and %v", least, most)
			}
			return spec.Range{Lowest: list[0], Highest: list[1], Given: true}, ""
		},
		func(r spec.Range) (string, bool) {
			return spell.Numbers([]float64{r.Lowest, r.Highest}), r.Given
		})
}

// wordsField is a list of words of a closed set.
func wordsField[T any, W ~uint8](key string, at func(*T) *[]W, set word.Set[W]) tables.Field {
	return tables.Of(key, "a list of "+set.List(), at,
		func(value any) ([]W, string) {
			list, wrong := tables.ParseWords(value, set)
			if wrong == "" && len(list) == 0 {
				wrong = "the list is empty: leave the key out where nothing is required"
			}
			return list, wrong
		},
		func(list []W) (string, bool) {
			words := make([]string, len(list))
			for i, w := range list {
				words[i] = set.Name(w)
			}
			return spell.Words(words), len(words) > 0
		})
}

// DecodeSpecification reads a specification. Where there are problems it is
// nil; all of them are told.
func DecodeSpecification(b []byte) (*spec.Specification, []Problem) {
	d := new(spec.Specification)
	src, problems := read(b, Specification, specTables(), d)
	if src.doc == nil {
		return nil, problems
	}
	problems = src.doc.Strange(problems, d)
	problems = src.demands(problems, d, 0)
	problems = src.limits(problems, d.Inspection.Defects)
	problems = src.plans(problems, d.Inspection)
	problems = src.partDemands(problems, &d.Inspection)
	if len(problems) > 0 {
		return nil, tables.Sorted(problems)
	}
	return d, nil
}

// demands tells values that no inspection could use. Other documents have the
// tables of a specification too: first is where its root would stand in theirs.
func (s *Source) demands(problems []Problem, d *spec.Specification, first int) []Problem {
	fail := func(table, row int, key, message string) {
		problems = s.fault(problems, tables.Spot{Table: first + table, Row: row, Key: key}, message)
	}
	positive := func(table int, key string, o laminate.Optional[int], least int) {
		if o.Given && (o.Value < least || o.Value > laminate.MostPlies) {
			fail(table, 0, key, fmt.Sprintf("%d is not between %d and %d", o.Value, least, laminate.MostPlies))
		}
	}
	positive(barrierTable, "veil_plies", d.Barrier.VeilPlies, 0)
	positive(barrierTable, "mat_plies", d.Barrier.MatPlies, 0)
	if m := d.Barrier.MatArealMass; m.Given() && (m.SI() <= 0 || m.SI() > 10) {
		fail(barrierTable, 0, "mat_areal_mass", "it is not above 0 and at most 10 kg/m2")
	}
	i := d.Inspection
	positive(inspectionTable, "thickness_readings", i.ThicknessReadings, 1)
	if n := i.BarcolReadings; n.Given && n.Value < inspection.BarcolReadings {
		fail(inspectionTable, 0, "barcol_readings", inspection.TooFewBarcol(n.Value)+` where each reading is judged, an [[inspection.plan]] of "barcol" with judge = "each" and its number takes fewer`)
	} else {
		positive(inspectionTable, "barcol_readings", n, inspection.BarcolReadings)
	}
	positive(inspectionTable, "ignition_specimens", i.IgnitionSpecimens, 1)
	if i.SpotMinimum.Given && !(i.SpotMinimum.Value > 0 && i.SpotMinimum.Value <= 1) {
		fail(inspectionTable, 0, "spot_minimum", "it is a share above 0 and at most 1")
	}
	if i.Barcol.Given && !(i.Barcol.Value > 0 && i.Barcol.Value <= 100) {
		fail(inspectionTable, 0, "barcol", "the Barcol scale runs from 0 to 100")
	}
	if i.ResistanceToGroundMax.Given() && i.ResistanceToGroundMax.SI() <= 0 {
		fail(inspectionTable, 0, "resistance_to_ground_max", "it is not above 0")
	}
	for n, step := range d.Sequence {
		switch {
		case step.Any && (step.Form != laminate.NoForm || n != len(d.Sequence)-1):
			fail(sequenceTable, n, "any", "it stands alone, in the last [[sequence]] table")
		case !step.Any && step.Form == laminate.NoForm:
			fail(sequenceTable, n, "", "it lacks a form, or any = true")
		case step.Plies < 1 || step.Plies > laminate.MostPlies:
			fail(sequenceTable, n, "plies", fmt.Sprintf("%d is not between 1 and %d", step.Plies, laminate.MostPlies))
		}
	}
	return problems
}

// limits tells what is wrong with the limits of defects.
func (s *Source) limits(problems []Problem, list []spec.DefectLimit) []Problem {
	for n := range list {
		for _, w := range limitFaults(&list[n]) {
			problems = s.fault(problems, tables.Spot{Table: limitTable, Row: n, Key: w.key}, w.message)
		}
	}
	return problems
}

// limitFaults tells what is wrong with one limit.
func limitFaults(l *spec.DefectLimit) (all []wrong) {
	if l.Kind == spec.NoDefect {
		all = append(all, wrong{"kind", "it is missing"})
	}
	if l.SizeMax.Given() && l.SizeMax.SI() < 0 {
		all = append(all, wrong{"size_max", "it is below 0"})
	}
	if l.DepthMax.Given() && l.DepthMax.SI() < 0 {
		all = append(all, wrong{"depth_max", "it is below 0"})
	}
	if l.Area.Given() && l.Area.SI() <= 0 {
		all = append(all, wrong{"area", "it is not above 0"})
	}
	if l.PerAreaMax.Given && l.PerAreaMax.Value < 0 {
		all = append(all, wrong{"per_area_max", "it is below 0"})
	}
	return all
}

// plans tells what is wrong with how readings are to be taken.
func (s *Source) plans(problems []Problem, d spec.Inspection) []Problem {
	type what struct {
		of    inspection.Kind
		group inspection.Group
		side  spec.Side
	}
	seen := map[what]bool{}
	for n := range d.Plans {
		p := &d.Plans[n]
		fail := func(key, message string) {
			problems = s.fault(problems, tables.Spot{Table: planTable, Row: n, Key: key}, message)
		}
		for i, name := range p.Names() {
			if name == "" || slices.Contains(p.Names()[:i], name) {
				fail("places", "names of places are expected, separated by commas, each of them once")
				break
			}
		}
		k := what{p.Of, p.Group, p.Side}
		switch least := leastReadings(p); {
		case p.Of == inspection.NoKind:
			fail("of", "it is missing")
		case seen[k]:
			fail("of", "there is a plan of "+p.Of.String()+" for this zone and side already")
		case p.Number.Given && p.Number.Value >= 1 && p.Number.Value < least:
			fail("number", inspection.TooFewBarcol(p.Number.Value)+` judge = "each" takes fewer`)
		case p.Number.Given && (p.Number.Value < least || p.Number.Value > MostEntries):
			fail("number", fmt.Sprintf("%d is not between %d and %d", p.Number.Value, least, MostEntries))
		case p.Of != inspection.WallThickness && p.Of != inspection.IgnitionLoss && p.Group != inspection.WholeWall:
			fail("zone", "only thickness and ignition-loss are of a part of the wall")
		case p.SpotMinimum.Given && (p.Of != inspection.WallThickness || !(p.SpotMinimum.Value > 0 && p.SpotMinimum.Value <= 1)):
			fail("spot_minimum", "it is a share above 0 and at most 1, of thickness")
		case p.Judge != spec.NoJudge && p.Of != inspection.WallThickness && p.Of != inspection.Barcol:
			fail("judge", "each or mean is a question of thickness and barcol; the others are judged each")
		}
		seen[k] = true
	}
	return problems
}

// leastReadings of a plan at a place: an average of Barcol needs ten.
func leastReadings(p *spec.Plan) int {
	if p.Of == inspection.Barcol && p.Judge != spec.Each {
		return inspection.BarcolReadings
	}
	return 1
}

// boundsField is a lowest and a highest length, of any size that a part has.
func boundsField[T any](key string, at func(*T) *spec.Bounds) tables.Field {
	return tables.Of(key, `a list of 2 lengths, the lowest first; "" leaves a side open`, at,
		func(value any) (b spec.Bounds, wrong string) {
			list, wrong := tables.WordsOf(value)
			if wrong != "" || len(list) != 2 {
				return b, `a list of 2 lengths with their units is expected, such as ["23.9 in", "24.1 in"], "" for an open side`
			}
			for i, side := range []*quantity.Length{&b.Lowest, &b.Highest} {
				if list[i] == "" {
					continue
				}
				if err := quantity.Read(side, list[i]); err != nil {
					return b, err.Error()
				}
				if side.SI() < 0 || side.In(quantity.Meter) > 1000 {
					return b, fmt.Sprintf("%s is not from 0 to 1000 m", tables.Quoted(list[i]))
				}
			}
			if b.Lowest.Given() && b.Highest.Given() && b.Lowest.Cmp(b.Highest) > 0 {
				return b, "the lowest comes first"
			}
			return b, ""
		},
		func(b spec.Bounds) (string, bool) {
			return spell.Words([]string{b.Lowest.Text(), b.Highest.Text()}), b.Given()
		})
}

// notASpan says what is wrong with a time such as "30 min", "" for nothing.
func notASpan(text string) string {
	if _, ok := record.Span(text); !ok && text != "" {
		return `a time above 0 such as "30 min" or "1.5 h" is expected`
	}
	return ""
}

// partDemands tells what is wrong with what is required of the finished part.
func (s *Source) partDemands(problems []Problem, d *spec.Inspection) []Problem {
	fail := func(table, row int, key, message string) {
		problems = s.fault(problems, tables.Spot{Table: table, Row: row, Key: key}, message)
	}
	for i, x := range d.Dimensions {
		switch {
		case x.What == spec.NoMeasure:
			fail(dimensionTable, i, "what", "it is missing")
		case !x.Value.Given():
			fail(dimensionTable, i, "value", "it is missing: the lowest and the highest")
		}
	}
	if wrong := notASpan(d.Hydrotest.Held); wrong != "" {
		fail(hydrotestTable, 0, "held", wrong)
	}
	if h := &d.Hydrotest; h.Pressure.Given() && h.Pressure.SI() <= 0 {
		fail(hydrotestTable, 0, "pressure", "it is not above 0")
	} else if !h.Pressure.Given() && h.Held+h.Witness != "" {
		fail(hydrotestTable, 0, "pressure", "it is missing")
	}
	if wrong := notASpan(d.PostCure.Held); wrong != "" {
		fail(postCureTable, 0, "held", wrong)
	}
	if !d.PostCure.Temperature.Given() && d.PostCure.Held != "" {
		fail(postCureTable, 0, "temperature", "it is missing")
	}
	for i, x := range d.Holds {
		if strings.TrimSpace(x.Point) == "" {
			fail(holdTable, i, "point", "it is missing: what the point is called")
		}
		if x.BeforePly.Given && (x.BeforePly.Value < 1 || x.BeforePly.Value > laminate.MostPlies) {
			fail(holdTable, i, "before_ply", "it is no ply's number")
		}
	}
	return problems
}
