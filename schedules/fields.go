package schedules

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/internal/spell"
	"frp/veilwright/schedules/internal/tables"
)

// declared are the keys that every document begins with.
func declared(kind Kind, more ...tables.Field) []tables.Field {
	word := spell.Text(kind.String())
	return append([]tables.Field{tables.Declaration("document", word, word), tables.Declaration("format", "1", "1")}, more...)
}

// headFields are what a schedule says of itself.
func headFields[T any](head func(*T) *laminate.Head) []tables.Field {
	return []tables.Field{
		tables.TextField("title", func(t *T) *string { return &head(t).Title }),
		tables.TextField("job", func(t *T) *string { return &head(t).Job }),
		tables.WholeField("revision", func(t *T) *laminate.Optional[int] { return &head(t).Revision }),
		tables.DayField("date", func(t *T) *string { return &head(t).Date }),
		tables.TextField("author", func(t *T) *string { return &head(t).Author }),
		tables.TextField("released", func(t *T) *string { return &head(t).Released }),
		tables.FlagField("superseded", func(t *T) *bool { return &head(t).Superseded }),
		tables.NotesField("notes", func(t *T) *string { return &head(t).Notes }),
		tables.UnitsField("units", "us or si: what screens and papers show", func(t *T) (*quantity.System, *bool) { return &head(t).Units, &head(t).UnitsSet }),
	}
}

var partFields = append([]tables.Field{formField(laminate.PartForms)}, builtFields...)

func formField(set word.Set[laminate.PartForm]) tables.Field {
	return tables.WordField("form", func(p *laminate.Part) *laminate.PartForm { return &p.Form }, set)
}

// builtFields are those of a part of whatever form.
var builtFields = []tables.Field{
	tables.WordField("process", func(p *laminate.Part) *laminate.Process { return &p.Process }, laminate.Processes),
	tables.SizeField("inside_diameter", func(p *laminate.Part) *quantity.Length { return &p.InsideDiameter }),
	tables.SizeField("length", func(p *laminate.Part) *quantity.Length { return &p.Length }),
	tables.SizeField("liquid_height", func(p *laminate.Part) *quantity.Length { return &p.LiquidHeight }),
	tables.SizeField("area", func(p *laminate.Part) *quantity.Area { return &p.Area }),
	tables.AnswerField("flanged", func(p *laminate.Part) *laminate.Optional[bool] { return &p.Flanged }),
	tables.WordField("ends", func(p *laminate.Part) *laminate.Ends { return &p.Ends }, laminate.EndsWords),
	tables.WordField("design_basis", func(p *laminate.Part) *laminate.DesignBasis { return &p.DesignBasis }, laminate.DesignBases),
	tables.SizeField("stiffener_spacing", func(p *laminate.Part) *quantity.Length { return &p.StiffenerSpacing }),
	tables.ShareField("modulus_retention", func(p *laminate.Part) *laminate.Optional[float64] { return &p.ModulusRetention }),
	tables.Of("k_factors", "a list of 5 numbers", func(p *laminate.Part) *laminate.KFactors { return &p.KFactors },
		func(value any) (laminate.KFactors, string) {
			list, wrong := tables.Numbers(value, 5)
			if wrong != "" {
				return laminate.KFactors{}, wrong
			}
			return laminate.KFactors{Values: [5]float64(list), Given: true}, ""
		},
		func(k laminate.KFactors) (string, bool) { return spell.Numbers(k.Values[:]), k.Given }),
	tables.TextField("grounding", func(p *laminate.Part) *string { return &p.Grounding }),
}

