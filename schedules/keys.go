package schedules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/internal/keyed"
)

// The tables of a schedule stand in the order of the laminate.RefKind, so a
// Ref leads to its table without a search.
var scheduleTables = []keyed.Table{
	{Fields: rootFields,
		At: func(m any, _ int) any { return m }, Rows: keyed.OneRow, Resize: keyed.Fixed,
		Same: func(a, b any) bool { return sameRoot(a.(*laminate.Schedule), b.(*laminate.Schedule)) }},
	{Name: "part", Fields: partFields,
		At: func(m any, _ int) any { return &m.(*laminate.Schedule).Part }, Rows: keyed.OneRow, Resize: keyed.Fixed, Same: equal[laminate.Part]},
	{Name: "service", Fields: serviceFields,
		At: func(m any, _ int) any { return &m.(*laminate.Schedule).Service }, Rows: keyed.OneRow, Resize: keyed.Fixed, Same: equal[laminate.Service]},
	{Name: "resin", Array: true, Most: laminate.MostRows, Fields: resinFields,
		At:     func(m any, i int) any { return &m.(*laminate.Schedule).Resins[i] },
		Rows:   func(m any) int { return len(m.(*laminate.Schedule).Resins) },
		Resize: func(m any, n int) { m.(*laminate.Schedule).Resins = make([]laminate.Resin, n) },
		Same:   equal[laminate.Resin], Origin: func(r any) *laminate.Origin { return &r.(*laminate.Resin).Origin }},
	{Name: "material", Array: true, Most: laminate.MostRows, Fields: materialFields,
		At:     func(m any, i int) any { return &m.(*laminate.Schedule).Materials[i] },
		Rows:   func(m any) int { return len(m.(*laminate.Schedule).Materials) },
		Resize: func(m any, n int) { m.(*laminate.Schedule).Materials = make([]laminate.Material, n) },
		Same:   equal[laminate.Material], Origin: func(r any) *laminate.Origin { return &r.(*laminate.Material).Origin }},
	{Name: "ply", Array: true, Most: laminate.MostRows, Fields: plyFields,
		At:   func(m any, i int) any { return &m.(*laminate.Schedule).Plies[i] },
		Rows: func(m any) int { return len(m.(*laminate.Schedule).Plies) },
		Resize: func(m any, n int) {
			plies := make([]laminate.Ply, n)
			for i := range plies {
				plies[i].Count = 1
			}
			m.(*laminate.Schedule).Plies = plies
		},
		Same: equal[laminate.Ply], Origin: func(r any) *laminate.Origin { return &r.(*laminate.Ply).Origin }},
}

// equal compares rows, their origin included: rows of one origin are compared.
func equal[T comparable](a, b any) bool { return *a.(*T) == *b.(*T) }

func sameRoot(a, b *laminate.Schedule) bool {
	return a.Title == b.Title && a.Job == b.Job && a.Revision == b.Revision && a.Author == b.Author &&
		a.Notes == b.Notes && a.Units == b.Units && a.UnitsSet == b.UnitsSet
}

type (
	doc     = laminate.Schedule
	part    = laminate.Part
	service = laminate.Service
	resin   = laminate.Resin
	stuff   = laminate.Material
	ply     = laminate.Ply
)

var rootFields = []keyed.Field{
	keyed.Declaration("document", `"schedule"`, `"schedule"`),
	keyed.Declaration("format", "1", "1"),
	keyed.TextField("title", func(d *doc) *string { return &d.Title }),
	keyed.TextField("job", func(d *doc) *string { return &d.Job }),
	keyed.WholeField("revision", func(d *doc) *laminate.Optional[int] { return &d.Revision }),
	keyed.TextField("author", func(d *doc) *string { return &d.Author }),
	keyed.NotesField("notes", func(d *doc) *string { return &d.Notes }),
	{Key: "units", What: "us or si: what screens and papers show",
		Set: func(row, value any) string {
			s, _ := value.(string)
			u, ok := quantity.ParseSystem(s)
			if !ok {
				return "us or si is expected, not " + keyed.KindOf(value)
			}
			row.(*doc).Units, row.(*doc).UnitsSet = u, true
			return ""
		},
		Get: func(row any) (string, bool) { d := row.(*doc); return keyed.TOMLText(d.Units.String()), d.UnitsSet }},
}

