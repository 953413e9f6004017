package schedules

import (
	"bytes"
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/keyed"
)

type (
	demand     = spec.Specification
	barrier    = spec.Barrier
	structure  = spec.Structure
	outer      struct{ required laminate.Optional[bool] }
	entire     struct{ thickness spec.Thickness }
	inspection = spec.Inspection
	step       = spec.Step
	limit      = spec.DefectLimit
)

// specDocument is a specification while it is read: tables of one key each
// have no struct of their own in the model.
type specDocument struct {
	demand
	outer outer
	total entire
}

var specTables = []keyed.Table{
	{Fields: []keyed.Field{
		keyed.Declaration("document", `"specification"`, `"specification"`),
		keyed.Declaration("format", "1", "1"),
		keyed.TextField("title", func(d *demand) *string { return &d.Title }),
		keyed.TextField("number", func(d *demand) *string { return &d.Number }),
	}, At: func(m any, _ int) any { return &m.(*specDocument).demand }, Rows: keyed.OneRow, Resize: keyed.Fixed},
	{Name: "barrier", Fields: barrierFields, At: func(m any, _ int) any { return &m.(*specDocument).Barrier }, Rows: keyed.OneRow, Resize: keyed.Fixed},
	{Name: "structure", Fields: structureFields, At: func(m any, _ int) any { return &m.(*specDocument).Structure }, Rows: keyed.OneRow, Resize: keyed.Fixed},
	{Name: "outer_surface", Fields: []keyed.Field{
		keyed.AnswerField("required", func(o *outer) *laminate.Optional[bool] { return &o.required }),
	}, At: func(m any, _ int) any { return &m.(*specDocument).outer }, Rows: keyed.OneRow, Resize: keyed.Fixed},
	{Name: "total", Fields: []keyed.Field{
		rangeField("thickness", func(w *entire) *spec.Thickness { return &w.thickness }),
	}, At: func(m any, _ int) any { return &m.(*specDocument).total }, Rows: keyed.OneRow, Resize: keyed.Fixed},
	{Name: "sequence", Array: true, Most: laminate.MostPlies, Fields: []keyed.Field{
		keyed.WordField("form", func(s *step) *laminate.Form { return &s.Form }, laminate.Forms),
		keyed.CountField("plies", func(s *step) *int { return &s.Plies }),
		keyed.FlagField("any", func(s *step) *bool { return &s.Any }),
	}, At: func(m any, i int) any { return &m.(*specDocument).Sequence[i] },
		Rows: func(m any) int { return len(m.(*specDocument).Sequence) },
		Resize: func(m any, n int) {
			m.(*specDocument).Sequence = make([]step, n)
			for i := range n {
				m.(*specDocument).Sequence[i].Plies = 1
			}
		}},
	{Name: "inspection", Fields: inspectionFields, At: func(m any, _ int) any { return &m.(*specDocument).Inspection }, Rows: keyed.OneRow, Resize: keyed.Fixed},
}

var barrierFields = []keyed.Field{
	wordsField("veil_fiber", func(b *barrier) *[]laminate.Fiber { return &b.VeilFiber }, laminate.Fibers),
	keyed.WholeField("veil_plies", func(b *barrier) *laminate.Optional[int] { return &b.VeilPlies }),
	keyed.FlagField("veil_plies_exact", func(b *barrier) *bool { return &b.VeilExact }),
	keyed.WholeField("mat_plies", func(b *barrier) *laminate.Optional[int] { return &b.MatPlies }),
	keyed.SizeField("mat_areal_mass", func(b *barrier) *quantity.ArealMass { return &b.MatArealMass }),
	rangeField("thickness", func(b *barrier) *spec.Thickness { return &b.Thickness }),
	shareRangeField("glass_content", func(b *barrier) *spec.Range { return &b.GlassContent }),
	wordsField("resin", func(b *barrier) *[]laminate.Family { return &b.Resin }, laminate.Families),
	keyed.WordField("filler", func(b *barrier) *laminate.Filler { return &b.Filler }, laminate.Fillers),
	shareRangeField("filler_content", func(b *barrier) *spec.Range { return &b.FillerContent }),
	keyed.AnswerField("conductive", func(b *barrier) *laminate.Optional[bool] { return &b.Conductive }),
}

var structureFields = []keyed.Field{
	keyed.WordField("process", func(s *structure) *laminate.Process { return &s.Process }, laminate.Processes),
	wordsField("resin", func(s *structure) *[]laminate.Family { return &s.Resin }, laminate.Families),
	rangeField("thickness", func(s *structure) *spec.Thickness { return &s.Thickness }),
	shareRangeField("glass_content", func(s *structure) *spec.Range { return &s.GlassContent }),
	wordsField("forms", func(s *structure) *[]laminate.Form { return &s.Forms }, laminate.Forms),
	spanField("angle", "degrees from the axis, 0 to 90, the lower first", 0, 90, func(s *structure) *spec.Range { return &s.Angle }),
}