var serviceFields = []tables.Field{
	tables.TextField("fluid", func(s *laminate.Service) *string { return &s.Fluid }),
	tables.ShareField("concentration", func(s *laminate.Service) *laminate.Optional[float64] { return &s.Concentration }),
	tables.SizeField("temperature", func(s *laminate.Service) *quantity.Temperature { return &s.Temperature }),
	tables.SizeField("upset", func(s *laminate.Service) *quantity.Temperature { return &s.Upset }),
	tables.Of("ph", "a list of 2 numbers, the lowest first", func(s *laminate.Service) *laminate.PHRange { return &s.PH },
		func(value any) (laminate.PHRange, string) {
			list, wrong := tables.Numbers(value, 2)
			if wrong != "" {
				return laminate.PHRange{}, wrong
			}
			return laminate.PHRange{Lowest: list[0], Highest: list[1], Given: true}, ""
		},
		func(p laminate.PHRange) (string, bool) {
			return spell.Numbers([]float64{p.Lowest, p.Highest}), p.Given
		}),
	tables.WordField("contact", func(s *laminate.Service) *laminate.Contact { return &s.Contact }, laminate.Contacts),
	tables.Of("contains", "a list of "+spell.List(laminate.TraitWords.Words()), func(s *laminate.Service) *laminate.Traits { return &s.Contains },
		func(value any) (laminate.Traits, string) {
			list, wrong := tables.ParseWords(value, laminate.TraitWords)
			return laminate.TraitSet(list...), wrong
		},
		func(c laminate.Traits) (string, bool) {
			var words []string
			for _, t := range c.List() {
				words = append(words, t.String())
			}
			return spell.Words(words), c.Given
		}),
	tables.SizeField("pressure", func(s *laminate.Service) *quantity.Pressure { return &s.Pressure }),
	tables.SizeField("vacuum", func(s *laminate.Service) *quantity.Pressure { return &s.Vacuum }),
	tables.SizeField("test_pressure", func(s *laminate.Service) *quantity.Pressure { return &s.TestPressure }),
	tables.NumberField("specific_gravity", "a number", func(s *laminate.Service) *laminate.Optional[float64] { return &s.SpecificGravity }),
	tables.WholeField("flame_spread", func(s *laminate.Service) *laminate.Optional[int] { return &s.FlameSpread }),
	tables.AnswerField("conductive", func(s *laminate.Service) *laminate.Optional[bool] { return &s.Conductive }),
	tables.AnswerField("abrasive", func(s *laminate.Service) *laminate.Optional[bool] { return &s.Abrasive }),
}

var conditionFields = []tables.Field{
	tables.TextField("name", func(c *laminate.Condition) *string { return &c.Name }),
	tables.SizeField("temperature", func(c *laminate.Condition) *quantity.Temperature { return &c.Temperature }),
	tables.SizeField("pressure", func(c *laminate.Condition) *quantity.Pressure { return &c.Pressure }),
	tables.SizeField("vacuum", func(c *laminate.Condition) *quantity.Pressure { return &c.Vacuum }),
	tables.ShareField("modulus_retention", func(c *laminate.Condition) *laminate.Optional[float64] { return &c.ModulusRetention }),
}

var resinFields = []tables.Field{
	tables.TextField("id", func(r *laminate.Resin) *string { return &r.ID }),
	tables.WordField("family", func(r *laminate.Resin) *laminate.Family { return &r.Family }, laminate.Families),
	tables.WordField("filler", func(r *laminate.Resin) *laminate.Filler { return &r.Filler }, laminate.Fillers),
	tables.ShareField("filler_content", func(r *laminate.Resin) *laminate.Optional[float64] { return &r.FillerContent }),
	tables.SizeField("filler_density", func(r *laminate.Resin) *quantity.Density { return &r.FillerDensity }),
	tables.WordField("cure", func(r *laminate.Resin) *laminate.Cure { return &r.Cure }, laminate.Cures),
	tables.SizeField("density", func(r *laminate.Resin) *quantity.Density { return &r.Density }),
	tables.SizeField("modulus", func(r *laminate.Resin) *quantity.Pressure { return &r.Modulus }),
	tables.NumberField("poisson", "a number from 0 to 0.5", func(r *laminate.Resin) *laminate.Optional[float64] { return &r.Poisson }),
	tables.ShareField("failure_strain", func(r *laminate.Resin) *laminate.Optional[float64] { return &r.FailureStrain }),
	tables.SizeField("heat_deflection", func(r *laminate.Resin) *quantity.Temperature { return &r.HeatDeflection }),
	tables.SizeField("bond_window", func(r *laminate.Resin) *quantity.Duration { return &r.BondWindow }),
	tables.WholeField("flame_spread_tested", func(r *laminate.Resin) *laminate.Optional[int] { return &r.FlameSpreadTested }),
	tables.TextField("product", func(r *laminate.Resin) *string { return &r.Product }),
	tables.TextField("initiator", func(r *laminate.Resin) *string { return &r.Initiator }),
	tables.TextField("promoter", func(r *laminate.Resin) *string { return &r.Promoter }),
	tables.TextField("thixotrope", func(r *laminate.Resin) *string { return &r.Thixotrope }),
	tables.TextField("synergist", func(r *laminate.Resin) *string { return &r.Synergist }),
	tables.ShareField("styrene_content", func(r *laminate.Resin) *laminate.Optional[float64] { return &r.StyreneContent }),
	tables.PriceField("price", func(r *laminate.Resin) *quantity.Price { return &r.Price }),
	tables.TextField("source", func(r *laminate.Resin) *string { return &r.Source }),
}

