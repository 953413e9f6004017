// Package safety holds the cautions that protect people, as data: one list
// that pages, lessons and papers take from. They are the usual ones of the
// trade and replace neither the safety data sheets of the products, nor local
// codes, nor training.
package safety

import (
	"slices"
	"strings"

	"frp/veilwright/laminate"
)

// Trigger is the work that calls for a caution.
type Trigger uint8

// The triggers.
const (
	Mixing       Trigger = iota // resin with initiator and promoter
	Filling                     // any powder into a resin
	Conducting                  // carbon powder into a resin
	Retarding                   // antimony trioxide into a resin
	Spraying                    // spray-up
	Cutting                     // and grinding cured laminate
	Wiping                      // the acetone wipe
	Igniting                    // the ignition test
	Entering                    // a tank or duct
	PressureTest                // of a finished part
	Bonding                     // onto a cured face
)

// Caution is one thing that can hurt, and what to do about it.
type Caution struct {
	ID      string
	Trigger Trigger
	Label   string // one word, for a column
	Line    string // at most 46 characters, for where there is little room
	Text    string // whole sentences
	Source  string
}

const practice = "common practice, no source"

var cautions = []Caution{
	{"peroxide-promoter", Mixing, "peroxide", "NEVER directly with promoter: fire, explosion",
		"NEVER mix peroxide (the initiator) directly with promoter: fire or explosion. Stir the promoter into the resin completely; peroxide goes in last.", practice},
	{"peroxide-eyes", Mixing, "eyes", "peroxide can blind: goggles, gloves",
		"Peroxide in the eye can blind: goggles and gloves. Rinse with water at once and see a doctor.", practice},
	{"styrene", Mixing, "styrene", "vapor burns: ventilate, no flame, no spark",
		"Styrene vapor burns (flash point 88 °F, lower explosive limit 0.9 %) and makes people drowsy; exposure limits are 50 ppm (NIOSH) and 100 ppm (OSHA). Ventilate. No flame, no spark.",
		"NIOSH pocket guide"},
	{"leftovers", Mixing, "leftovers", "can catch fire: small pots, leftovers outdoors",
		"Resin with initiator in it heats up in the pot and can catch fire: mix only what is used before it gels, in shallow pots. Spread leftovers thin or flood them with water, outdoors.", practice},
	{"filler-dust", Filling, "dust", "harms the lungs: respirator, dust extraction",
		"Dust of fillers and fumed silica harms the lungs: respirator, goggles, dust extraction.", practice},
	{"carbon-dust", Conducting, "carbon", "conducts: keep away from electrical equipment",
		"Carbon powder conducts: keep it away from electrical equipment.", practice},
	{"antimony", Retarding, "antimony", "trioxide is toxic: respirator, gloves",
		"Antimony trioxide is toxic: respirator, gloves, no food or tobacco nearby.", practice},
	{"spray-mist", Spraying, "mist", "resin and peroxide: goggles, respirator",
		"Spray-up makes a mist of resin and peroxide: goggles and respirator for everyone near it.", practice},
	{"dry-peroxide", Mixing, "dried up", "peroxide can catch fire or explode",
		"Peroxide that has dried up or soaked into rags can catch fire or explode. Keep it apart from promoter, and never use one cup or stick for both.", practice},
	{"amounts", Mixing, "amounts", "by the resin manufacturer's table",
		"Initiator, promoter and gel time by the resin manufacturer's table.", practice},
	{"cutting-dust", Cutting, "dust", "respirator, goggles, dust extraction",
		"Cutting and grinding throw dust of glass, silica and carbon: respirator, goggles, dust extraction.", practice},
	{"static", Cutting, "static", "a charge ignites vapor: never where it hangs",
		"Grinding and rubbing charge laminate with static electricity, and its spark ignites vapor: never grind where vapor hangs.", practice},
	{"acetone", Wiping, "acetone", "highly flammable: ventilate, no flame, no spark",
		"Acetone is highly flammable: ventilate, no flame, no spark.", "NIOSH pocket guide"},
	{"furnace-fumes", Igniting, "fumes", "burning resin is toxic: use a hood",
		"Burning resin gives off toxic fumes, corrosive ones if it is brominated or chlorendic: use a hood.", practice},
	{"tank-entry", Entering, "entry", "permit, gas test, attendant outside",
		"Nobody enters a tank, pipe or duct without an entry permit, a gas test, and an attendant outside.", "29 CFR 1910.146, from memory"},
	{"vapor-low", Entering, "vapor", "sinks: draw it off at the bottom",
		"Styrene vapor is heavier than air and gathers at the bottom of a vessel: draw it off there and bring in fresh air while anybody works inside.", practice},
	{"bond-face", Bonding, "abrade", "dull, fiber-rough past the last ply; no wax",
		"A bond onto a cured face holds by what was ground: abrade to a dull, fiber-roughened surface past the last ply, clean and dry, no wax under a ply. A bond that lets go under load hurts people.", practice},
	{"bond-window", Bonding, "window", "time since gel by the resin manufacturer",
		"Time since the face gelled within the resin manufacturer's limit; after it, abrade first.", practice},
	{"pressure-test", PressureTest, "test", "with water, never with air",
		"Test pressure with water, never with air: an air test that fails is an explosion.", practice},
}