var partFields = []keyed.Field{
	keyed.WordField("form", func(p *part) *laminate.PartForm { return &p.Form }, laminate.PartForms),
	keyed.WordField("process", func(p *part) *laminate.Process { return &p.Process }, laminate.Processes),
	keyed.SizeField("inside_diameter", func(p *part) *quantity.Length { return &p.InsideDiameter }),
	keyed.SizeField("length", func(p *part) *quantity.Length { return &p.Length }),
	keyed.SizeField("liquid_height", func(p *part) *quantity.Length { return &p.LiquidHeight }),
	keyed.SizeField("area", func(p *part) *quantity.Area { return &p.Area }),
	keyed.AnswerField("flanged", func(p *part) *laminate.Optional[bool] { return &p.Flanged }),
	keyed.WordField("ends", func(p *part) *laminate.Ends { return &p.Ends }, laminate.EndsWords),
	keyed.WordField("design_basis", func(p *part) *laminate.DesignBasis { return &p.DesignBasis }, laminate.DesignBases),
	keyed.SizeField("stiffener_spacing", func(p *part) *quantity.Length { return &p.StiffenerSpacing }),
	keyed.ShareField("modulus_retention", func(p *part) *laminate.Optional[float64] { return &p.ModulusRetention }),
	{Key: "k_factors", What: "a list of 5 numbers",
		Set: func(row, value any) string {
			list, wrong := keyed.Numbers(value, 5)
			if wrong == "" {
				row.(*part).KFactors = laminate.KFactors{Values: [5]float64(list), Given: true}
			}
			return wrong
		},
		Get: func(row any) (string, bool) {
			k := row.(*part).KFactors
			items := make([]string, 0, 5)
			for _, v := range k.Values {
				items = append(items, keyed.TOMLNumber(v))
			}
			return keyed.TOMLList(items), k.Given
		}},
	keyed.TextField("grounding", func(p *part) *string { return &p.Grounding }),
}

var serviceFields = []keyed.Field{
	keyed.TextField("fluid", func(s *service) *string { return &s.Fluid }),
	keyed.ShareField("concentration", func(s *service) *laminate.Optional[float64] { return &s.Concentration }),
	keyed.SizeField("temperature", func(s *service) *quantity.Temperature { return &s.Temperature }),
	keyed.SizeField("upset", func(s *service) *quantity.Temperature { return &s.Upset }),
	{Key: "ph", What: "a list of 2 numbers, the lowest first",
		Set: func(row, value any) string {
			list, wrong := keyed.Numbers(value, 2)
			if wrong == "" {
				row.(*service).PH = laminate.PHRange{Lowest: list[0], Highest: list[1], Given: true}
			}
			return wrong
		},
		Get: func(row any) (string, bool) {
			p := row.(*service).PH
			return keyed.TOMLList([]string{keyed.TOMLNumber(p.Lowest), keyed.TOMLNumber(p.Highest)}), p.Given
		}},
	keyed.WordField("contact", func(s *service) *laminate.Contact { return &s.Contact }, laminate.Contacts),
	carriesField(),
	keyed.SizeField("pressure", func(s *service) *quantity.Pressure { return &s.Pressure }),
	keyed.SizeField("vacuum", func(s *service) *quantity.Pressure { return &s.Vacuum }),
	keyed.SizeField("test_pressure", func(s *service) *quantity.Pressure { return &s.TestPressure }),
	keyed.NumberField("specific_gravity", "a number", func(s *service) *laminate.Optional[float64] { return &s.SpecificGravity }),
	keyed.WholeField("flame_spread", func(s *service) *laminate.Optional[int] { return &s.FlameSpread }),
	keyed.AnswerField("conductive", func(s *service) *laminate.Optional[bool] { return &s.Conductive }),
	keyed.AnswerField("abrasive", func(s *service) *laminate.Optional[bool] { return &s.Abrasive }),
}