var materialFields = []tables.Field{
	tables.TextField("id", func(m *laminate.Material) *string { return &m.ID }),
	tables.TextField("name", func(m *laminate.Material) *string { return &m.Name }),
	tables.WordField("form", func(m *laminate.Material) *laminate.Form { return &m.Form }, laminate.Forms),
	tables.WordField("fiber", func(m *laminate.Material) *laminate.Fiber { return &m.Fiber }, laminate.Fibers),
	tables.SizeField("areal_mass", func(m *laminate.Material) *quantity.ArealMass { return &m.ArealMass }),
	tables.SizeField("fiber_density", func(m *laminate.Material) *quantity.Density { return &m.FiberDensity }),
	tables.ShareField("glass_content", func(m *laminate.Material) *laminate.Optional[float64] { return &m.GlassContent }),
	tables.ShareField("barrier_glass_content", func(m *laminate.Material) *laminate.Optional[float64] { return &m.BarrierGlassContent }),
	tables.SizeField("fiber_modulus", func(m *laminate.Material) *quantity.Pressure { return &m.FiberModulus }),
	tables.NumberField("fiber_poisson", "a number from 0 to 0.5", func(m *laminate.Material) *laminate.Optional[float64] { return &m.FiberPoisson }),
	tables.ShareField("warp_share", func(m *laminate.Material) *laminate.Optional[float64] { return &m.WarpShare }),
	tables.ShareField("crimp_factor", func(m *laminate.Material) *laminate.Optional[float64] { return &m.CrimpFactor }),
	tables.SizeField("thickness", func(m *laminate.Material) *quantity.Length { return &m.Thickness }),
	tables.FlagField("waxed", func(m *laminate.Material) *bool { return &m.Waxed }),
	tables.FlagField("conductive", func(m *laminate.Material) *bool { return &m.Conductive }),
	tables.SizeField("tow", func(m *laminate.Material) *quantity.TowSize { return &m.Tow }),
	tables.WholeField("tows", func(m *laminate.Material) *laminate.Optional[int] { return &m.Tows }),
	tables.SizeField("band_width", func(m *laminate.Material) *quantity.Length { return &m.BandWidth }),
	tables.SizeField("e1", func(m *laminate.Material) *quantity.Pressure { return &m.E1 }),
	tables.SizeField("e2", func(m *laminate.Material) *quantity.Pressure { return &m.E2 }),
	tables.SizeField("g12", func(m *laminate.Material) *quantity.Pressure { return &m.G12 }),
	tables.NumberField("nu12", "a number from 0 to 1", func(m *laminate.Material) *laminate.Optional[float64] { return &m.Nu12 }),
	tables.SizeField("strength_tension_1", func(m *laminate.Material) *quantity.Pressure { return &m.StrengthTension1 }),
	tables.SizeField("strength_compression_1", func(m *laminate.Material) *quantity.Pressure { return &m.StrengthCompression1 }),
	tables.SizeField("strength_tension_2", func(m *laminate.Material) *quantity.Pressure { return &m.StrengthTension2 }),
	tables.SizeField("strength_compression_2", func(m *laminate.Material) *quantity.Pressure { return &m.StrengthCompression2 }),
	tables.SizeField("strength_shear", func(m *laminate.Material) *quantity.Pressure { return &m.StrengthShear }),
	tables.PriceField("price", func(m *laminate.Material) *quantity.Price { return &m.Price }),
	tables.SizeField("roll_width", func(m *laminate.Material) *quantity.Length { return &m.RollWidth }),
	tables.SizeField("roll_length", func(m *laminate.Material) *quantity.Length { return &m.RollLength }),
	tables.TextField("source", func(m *laminate.Material) *string { return &m.Source }),
}

var plyFields = []tables.Field{
	tables.TextField("material", func(p *laminate.Ply) *string { return &p.Material }),
	tables.TextField("resin", func(p *laminate.Ply) *string { return &p.Resin }),
	tables.WordField("zone", func(p *laminate.Ply) *laminate.Zone { return &p.Zone }, laminate.Zones),
	tables.NumberField("angle", "degrees from the axis", func(p *laminate.Ply) *laminate.Optional[float64] { return &p.Angle }),
	tables.CountField("count", func(p *laminate.Ply) *int { return &p.Count }),
	tables.ShareField("glass_content", func(p *laminate.Ply) *laminate.Optional[float64] { return &p.GlassContent }),
	tables.ShareField("void_content", func(p *laminate.Ply) *laminate.Optional[float64] { return &p.VoidContent }),
	tables.FlagField("gel_after", func(p *laminate.Ply) *bool { return &p.GelAfter }),
}
