package schedules

import (
	"fmt"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules/internal/spell"
	"frp/veilwright/schedules/internal/tables"
)

// boundsField is a lowest and a highest length, of any size that a part has.
func boundsField[T any](key string, at func(*T) *spec.Bounds) tables.Field {
	return tables.Of(key, `a list of 2 lengths, the lowest first; "" leaves a side open`, at,
		func(value any) (b spec.Bounds, wrong string) {
			list, wrong := tables.WordsOf(value)
			if wrong != "" || len(list) != 2 {
				return b, `a list of 2 lengths with their units is expected, such as ["23.9 in", "24.1 in"], "" for an open side`
			}
			for i, side := range []*quantity.Length{&b.Lowest, &b.Highest} {
				if list[i] == "" {
					continue
				}
				if err := quantity.Read(side, list[i]); err != nil {
					return b, err.Error()
				}
				if side.SI() < 0 || side.In(quantity.Meter) > 1000 {
					return b, fmt.Sprintf("%s is not from 0 to 1000 m", tables.Quoted(list[i]))
				}
			}
			if b.Lowest.Given() && b.Highest.Given() && b.Lowest.Cmp(b.Highest) > 0 {
				return b, "the lowest comes first"
			}
			return b, ""
		},
		func(b spec.Bounds) (string, bool) {
			return spell.Words([]string{b.Lowest.Text(), b.Highest.Text()}), b.Given()
		})
}

// notASpan says what is wrong with a time such as "30 min", "" for nothing.
func notASpan(text string) string {
	if _, ok := record.Span(text); !ok && text != "" {
		return `a time above 0 such as "30 min" or "1.5 h" is expected`
	}
	return ""
}

// partDemands tells what is wrong with what is required of the finished part.
func (s *Source) partDemands(problems []Problem, d *spec.Inspection) []Problem {
	fail := func(table, row int, key, message string) {
		problems = s.fault(problems, tables.Spot{Table: table, Row: row, Key: key}, message)
	}
	for i, x := range d.Dimensions {
		switch {
		case x.What == spec.NoMeasure:
			fail(dimensionTable, i, "what", "it is missing")
		case !x.Value.Given():
			fail(dimensionTable, i, "value", "it is missing: the lowest and the highest")
		}
	}
	if wrong := notASpan(d.Hydrotest.Held); wrong != "" {
		fail(hydrotestTable, 0, "held", wrong)
	}
	if h := &d.Hydrotest; h.Pressure.Given() && h.Pressure.SI() <= 0 {
		fail(hydrotestTable, 0, "pressure", "it is not above 0")
	} else if !h.Pressure.Given() && h.Held+h.Witness != "" {
		fail(hydrotestTable, 0, "pressure", "it is missing")
	}
	if wrong := notASpan(d.PostCure.Held); wrong != "" {
		fail(postCureTable, 0, "held", wrong)
	}
	if !d.PostCure.Temperature.Given() && d.PostCure.Held != "" {
		fail(postCureTable, 0, "temperature", "it is missing")
	}
	for i, x := range d.Holds {
		if strings.TrimSpace(x.Point) == "" {
			fail(holdTable, i, "point", "it is missing: what the point is called")
		}
		if x.BeforePly.Given && (x.BeforePly.Value < 1 || x.BeforePly.Value > laminate.MostPlies) {
			fail(holdTable, i, "before_ply", "it is no ply's number")
		}
	}
	return problems
}