func carriesField() keyed.Field {
	words := laminate.TraitWords.Words()
	return keyed.Field{Key: "contains", What: "a list of " + keyed.TOMLList(words),
		Set: func(row, value any) string {
			list, wrong := keyed.WordsOf(value)
			if wrong != "" {
				return wrong
			}
			var traits []laminate.Trait
			for _, s := range list {
				t, ok := laminate.TraitWords.Parse(s)
				if !ok {
					return keyed.WrongWord(s, words)
				}
				traits = append(traits, t)
			}
			row.(*service).Contains = laminate.TraitSet(traits...)
			return ""
		},
		Get: func(row any) (string, bool) {
			c := row.(*service).Contains
			var items []string
			for _, t := range c.List() {
				items = append(items, keyed.TOMLText(t.String()))
			}
			return keyed.TOMLList(items), c.Given
		}}
}

var resinFields = []keyed.Field{
	keyed.TextField("id", func(r *resin) *string { return &r.ID }),
	keyed.WordField("family", func(r *resin) *laminate.Family { return &r.Family }, laminate.Families),
	keyed.WordField("filler", func(r *resin) *laminate.Filler { return &r.Filler }, laminate.Fillers),
	keyed.ShareField("filler_content", func(r *resin) *laminate.Optional[float64] { return &r.FillerContent }),
	keyed.SizeField("filler_density", func(r *resin) *quantity.Density { return &r.FillerDensity }),
	keyed.WordField("cure", func(r *resin) *laminate.Cure { return &r.Cure }, laminate.Cures),
	keyed.SizeField("density", func(r *resin) *quantity.Density { return &r.Density }),
	keyed.SizeField("modulus", func(r *resin) *quantity.Pressure { return &r.Modulus }),
	keyed.NumberField("poisson", "a number from 0 to 0.5", func(r *resin) *laminate.Optional[float64] { return &r.Poisson }),
	keyed.ShareField("failure_strain", func(r *resin) *laminate.Optional[float64] { return &r.FailureStrain }),
	keyed.SizeField("heat_deflection", func(r *resin) *quantity.Temperature { return &r.HeatDeflection }),
	keyed.WholeField("flame_spread_tested", func(r *resin) *laminate.Optional[int] { return &r.FlameSpreadTested }),
	keyed.TextField("product", func(r *resin) *string { return &r.Product }),
	keyed.TextField("initiator", func(r *resin) *string { return &r.Initiator }),
	keyed.TextField("promoter", func(r *resin) *string { return &r.Promoter }),
	keyed.TextField("thixotrope", func(r *resin) *string { return &r.Thixotrope }),
	keyed.TextField("synergist", func(r *resin) *string { return &r.Synergist }),
	keyed.ShareField("styrene_content", func(r *resin) *laminate.Optional[float64] { return &r.StyreneContent }),
	keyed.PriceField("price", func(r *resin) *laminate.Price { return &r.Price }),
	keyed.TextField("source", func(r *resin) *string { return &r.Source }),
}

