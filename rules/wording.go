package rules

import (
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Sources that many rules share.
const (
	CommonPractice = "common practice, no source"
	FromMemory     = "from memory"
)

// Plies names the plies of rows as the schedule numbers them: "ply 3",
// "plies 2–4, 6".
func (p *Pass) Plies(rows []int) string {
	const most = 6
	spans, single := 0, true
	var b strings.Builder
	for i := 0; i < len(rows); {
		from, to := p.Analysis.Rows[rows[i]].First, p.Analysis.Rows[rows[i]].Last
		for i++; i < len(rows) && p.Analysis.Rows[rows[i]].First == to+1; i++ {
			to = p.Analysis.Rows[rows[i]].Last
		}
		if spans == most {
			b.WriteString(" and more")
			break
		}
		if spans++; spans > 1 {
			b.WriteString(", ")
			single = false
		}
		b.WriteString(strconv.Itoa(from))
		if to > from {
			b.WriteString("–" + strconv.Itoa(to))
			single = false
		}
	}
	if single {
		return "ply " + b.String()
	}
	return "plies " + b.String()
}

// Verb picks the form of a verb: one for a single ply, many for several.
func (p *Pass) Verb(rows []int, one, many string) string {
	if len(rows) == 1 && p.Analysis.Rows[rows[0]].First == p.Analysis.Rows[rows[0]].Last {
		return one
	}
	return many
}

// Are is "is" for one ply and "are" for several.
func (p *Pass) Are(rows []int) string { return p.Verb(rows, "is", "are") }

// PliesAre names plies and what each of them is: "ply 1 is a glass veil",
// "plies 1–2 are glass veils".
func (p *Pass) PliesAre(rows []int, each string) string {
	return p.Plies(rows) + p.Verb(rows, " is a "+each, " are "+each+"s")
}

// Thickness prints a measured thickness and its limit, both in m.
func (p *Pass) Thickness(m, limit float64) (measured, bound string) {
	return p.Units.Pair(m, limit, quantity.Thickness)
}

// Shares prints a fraction and its limit as percent.
func (p *Pass) Shares(f, limit float64) (measured, bound string) {
	return p.Units.Pair(f, limit, quantity.Fraction)
}

// Hottest names the highest temperature of the service, told apart from a
// limit in K: "150 °F" or "170 °F in an upset".
func (p *Pass) Hottest(limit float64) (reached, bound string) {
	s := &p.Schedule.Service
	hot := s.Hottest()
	reached, bound = p.Units.Pair(hot.SI(), limit, quantity.Point)
	if s.Upset.Given() && hot.SI() == s.Upset.SI() && (!s.Temperature.Given() || s.Temperature.SI() != hot.SI()) {
		reached += " in an upset"
	}
	return reached, bound
}

// Carried lists which of the traits the service contains: "fluorides and
// strong-acid".
func (p *Pass) Carried(traits ...laminate.Trait) string {
	var names []string
	for _, t := range traits {
		if p.Schedule.Service.Contains.Has(t) {
			names = append(names, t.String())
		}
	}
	return Join(names, "and")
}

// Join lists words: "a, b and c".
func Join(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + last + " " + words[len(words)-1]
}
