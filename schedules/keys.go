package schedules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// The tables of a schedule stand in the order of the laminate.RefKind, so a
// Ref leads to its table without a search.
var scheduleTables = []table{
	{fields: rootFields,
		at: func(m any, _ int) any { return m }, rows: one, resize: fixed,
		same: func(a, b any) bool { return sameRoot(a.(*laminate.Schedule), b.(*laminate.Schedule)) }},
	{name: "part", fields: partFields,
		at: func(m any, _ int) any { return &m.(*laminate.Schedule).Part }, rows: one, resize: fixed, same: equal[laminate.Part]},
	{name: "service", fields: serviceFields,
		at: func(m any, _ int) any { return &m.(*laminate.Schedule).Service }, rows: one, resize: fixed, same: equal[laminate.Service]},
	{name: "resin", array: true, most: laminate.MostRows, fields: resinFields,
		at:     func(m any, i int) any { return &m.(*laminate.Schedule).Resins[i] },
		rows:   func(m any) int { return len(m.(*laminate.Schedule).Resins) },
		resize: func(m any, n int) { m.(*laminate.Schedule).Resins = make([]laminate.Resin, n) },
		same:   equal[laminate.Resin], origin: func(r any) *laminate.Origin { return &r.(*laminate.Resin).Origin }},
	{name: "material", array: true, most: laminate.MostRows, fields: materialFields,
		at:     func(m any, i int) any { return &m.(*laminate.Schedule).Materials[i] },
		rows:   func(m any) int { return len(m.(*laminate.Schedule).Materials) },
		resize: func(m any, n int) { m.(*laminate.Schedule).Materials = make([]laminate.Material, n) },
		same:   equal[laminate.Material], origin: func(r any) *laminate.Origin { return &r.(*laminate.Material).Origin }},
	{name: "ply", array: true, most: laminate.MostRows, fields: plyFields,
		at:   func(m any, i int) any { return &m.(*laminate.Schedule).Plies[i] },
		rows: func(m any) int { return len(m.(*laminate.Schedule).Plies) },
		resize: func(m any, n int) {
			plies := make([]laminate.Ply, n)
			for i := range plies {
				plies[i].Count = 1
			}
			m.(*laminate.Schedule).Plies = plies
		},
		same: equal[laminate.Ply], origin: func(r any) *laminate.Origin { return &r.(*laminate.Ply).Origin }},
}

func one(any) int    { return 1 }
func fixed(any, int) {}

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

// declaration is a key that belongs to the document, not to what it describes.
func declaration(key, value, what string) field {
	return field{key: key, what: what,
		set: func(any, any) string { return "" },
		get: func(any) (string, bool) { return value, true }}
}

var rootFields = []field{
	declaration("document", `"schedule"`, `"schedule"`),
	declaration("format", "1", "1"),
	textField("title", func(d *doc) *string { return &d.Title }),
	textField("job", func(d *doc) *string { return &d.Job }),
	wholeField("revision", func(d *doc) *laminate.Optional[int] { return &d.Revision }),
	textField("author", func(d *doc) *string { return &d.Author }),
	notesField("notes", func(d *doc) *string { return &d.Notes }),
	{key: "units", what: "us or si: what screens and papers show",
		set: func(row, value any) string {
			s, _ := value.(string)
			u, ok := quantity.ParseSystem(s)
			if !ok {
				return "us or si is expected, not " + kindOf(value)
			}
			row.(*doc).Units, row.(*doc).UnitsSet = u, true
			return ""
		},
		get: func(row any) (string, bool) { d := row.(*doc); return tomlText(d.Units.String()), d.UnitsSet }},
}

var partFields = []field{
	wordField("form", func(p *part) *laminate.PartForm { return &p.Form }, laminate.ParsePartForm, laminate.PartForms()),
	wordField("process", func(p *part) *laminate.Process { return &p.Process }, laminate.ParseProcess, laminate.Processes()),
	sizeField("inside_diameter", func(p *part) *quantity.Length { return &p.InsideDiameter }),
	sizeField("length", func(p *part) *quantity.Length { return &p.Length }),
	sizeField("liquid_height", func(p *part) *quantity.Length { return &p.LiquidHeight }),
	sizeField("area", func(p *part) *quantity.Area { return &p.Area }),
	answerField("flanged", func(p *part) *laminate.Optional[bool] { return &p.Flanged }),
	wordField("ends", func(p *part) *laminate.Ends { return &p.Ends }, laminate.ParseEnds, laminate.EndsList()),
	wordField("design_basis", func(p *part) *laminate.DesignBasis { return &p.DesignBasis }, laminate.ParseDesignBasis, laminate.DesignBases()),
	sizeField("stiffener_spacing", func(p *part) *quantity.Length { return &p.StiffenerSpacing }),
	shareField("stiffness_kept", func(p *part) *laminate.Optional[float64] { return &p.StiffnessKept }),
	{key: "k_factors", what: "a list of 5 numbers",
		set: func(row, value any) string {
			list, wrong := numbers(value, 5)
			if wrong == "" {
				row.(*part).KFactors = laminate.KFactors{Values: [5]float64(list), Given: true}
			}
			return wrong
		},
		get: func(row any) (string, bool) {
			k := row.(*part).KFactors
			items := make([]string, 0, 5)
			for _, v := range k.Values {
				items = append(items, tomlNumber(v))
			}
			return tomlList(items), k.Given
		}},
	textField("earth", func(p *part) *string { return &p.Earth }),
}