var inspectionFields = []keyed.Field{
	keyed.WholeField("thickness_readings", func(i *inspection) *laminate.Optional[int] { return &i.ThicknessReadings }),
	keyed.ShareField("spot_minimum", func(i *inspection) *laminate.Optional[float64] { return &i.SpotMinimum }),
	keyed.NumberField("barcol", "the resin maker's figure, 0 to 100", func(i *inspection) *laminate.Optional[float64] { return &i.Barcol }),
	keyed.WholeField("barcol_readings", func(i *inspection) *laminate.Optional[int] { return &i.BarcolReadings }),
	keyed.WholeField("ignition_specimens", func(i *inspection) *laminate.Optional[int] { return &i.IgnitionSpecimens }),
	keyed.AnswerField("acetone", func(i *inspection) *laminate.Optional[bool] { return &i.Acetone }),
	keyed.AnswerField("layup_record", func(i *inspection) *laminate.Optional[bool] { return &i.LayupRecord }),
	keyed.SizeField("resistance_to_ground_max", func(i *inspection) *quantity.Resistance { return &i.ResistanceToGroundMax }),
	{Key: "defect", What: "[[inspection.defect]] tables", // their keys are read by defects, which knows their lines
		Set: func(_, value any) string {
			if _, ok := value.([]map[string]any); !ok {
				return "[[inspection.defect]] tables are expected, not " + keyed.KindOf(value)
			}
			return ""
		},
		Get: func(any) (string, bool) { return "", false }},
}

var defectFields = []keyed.Field{
	keyed.WordField("kind", func(l *limit) *spec.Defect { return &l.Kind }, spec.Defects),
	keyed.WordField("side", func(l *limit) *spec.Side { return &l.Side }, spec.Sides),
	keyed.SizeField("size_max", func(l *limit) *quantity.Length { return &l.SizeMax }),
	keyed.SizeField("depth_max", func(l *limit) *quantity.Length { return &l.DepthMax }),
	keyed.WholeField("per_area_max", func(l *limit) *laminate.Optional[int] { return &l.PerAreaMax }),
	keyed.SizeField("area", func(l *limit) *quantity.Area { return &l.Area }),
}

// rangeField is a lowest and a highest length; "" leaves a side open.
func rangeField[T any](key string, at func(*T) *spec.Thickness) keyed.Field {
	return keyed.Field{Key: key, What: `a list of 2 lengths, the lowest first; "" leaves a side open`,
		Set: func(row, value any) string {
			list, wrong := keyed.WordsOf(value)
			if wrong != "" || len(list) != 2 {
				return `a list of 2 lengths with their units is expected, such as ["100 mil", "140 mil"], "" for an open side`
			}
			var t spec.Thickness
			for i, side := range []*quantity.Length{&t.Lowest, &t.Highest} {
				if list[i] == "" {
					continue
				}
				if err := quantity.Read(side, list[i]); err != nil {
					return err.Error()
				}
				if side.SI() <= 0 || side.In(quantity.Meter) > 1 {
					return fmt.Sprintf("%s is not above 0 and at most 1 m", keyed.Quoted(list[i]))
				}
			}
			if t.Lowest.Given() && t.Highest.Given() && t.Lowest.Cmp(t.Highest) > 0 {
				return "the lowest comes first"
			}
			*at(row.(*T)) = t
			return ""
		},
		Get: func(row any) (string, bool) {
			t := at(row.(*T))
			return keyed.TOMLList([]string{keyed.TOMLText(t.Lowest.Text()), keyed.TOMLText(t.Highest.Text())}), t.Given()
		}}
}

func shareRangeField[T any](key string, at func(*T) *spec.Range) keyed.Field {
	return spanField(key, "a list of 2 shares from 0 to 1, the lowest first", 0, 1, at)
}

// spanField is a lowest and a highest number.
func spanField[T any](key, what string, least, most float64, at func(*T) *spec.Range) keyed.Field {
	return keyed.Field{Key: key, What: what,
		Set: func(row, value any) string {
			list, wrong := keyed.Numbers(value, 2)
			switch {
			case wrong != "":
				return wrong
			case list[0] > list[1]:
				return "the lowest comes first"
			case list[0] < least || list[1] > most:
				return fmt.Sprintf("both must lie between %v and %v", least, most)
			}
			*at(row.(*T)) = spec.Range{Lowest: list[0], Highest: list[1], Given: true}
			return ""
		},
		Get: func(row any) (string, bool) {
			r := at(row.(*T))
			return keyed.TOMLList([]string{keyed.TOMLNumber(r.Lowest), keyed.TOMLNumber(r.Highest)}), r.Given
		}}
}

