package schedules

import (
	"strings"
	"testing"
)

// A document of before the words were settled is refused with one message for
// each that names what stands now, with line and key.
func TestDecode_retiredKeysAndWordsNameWhatStandsNow(t *testing.T) {
	spec := "document = \"specification\"\nformat = 1\n"
	rec := "document = \"record\"\nformat = 1\n"
	for _, c := range []struct {
		name, text, want string
		decode           func([]byte) []Problem
	}{
		{"contents", head + "[service]\ncontents = \"brine\"\n", `line 8: service.contents: this key is called "fluid" now`, schedule},
		{"carries", head + "[service]\ncarries = [\"brine\"]\n", `line 8: service.carries: this key is called "contains" now`, schedule},
		{"stiffness", head + "[part]\nstiffness_kept = 0.9\n", `line 8: part.stiffness_kept: this key is called "modulus_retention" now`, schedule},
		{"earth", head + "[part]\nearth = \"strap\"\n", `line 8: part.earth: this key is called "grounding" now`, schedule},
		{"of a rating", "document = \"shop-book\"\nformat = 1\n[[rating]]\ncontents = \"brine\"\n", `line 4: rating.contents: this key is called "fluid" now`, func(b []byte) []Problem {
			_, p := DecodeBook(b)
			return p
		}},
		{"catalyst", rec + "[[laid]]\nply = 1\ncatalyst = 0.01\n", `line 5: laid.catalyst: this key is called "initiator" now`, func(b []byte) []Problem {
			_, _, p := DecodeRecord(b)
			return p
		}},
		{"resistance", spec + "[inspection]\nresistance_to_earth_max = \"1 Mohm\"\n", `line 4: inspection.resistance_to_earth_max: this key is called "resistance_to_ground_max" now`, func(b []byte) []Problem {
			_, p := DecodeSpecification(b)
			return p
		}},
		{"kind of an exercise", "document = \"exercise\"\nformat = 1\nkind = \"mend\"\n", `line 3: kind: "mend" is called "fix" now`, func(b []byte) []Problem {
			_, p := DecodeExercise(b)
			return p
		}},
	} {
		var told []string
		for _, p := range c.decode([]byte(c.text)) {
			if strings.Contains(p.Message, " now") {
				told = append(told, p.String())
			}
		}
		if strings.Join(told, "; ") != c.want {
			t.Errorf("%s: told %q, want %q", c.name, told, c.want)
		}
	}
}

func schedule(b []byte) []Problem {
	_, _, p := Decode(b, nil)
	return p
}

// A near miss names what was meant, in another table too, and nothing where
// nothing is near.
func TestDecode_aKeyThatIsNotKnownNamesWhatWasMeant(t *testing.T) {
	for text, want := range map[string]string{
		"thicknes = \"1 mm\"":  `line 10: ply.thicknes: this key is not known here; the nearest is "thickness", which belongs in [material]`,
		"cuont = 2":            `line 10: ply.cuont: this key is not known; the nearest is "count"`,
		"pressure = \"1 psi\"": `line 10: ply.pressure: this key is not known here; it belongs in [service]`,
		"revison = 2":          `line 10: ply.revison: this key is not known here; the nearest is "revision", which belongs before the first table`,
		"banana = 1":           `line 10: ply.banana: this key is not known here; known are material, resin, zone, angle, count, glass_content, void_content, gel_after`,
	} {
		got := schedule([]byte(head + "[[ply]]\nmaterial = \"mat-1.5\"\nresin = \"r\"\n" + text + "\n"))
		if len(got) != 1 || got[0].String() != want {
			t.Errorf("%s: %v, want %s", text, got, want)
		}
	}
}