var serviceFields = []field{
	textField("contents", func(s *service) *string { return &s.Contents }),
	shareField("concentration", func(s *service) *laminate.Optional[float64] { return &s.Concentration }),
	sizeField("temperature", func(s *service) *quantity.Temperature { return &s.Temperature }),
	sizeField("upset", func(s *service) *quantity.Temperature { return &s.Upset }),
	{key: "ph", what: "a list of 2 numbers, the lowest first",
		set: func(row, value any) string {
			list, wrong := numbers(value, 2)
			if wrong == "" {
				row.(*service).PH = laminate.PHRange{Lowest: list[0], Highest: list[1], Given: true}
			}
			return wrong
		},
		get: func(row any) (string, bool) {
			p := row.(*service).PH
			return tomlList([]string{tomlNumber(p.Lowest), tomlNumber(p.Highest)}), p.Given
		}},
	wordField("contact", func(s *service) *laminate.Contact { return &s.Contact }, laminate.ParseContact, laminate.Contacts()),
	carriesField(),
	sizeField("pressure", func(s *service) *quantity.Pressure { return &s.Pressure }),
	sizeField("vacuum", func(s *service) *quantity.Pressure { return &s.Vacuum }),
	sizeField("test_pressure", func(s *service) *quantity.Pressure { return &s.TestPressure }),
	numberField("specific_gravity", "a number", func(s *service) *laminate.Optional[float64] { return &s.SpecificGravity }),
	wholeField("flame_spread", func(s *service) *laminate.Optional[int] { return &s.FlameSpread }),
	answerField("conductive", func(s *service) *laminate.Optional[bool] { return &s.Conductive }),
	answerField("abrasive", func(s *service) *laminate.Optional[bool] { return &s.Abrasive }),
}

func carriesField() field {
	var words []string
	for _, t := range laminate.AllTraits() {
		words = append(words, t.String())
	}
	return field{key: "carries", what: "a list of " + tomlList(words),
		set: func(row, value any) string {
			list, wrong := wordsOf(value)
			if wrong != "" {
				return wrong
			}
			var traits []laminate.Trait
			for _, s := range list {
				t, ok := laminate.ParseTrait(s)
				if !ok {
					return wrongWord(s, words)
				}
				traits = append(traits, t)
			}
			row.(*service).Carries = laminate.TraitSet(traits...)
			return ""
		},
		get: func(row any) (string, bool) {
			c := row.(*service).Carries
			var items []string
			for _, t := range c.List() {
				items = append(items, tomlText(t.String()))
			}
			return tomlList(items), c.Given
		}}
}

var resinFields = []field{
	textField("id", func(r *resin) *string { return &r.ID }),
	wordField("family", func(r *resin) *laminate.Family { return &r.Family }, laminate.ParseFamily, laminate.Families()),
	wordField("filler", func(r *resin) *laminate.Filler { return &r.Filler }, laminate.ParseFiller, laminate.Fillers()),
	shareField("filler_content", func(r *resin) *laminate.Optional[float64] { return &r.FillerContent }),
	sizeField("filler_density", func(r *resin) *quantity.Density { return &r.FillerDensity }),
	wordField("cure", func(r *resin) *laminate.Cure { return &r.Cure }, laminate.ParseCure, laminate.Cures()),
	sizeField("density", func(r *resin) *quantity.Density { return &r.Density }),
	sizeField("modulus", func(r *resin) *quantity.Pressure { return &r.Modulus }),
	numberField("poisson", "a number from 0 to 0.5", func(r *resin) *laminate.Optional[float64] { return &r.Poisson }),
	shareField("failure_strain", func(r *resin) *laminate.Optional[float64] { return &r.FailureStrain }),
	sizeField("heat_deflection", func(r *resin) *quantity.Temperature { return &r.HeatDeflection }),
	wholeField("flame_spread_tested", func(r *resin) *laminate.Optional[int] { return &r.FlameSpreadTested }),
	textField("product", func(r *resin) *string { return &r.Product }),
	textField("initiator", func(r *resin) *string { return &r.Initiator }),
	textField("promoter", func(r *resin) *string { return &r.Promoter }),
	textField("thixotrope", func(r *resin) *string { return &r.Thixotrope }),
	textField("synergist", func(r *resin) *string { return &r.Synergist }),
	shareField("styrene_content", func(r *resin) *laminate.Optional[float64] { return &r.StyreneContent }),
	priceField("price", func(r *resin) *laminate.Price { return &r.Price }),
	textField("source", func(r *resin) *string { return &r.Source }),
}