// wordsField is a list of words of a closed set.
func wordsField[T any, W ~uint8](key string, at func(*T) *[]W, set word.Set[W]) keyed.Field {
	return keyed.Field{Key: key, What: "a list of " + set.List(),
		Set: func(row, value any) string {
			got, wrong := keyed.WordsOf(value)
			switch {
			case wrong != "":
				return wrong
			case len(got) == 0:
				return "the list is empty: leave the key out where nothing is demanded"
			}
			out := make([]W, len(got))
			for i, s := range got {
				w, ok := set.Parse(s)
				if !ok {
					return keyed.WrongWord(s, set.Words())
				}
				out[i] = w
			}
			*at(row.(*T)) = out
			return ""
		},
		Get: func(row any) (string, bool) {
			var items []string
			for _, w := range *at(row.(*T)) {
				items = append(items, keyed.TOMLText(set.Name(w)))
			}
			return keyed.TOMLList(items), len(items) > 0
		}}
}

// DecodeSpecification reads a specification. Where there are problems it is
// nil; all of them are told.
func DecodeSpecification(b []byte) (*spec.Specification, []Problem) {
	d := new(specDocument)
	src, problems := read(b, Specification, specTables, d)
	if src.doc == nil {
		return nil, problems
	}
	d.OuterSurface, d.Total = d.outer.required, d.total.thickness
	problems = append(problems, src.defects(d)...)
	problems = append(problems, src.strange(specTables)...)
	problems = append(problems, src.demands(d, specTables, 0)...)
	if len(problems) > 0 {
		return nil, keyed.Sorted(problems)
	}
	return &d.demand, nil
}

// demands tells values that no inspection could use. Other documents have the
// tables of a specification too: first is where its root would stand in theirs.
func (s *Source) demands(d *specDocument, tables []keyed.Table, first int) []Problem {
	var problems []Problem
	fail := func(table, row int, key, message string) {
		p := Problem{Key: keyed.Name(&tables[first+table], key), Message: message}
		p.Line, p.Column = keyed.Place(s.doc.Data, max(0, s.doc.Offset(first+table, row, key)))
		problems = append(problems, p)
	}
	const barrierTable, sequenceTable, inspectionTable = 1, 5, 6
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
	positive(inspectionTable, "barcol_readings", i.BarcolReadings, 1)
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

// defects reads the [[inspection.defect]] tables, which stand one level deeper
// than the outline looks: each head's place is known, keys are found below it.
func (s *Source) defects(d *specDocument) []Problem {
	values, _ := s.doc.Out.Values()
	in, _ := values["inspection"].(map[string]any)
	list, _ := in["defect"].([]map[string]any)
	heads := s.heads("inspection.defect")
	t := keyed.Table{Name: "inspection.defect", Fields: defectFields}
	var problems []Problem
	for n, row := range list {
		from, to := 0, len(s.doc.Data)
		if n < len(heads) {
			from = heads[n]
		}
		if end := bytes.Index(s.doc.Data[from:], []byte("\n[")); end >= 0 {
			to = from + end
		}
		fail := func(key, message string) {
			p := Problem{Key: keyed.Name(&t, key), Message: message}
			p.Line, p.Column = keyed.Place(s.doc.Data, keyBelow(s.doc.Data, from, to, key))
			problems = append(problems, p)
		}
		var l limit
		for key, value := range row {
			f := t.Field(key)
			if f == nil {
				fail(key, keyed.Unknown([]keyed.Table{t, t}, &t, key))
				continue
			}
			if wrong := f.Set(&l, value); wrong != "" {
				fail(key, wrong)
			}
		}
		if _, told := row["kind"]; !told {
			fail("kind", "it is missing")
		}
		for key, q := range map[string]quantity.Length{"size_max": l.SizeMax, "depth_max": l.DepthMax} {
			if q.Given() && q.SI() < 0 {
				fail(key, "it is below 0")
			}
		}
		if l.Area.Given() && l.Area.SI() <= 0 {
			fail("area", "it is not above 0")
		}
		if l.PerAreaMax.Given && l.PerAreaMax.Value < 0 {
			fail("per_area_max", "it is below 0")
		}
		d.Inspection.Defects = append(d.Inspection.Defects, l)
	}
	return problems
}

// heads finds where the [[title]] lines begin.
func (s *Source) heads(title string) []int {
	var at []int
	for _, h := range s.doc.Out.Heads {
		if strings.Trim(string(s.doc.Data[h.Start:h.End]), "[] \t") == title {
			at = append(at, h.Start)
		}
	}
	return at
}

// keyBelow finds the line of a key between two offsets, else the first offset.
func keyBelow(data []byte, from, to int, key string) int {
	at := from
	for at < to {
		end := bytes.IndexByte(data[at:to], '\n')
		if end < 0 {
			end = to - at
		}
		line := data[at : at+end]
		bare := bytes.TrimLeft(line, " \t")
		if rest, ok := bytes.CutPrefix(bare, []byte(key)); ok && bytes.HasPrefix(bytes.TrimLeft(rest, " \t"), []byte("=")) {
			return at + len(line) - len(bare)
		}
		at += end + 1
	}
	return from
}
