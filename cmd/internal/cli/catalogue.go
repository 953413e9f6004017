package cli

import (
	"fmt"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalogue"
	"frp/veilwright/laminate/quantity"
)

type catalogueCommand struct {
	IDs []string `arg:"" optional:"" name:"id" help:"Materials or resin families to print in full; left out, all in short." complete:"materials"`
}

// Help is shown under the command's flags.
func (catalogueCommand) Help() string {
	return `The built-in materials, fibers, fillers and resin families, with the source of each figure, and what the shop books that hold in this folder add to them. All are generic and typical: put your own into a shop book.

    veilwright catalogue
    veilwright catalogue mat-1.5 vinyl-ester
    veilwright catalogue --json --no-book`
}

// Figures in SI at full precision; what is not stated is null.
type (
	catalogueJSON struct {
		Books     []string       `json:"books"`
		Materials []materialJSON `json:"materials"`
		Resins    []resinJSON    `json:"resins"`
		Families  []familyJSON   `json:"families"`
		Fibers    []fiberJSON    `json:"fibers"`
		Fillers   []fillerJSON   `json:"fillers"`
	}
	materialJSON struct {
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
	resinJSON struct {
		ID     string `json:"id"`
		Family string `json:"family"`
		Source string `json:"source"`
	}
	familyJSON struct {
		ID            string   `json:"id"`
		DensityKgM3   *float64 `json:"density_kg_m3"`
		ModulusPa     *float64 `json:"modulus_pa"`
		Poisson       float64  `json:"poisson"`
		FailureStrain float64  `json:"failure_strain"`
		Source        string   `json:"source"`
	}
	fiberJSON struct {
		ID          string   `json:"id"`
		DensityKgM3 *float64 `json:"density_kg_m3"`
		ModulusPa   *float64 `json:"modulus_pa"`
		Poisson     float64  `json:"poisson"`
		Source      string   `json:"source"`
	}
	fillerJSON struct {
		ID          string   `json:"id"`
		DensityKgM3 *float64 `json:"density_kg_m3"`
		Source      string   `json:"source"`
	}
)

// Run prints what is known.
func (k catalogueCommand) Run(c *call) error {
	lib, err := newShelf(c).library("")
	if err != nil {
		return err
	}
	wanted := map[string]bool{}
	for _, id := range k.IDs {
		if !knows(lib, id) {
			return fmt.Errorf("there is no material or resin family %q%s; veilwright catalogue lists them", id, didYouMean(id, idsOf(lib)))
		}
		wanted[id] = true
	}
	shown := catalogueOf(lib, func(id string) bool { return len(wanted) == 0 || wanted[id] })
	if c.JSON {
		return c.out.JSON(shown)
	}
	units := c.units(&laminate.Schedule{})
	for _, b := range shown.Books {
		c.out.Line("shop book %s", b)
	}
	printCatalogue(c, shown, units, len(k.IDs) > 0)
	return nil
}

func catalogueOf(lib *laminate.Library, want func(string) bool) catalogueJSON {
	shown := catalogueJSON{Books: []string{}, Materials: []materialJSON{}, Resins: []resinJSON{}, Families: []familyJSON{}, Fibers: []fiberJSON{}, Fillers: []fillerJSON{}}
	shown.Books = append(shown.Books, lib.Books...)
	for i := range lib.Materials {
		m := &lib.Materials[i]
		if !want(m.ID) {
			continue
		}
		one := materialJSON{
			ID: m.ID, Name: m.Name, Form: m.Form.String(), Fiber: m.Fiber.String(), Source: m.Source,
			ArealMassKgM2: figure(m.ArealMass), FiberDensityKgM3: figure(m.FiberDensity),
			GlassContent: optional(m.GlassContent), BarrierGlassContent: optional(m.BarrierGlassContent),
		}
		if m.Thickness.Given() {
			mm := m.Thickness.In(quantity.Millimetre)
			one.ThicknessMM = &mm
		}
		shown.Materials = append(shown.Materials, one)
	}
	for i := range lib.Resins {
		if r := &lib.Resins[i]; want(r.ID) {
			shown.Resins = append(shown.Resins, resinJSON{r.ID, r.Family.String(), r.Source})
		}
	}
	for _, f := range laminate.Families() {
		if d := lib.Families[f]; want(f.String()) {
			shown.Families = append(shown.Families, familyJSON{f.String(), figure(d.Density), figure(d.Modulus), d.Poisson, d.FailureStrain, d.Source})
		}
	}
	for _, f := range laminate.Fibers() {
		if d := lib.Fibers[f]; want(f.String()) {
			shown.Fibers = append(shown.Fibers, fiberJSON{f.String(), figure(d.Density), figure(d.Modulus), d.Poisson, d.Source})
		}
	}
	for _, f := range laminate.Fillers() {
		if d := lib.Fillers[f]; want(f.String()) {
			shown.Fillers = append(shown.Fillers, fillerJSON{f.String(), figure(d.Density), d.Source})
		}
	}
	return shown
}

func figure[D quantity.Dimension](q quantity.Quantity[D]) *float64 {
	if !q.Given() {
		return nil
	}
	v := q.SI()
	return &v
}

func optional(o laminate.Optional[float64]) *float64 {
	if !o.Given {
		return nil
	}
	return &o.Value
}

// printCatalogue prints one line each, and with full the sources below.
func printCatalogue(c *call, shown catalogueJSON, units quantity.System, full bool) {
	source := func(text string) {
		if full && text != "" {
			for _, line := range wrapped(text, 84) {
				c.out.Line("      %s", line)
			}
		}
	}
	head := func(n int, format string, args ...any) {
		if n > 0 {
			c.out.Line(format, args...)
		}
	}
	head(len(shown.Materials), "%-20s %-15s %-10s %14s %9s %13s  %s", "material", "form", "fiber", "areal mass", "glass", "in a barrier", "name")
	for _, m := range shown.Materials {
		mass, fiber := "-", m.Fiber
		if m.ArealMassKgM2 != nil {
			mass = units.FabricMass(*m.ArealMassKgM2)
		} else if m.ThicknessMM != nil {
			mass = units.Thickness(*m.ThicknessMM / 1000)
		}
		if fiber == "" {
			fiber = "-"
		}
		c.out.Line("  %-18s %-15s %-10s %14s %9s %13s  %s", m.ID, m.Form, fiber, mass, shareOf(m.GlassContent), shareOf(m.BarrierGlassContent), m.Name)
		source(m.Source)
	}
	head(len(shown.Resins), "resin of the shop")
	for _, r := range shown.Resins {
		c.out.Line("  %-30s %s", r.ID, r.Family)
		source(r.Source)
	}
	head(len(shown.Families), "%-32s %12s %10s %8s %15s", "resin family", "density", "modulus", "Poisson", "failure strain")
	for _, f := range shown.Families {
		c.out.Line("  %-30s %12s %10s %8s %15s", f.ID, densityOf(f.DensityKgM3), modulusOf(f.ModulusPa, units), quantity.Number(f.Poisson, 2), quantity.Number(100*f.FailureStrain, 1)+" %")
		source(f.Source)
	}
	head(len(shown.Fibers), "%-32s %12s %10s %8s", "fiber", "density", "modulus", "Poisson")
	for _, f := range shown.Fibers {
		c.out.Line("  %-30s %12s %10s %8s", f.ID, densityOf(f.DensityKgM3), modulusOf(f.ModulusPa, units), quantity.Number(f.Poisson, 2))
		source(f.Source)
	}
	head(len(shown.Fillers), "%-32s %12s", "filler", "density")
	for _, f := range shown.Fillers {
		c.out.Line("  %-30s %12s", f.ID, densityOf(f.DensityKgM3))
		source(f.Source)
	}
}

func shareOf(v *float64) string {
	if v == nil {
		return "-"
	}
	return quantity.Share(*v)
}

func densityOf(v *float64) string {
	if v == nil {
		return "-"
	}
	return quantity.Number(*v, 0) + " kg/m³"
}

func modulusOf(v *float64, units quantity.System) string {
	if v == nil {
		return "-"
	}
	return quantity.New(*v, quantity.Pascal).Format(units.Modulus(), 2)
}

func idsOf(lib *laminate.Library) []string {
	var ids []string
	for i := range lib.Materials {
		ids = append(ids, lib.Materials[i].ID)
	}
	for i := range lib.Resins {
		ids = append(ids, lib.Resins[i].ID)
	}
	for _, f := range laminate.Families() {
		ids = append(ids, f.String())
	}
	for _, f := range laminate.Fibers() {
		ids = append(ids, f.String())
	}
	for _, f := range laminate.Fillers() {
		ids = append(ids, f.String())
	}
	return ids
}

func knows(lib *laminate.Library, id string) bool {
	for _, known := range idsOf(lib) {
		if known == id {
			return true
		}
	}
	return false
}

// catalogueIDs are the built-in ones: completion reads no files.
func catalogueIDs() []string { return idsOf(catalogue.Library()) }
