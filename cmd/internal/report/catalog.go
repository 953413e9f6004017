package report

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Catalog is what is known, as JSON. Figures in SI at full precision; what is
// not stated is null.
type (
	Catalog struct {
		Books     []string   `json:"books"`
		Materials []material `json:"materials"`
		Resins    []resin    `json:"resins"`
		Families  []family   `json:"families"`
		Fibers    []fiber    `json:"fibers"`
		Fillers   []filler   `json:"fillers"`
	}
	material struct {
		ID                  string   `json:"id"`
		Name                string   `json:"name"`
		Form                string   `json:"form"`
		Fiber               string   `json:"fiber"`
		ArealMassKgM2       *float64 `json:"areal_mass_kg_m2"`
		FiberDensityKgM3    *float64 `json:"fiber_density_kg_m3"`
		GlassContent        *float64 `json:"glass_content"`
		BarrierGlassContent *float64 `json:"barrier_glass_content"`
		ThicknessMM         *float64 `json:"thickness_mm"`
		Source              string   `json:"source"`
	}
	resin struct {
		ID     string `json:"id"`
		Family string `json:"family"`
		Source string `json:"source"`
	}
	family struct {
		ID            string   `json:"id"`
		DensityKgM3   *float64 `json:"density_kg_m3"`
		ModulusPa     *float64 `json:"modulus_pa"`
		Poisson       float64  `json:"poisson"`
		FailureStrain float64  `json:"failure_strain"`
		Source        string   `json:"source"`
	}
	fiber struct {
		ID          string   `json:"id"`
		DensityKgM3 *float64 `json:"density_kg_m3"`
		ModulusPa   *float64 `json:"modulus_pa"`
		Poisson     float64  `json:"poisson"`
		Source      string   `json:"source"`
	}
	filler struct {
		ID          string   `json:"id"`
		DensityKgM3 *float64 `json:"density_kg_m3"`
		Source      string   `json:"source"`
	}
)

// CatalogOf lists what a library knows of the ids that are wanted.
func CatalogOf(lib *laminate.Library, want func(string) bool) Catalog {
	shown := Catalog{Books: []string{}, Materials: []material{}, Resins: []resin{}, Families: []family{}, Fibers: []fiber{}, Fillers: []filler{}}
	shown.Books = append(shown.Books, lib.Books...)
	for i := range lib.Materials {
		m := &lib.Materials[i]
		if !want(m.ID) {
			continue
		}
		one := material{
			ID: m.ID, Name: m.Name, Form: m.Form.String(), Fiber: m.Fiber.String(), Source: m.Source,
			ArealMassKgM2: stored(m.ArealMass), FiberDensityKgM3: stored(m.FiberDensity),
			GlassContent: givenOrNull(m.GlassContent), BarrierGlassContent: givenOrNull(m.BarrierGlassContent),
		}
		if m.Thickness.Given() {
			mm := m.Thickness.In(quantity.Millimetre)
			one.ThicknessMM = &mm
		}
		shown.Materials = append(shown.Materials, one)
	}
	for i := range lib.Resins {
		if r := &lib.Resins[i]; want(r.ID) {
			shown.Resins = append(shown.Resins, resin{r.ID, r.Family.String(), r.Source})
		}
	}
	for _, f := range laminate.Families.All() {
		if d := lib.Families[f]; want(f.String()) {
			shown.Families = append(shown.Families, family{f.String(), stored(d.Density), stored(d.Modulus), d.Poisson, d.FailureStrain, d.Source})
		}
	}
	for _, f := range laminate.Fibers.All() {
		if d := lib.Fibers[f]; want(f.String()) {
			shown.Fibers = append(shown.Fibers, fiber{f.String(), stored(d.Density), stored(d.Modulus), d.Poisson, d.Source})
		}
	}
	for _, f := range laminate.Fillers.All() {
		if d := lib.Fillers[f]; want(f.String()) {
			shown.Fillers = append(shown.Fillers, filler{f.String(), stored(d.Density), d.Source})
		}
	}
	return shown
}

func stored[D quantity.Dimension](q quantity.Quantity[D]) *float64 {
	if !q.Given() {
		return nil
	}
	v := q.SI()
	return &v
}

func givenOrNull(o laminate.Optional[float64]) *float64 {
	if !o.Given {
		return nil
	}
	return &o.Value
}