var materialFields = []field{
	textField("id", func(m *stuff) *string { return &m.ID }),
	textField("name", func(m *stuff) *string { return &m.Name }),
	wordField("form", func(m *stuff) *laminate.Form { return &m.Form }, laminate.ParseForm, laminate.Forms()),
	wordField("fiber", func(m *stuff) *laminate.Fiber { return &m.Fiber }, laminate.ParseFiber, laminate.Fibers()),
	sizeField("areal_mass", func(m *stuff) *quantity.ArealMass { return &m.ArealMass }),
	sizeField("fiber_density", func(m *stuff) *quantity.Density { return &m.FiberDensity }),
	shareField("glass_content", func(m *stuff) *laminate.Optional[float64] { return &m.GlassContent }),
	shareField("barrier_glass_content", func(m *stuff) *laminate.Optional[float64] { return &m.BarrierGlassContent }),
	sizeField("fiber_modulus", func(m *stuff) *quantity.Pressure { return &m.FiberModulus }),
	numberField("fiber_poisson", "a number from 0 to 0.5", func(m *stuff) *laminate.Optional[float64] { return &m.FiberPoisson }),
	shareField("warp_share", func(m *stuff) *laminate.Optional[float64] { return &m.WarpShare }),
	shareField("crimp_factor", func(m *stuff) *laminate.Optional[float64] { return &m.CrimpFactor }),
	sizeField("thickness", func(m *stuff) *quantity.Length { return &m.Thickness }),
	flagField("waxed", func(m *stuff) *bool { return &m.Waxed }),
	flagField("conductive", func(m *stuff) *bool { return &m.Conductive }),
	sizeField("tow", func(m *stuff) *quantity.TowSize { return &m.Tow }),
	wholeField("tows", func(m *stuff) *laminate.Optional[int] { return &m.Tows }),
	sizeField("band_width", func(m *stuff) *quantity.Length { return &m.BandWidth }),
	sizeField("e1", func(m *stuff) *quantity.Pressure { return &m.E1 }),
	sizeField("e2", func(m *stuff) *quantity.Pressure { return &m.E2 }),
	sizeField("g12", func(m *stuff) *quantity.Pressure { return &m.G12 }),
	numberField("nu12", "a number from 0 to 1", func(m *stuff) *laminate.Optional[float64] { return &m.Nu12 }),
	sizeField("strength_tension_1", func(m *stuff) *quantity.Pressure { return &m.StrengthTension1 }),
	sizeField("strength_compression_1", func(m *stuff) *quantity.Pressure { return &m.StrengthCompression1 }),
	sizeField("strength_tension_2", func(m *stuff) *quantity.Pressure { return &m.StrengthTension2 }),
	sizeField("strength_compression_2", func(m *stuff) *quantity.Pressure { return &m.StrengthCompression2 }),
	sizeField("strength_shear", func(m *stuff) *quantity.Pressure { return &m.StrengthShear }),
	priceField("price", func(m *stuff) *laminate.Price { return &m.Price }),
	sizeField("roll_width", func(m *stuff) *quantity.Length { return &m.RollWidth }),
	sizeField("roll_length", func(m *stuff) *quantity.Length { return &m.RollLength }),
	textField("source", func(m *stuff) *string { return &m.Source }),
}

var plyFields = []field{
	textField("material", func(p *ply) *string { return &p.Material }),
	textField("resin", func(p *ply) *string { return &p.Resin }),
	wordField("zone", func(p *ply) *laminate.Zone { return &p.Zone }, laminate.ParseZone, laminate.Zones()),
	numberField("angle", "degrees from the axis", func(p *ply) *laminate.Optional[float64] { return &p.Angle }),
	countField("count", func(p *ply) *int { return &p.Count }),
	shareField("glass_content", func(p *ply) *laminate.Optional[float64] { return &p.GlassContent }),
	shareField("void_content", func(p *ply) *laminate.Optional[float64] { return &p.VoidContent }),
	flagField("gel_after", func(p *ply) *bool { return &p.GelAfter }),
}