var materialFields = []keyed.Field{
	keyed.TextField("id", func(m *stuff) *string { return &m.ID }),
	keyed.TextField("name", func(m *stuff) *string { return &m.Name }),
	keyed.WordField("form", func(m *stuff) *laminate.Form { return &m.Form }, laminate.Forms),
	keyed.WordField("fiber", func(m *stuff) *laminate.Fiber { return &m.Fiber }, laminate.Fibers),
	keyed.SizeField("areal_mass", func(m *stuff) *quantity.ArealMass { return &m.ArealMass }),
	keyed.SizeField("fiber_density", func(m *stuff) *quantity.Density { return &m.FiberDensity }),
	keyed.ShareField("glass_content", func(m *stuff) *laminate.Optional[float64] { return &m.GlassContent }),
	keyed.ShareField("barrier_glass_content", func(m *stuff) *laminate.Optional[float64] { return &m.BarrierGlassContent }),
	keyed.SizeField("fiber_modulus", func(m *stuff) *quantity.Pressure { return &m.FiberModulus }),
	keyed.NumberField("fiber_poisson", "a number from 0 to 0.5", func(m *stuff) *laminate.Optional[float64] { return &m.FiberPoisson }),
	keyed.ShareField("warp_share", func(m *stuff) *laminate.Optional[float64] { return &m.WarpShare }),
	keyed.ShareField("crimp_factor", func(m *stuff) *laminate.Optional[float64] { return &m.CrimpFactor }),
	keyed.SizeField("thickness", func(m *stuff) *quantity.Length { return &m.Thickness }),
	keyed.FlagField("waxed", func(m *stuff) *bool { return &m.Waxed }),
	keyed.FlagField("conductive", func(m *stuff) *bool { return &m.Conductive }),
	keyed.SizeField("tow", func(m *stuff) *quantity.TowSize { return &m.Tow }),
	keyed.WholeField("tows", func(m *stuff) *laminate.Optional[int] { return &m.Tows }),
	keyed.SizeField("band_width", func(m *stuff) *quantity.Length { return &m.BandWidth }),
	keyed.SizeField("e1", func(m *stuff) *quantity.Pressure { return &m.E1 }),
	keyed.SizeField("e2", func(m *stuff) *quantity.Pressure { return &m.E2 }),
	keyed.SizeField("g12", func(m *stuff) *quantity.Pressure { return &m.G12 }),
	keyed.NumberField("nu12", "a number from 0 to 1", func(m *stuff) *laminate.Optional[float64] { return &m.Nu12 }),
	keyed.SizeField("strength_tension_1", func(m *stuff) *quantity.Pressure { return &m.StrengthTension1 }),
	keyed.SizeField("strength_compression_1", func(m *stuff) *quantity.Pressure { return &m.StrengthCompression1 }),
	keyed.SizeField("strength_tension_2", func(m *stuff) *quantity.Pressure { return &m.StrengthTension2 }),
	keyed.SizeField("strength_compression_2", func(m *stuff) *quantity.Pressure { return &m.StrengthCompression2 }),
	keyed.SizeField("strength_shear", func(m *stuff) *quantity.Pressure { return &m.StrengthShear }),
	keyed.PriceField("price", func(m *stuff) *laminate.Price { return &m.Price }),
	keyed.SizeField("roll_width", func(m *stuff) *quantity.Length { return &m.RollWidth }),
	keyed.SizeField("roll_length", func(m *stuff) *quantity.Length { return &m.RollLength }),
	keyed.TextField("source", func(m *stuff) *string { return &m.Source }),
}

var plyFields = []keyed.Field{
	keyed.TextField("material", func(p *ply) *string { return &p.Material }),
	keyed.TextField("resin", func(p *ply) *string { return &p.Resin }),
	keyed.WordField("zone", func(p *ply) *laminate.Zone { return &p.Zone }, laminate.Zones),
	keyed.NumberField("angle", "degrees from the axis", func(p *ply) *laminate.Optional[float64] { return &p.Angle }),
	keyed.CountField("count", func(p *ply) *int { return &p.Count }),
	keyed.ShareField("glass_content", func(p *ply) *laminate.Optional[float64] { return &p.GlassContent }),
	keyed.ShareField("void_content", func(p *ply) *laminate.Optional[float64] { return &p.VoidContent }),
	keyed.FlagField("gel_after", func(p *ply) *bool { return &p.GelAfter }),
}