// For lists the cautions of kinds of work, those that hurt first in front.
func For(work ...Trigger) []Caution {
	return slices.DeleteFunc(slices.Clone(cautions), func(c Caution) bool { return !slices.Contains(work, c.Trigger) })
}

// ForPly lists the cautions of mixing for a ply and laying it. The promoter is
// named as the resin's cure has it.
func ForPly(row *laminate.RowFigures) []Caution {
	work := []Trigger{Mixing}
	promoter := ""
	if r := row.Resin; r != nil {
		if r.Filler != laminate.NoFiller || strings.TrimSpace(r.Thixotrope) != "" {
			work = append(work, Filling)
		}
		if r.Filler == laminate.CarbonPowder {
			work = append(work, Conducting)
		}
		if strings.Contains(strings.ToLower(r.Synergist), "antimon") {
			work = append(work, Retarding)
		}
		switch r.Cure {
		case laminate.PeroxideCobalt:
			promoter = "cobalt promoter"
		case laminate.PeroxideAmine:
			promoter = "amine promoter"
		case laminate.NoCure:
		}
	}
	if row.Material != nil && row.Material.Form == laminate.SprayedChop {
		work = append(work, Spraying)
	}
	list := For(work...)
	if promoter != "" {
		list[0].Text = strings.Replace(list[0].Text, "promoter", promoter, 1)
	}
	return list
}

// Encloses tells of a form that somebody might have to go into.
func Encloses(f laminate.PartForm) bool {
	switch f {
	case laminate.Tank, laminate.ShellCourse, laminate.FlatBottom, laminate.HeadPart, laminate.Cone:
		return true
	case laminate.NoPartForm, laminate.Pipe, laminate.Duct, laminate.Panel, laminate.Elbow, laminate.Flange, laminate.Cover:
	}
	return false
}

// ForPart lists the cautions of proving a part and of work in it: of pressure
// where it is tested or bears any, of entry where it encloses somebody.
func ForPart(s *laminate.Schedule) []Caution {
	var work []Trigger
	v := &s.Service
	if v.TestPressure.SI() > 0 || v.Pressure.SI() > 0 || s.Part.Form == laminate.Tank {
		work = append(work, PressureTest)
	}
	if Encloses(s.Part.Form) {
		work = append(work, Entering)
	}
	return For(work...)
}

// Text joins the sentences of cautions by id, in the order named; an id that is
// none is left out.
func Text(ids ...string) string {
	var said []string
	for _, id := range ids {
		if i := slices.IndexFunc(cautions, func(c Caution) bool { return c.ID == id }); i >= 0 {
			said = append(said, cautions[i].Text)
		}
	}
	return strings.Join(said, " ")
}
