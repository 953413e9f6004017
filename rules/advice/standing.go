package advice

import (
	"regexp"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/wall/service"
)

// asks is what ends a line of an assumption: the keys that settle it.
var asks = regexp.MustCompile(`\((\[\[condition\]\]|[a-z_]+(?:, [a-z_]+)*)(?:; [^()]*)?\)\.?$`)

// forStructure begins a line of notes that says what a structure was proposed for.
const forStructure = "Assumed for the structure: "

// Standing are the notes of a schedule without what was assumed for its structure and
// the document has settled by now, whatever it says.
func Standing(s *laminate.Schedule, notes string) string {
	var lines []string
	for line := range strings.Lines(notes) {
		if !strings.HasPrefix(line, forStructure) || !slices.ContainsFunc(Asked(line), func(key string) bool { return Settled(s, key) }) {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "")
}

// Asked are the keys of which each settles the assumption that a line of notes says; none
// where no key does.
func Asked(line string) []string {
	if m := asks.FindStringSubmatch(strings.TrimSuffix(line, "\n")); m != nil {
		return strings.Split(m[1], ", ")
	}
	return nil
}

// Settled tells whether a schedule states a key that an assumption for its structure asks
// for. The strength table settles what decides, and not what decides in its place.
func Settled(s *laminate.Schedule, key string) bool {
	p, v := &s.Part, &s.Service
	switch key {
	case "modulus_retention":
		return p.ModulusRetention.Given
	case "stiffener_spacing":
		return p.StiffenerSpacing.Given()
	case "process":
		return p.Basis() != laminate.NoBasis
	case "design_basis":
		return p.Basis() != laminate.NoBasis && p.Basis() != laminate.StrengthTable
	case "pressure":
		return v.Pressure.Given()
	case "vacuum":
		return v.Vacuum.Given()
	case "liquid_height":
		return p.LiquidHeight.Given()
	case "specific_gravity":
		return v.SpecificGravity.Given
	case "[[condition]]":
		return service.Beyond(s, quantity.US).Why == ""
	}
	return false
}
