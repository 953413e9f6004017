package schedules

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// field is one key of a table: how it is read, written and described. One list
// of fields a table decides what is read, which keys are known, in which order
// a canonical document has them and what the format's description says.
type field struct {
	key  string
	what string // what may stand there: `text`, `"pipe", "duct", …`
	// blank is what an explicit "not stated" looks like, for a line that says
	// so (author = "", count = 1). Where stay is set a value taken back leaves
	// its line with it.
	blank string
	stay  bool
	// set reads a decoded value into the row; it returns what is wrong with it.
	set func(row, value any) string
	// get gives the value as TOML, not ok when not stated.
	get func(row any) (text string, ok bool)
}

// table is one table of a document.
type table struct {
	name   string
	array  bool
	most   int
	fields []field
	at     func(model any, i int) any
	resize func(model any, n int)
	rows   func(model any) int
	same   func(a, b any) bool
	origin func(row any) *laminate.Origin // nil where rows have none
}

func (t *table) keys() []string {
	keys := make([]string, len(t.fields))
	for i := range t.fields {
		keys[i] = t.fields[i].key
	}
	return keys
}

func (t *table) field(key string) *field {
	for i := range t.fields {
		if t.fields[i].key == key {
			return &t.fields[i]
		}
	}
	return nil
}

// kindOf names what a decoded value is.
func kindOf(v any) string {
	switch v := v.(type) {
	case string:
		return "the text " + quoted(v)
	case int64:
		return fmt.Sprintf("the number %d", v)
	case float64:
		return fmt.Sprintf("the number %v", v)
	case bool:
		return fmt.Sprint(v)
	case time.Time:
		return "a date"
	case []any, []map[string]any:
		return "a list"
	}
	return "a table"
}

func textField[T any](key string, at func(*T) *string) field { return stringField(key, at, "text") }

func notesField[T any](key string, at func(*T) *string) field {
	return stringField(key, at, "text, of several lines where wanted")
}

func stringField[T any](key string, at func(*T) *string, what string) field {
	return field{key: key, what: what, blank: `""`,
		set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				return "text is expected, not " + kindOf(value)
			}
			if strings.Contains(s, "\r\n") {
				s = strings.ReplaceAll(s, "\r\n", "\n")
			}
			*at(row.(*T)) = s
			return ""
		},
		get: func(row any) (string, bool) {
			s := *at(row.(*T))
			return tomlText(s), s != ""
		}}
}

func sizeField[T any, D quantity.Dimension](key string, at func(*T) *quantity.Quantity[D]) field {
	var zero quantity.Quantity[D]
	units := strings.Join(zero.UnitNames(), ", ")
	return field{key: key, what: zero.Noun() + " with its unit: " + units,
		set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				switch value.(type) {
				case int64, float64:
					return fmt.Sprintf("the number %v has no unit: write text such as \"%v %s\"; units: %s", value, value, exampleUnit(zero.UnitNames()), units)
				}
				return "a " + zero.Noun() + " in text with its unit is expected, not " + kindOf(value)
			}
			if err := quantity.Read(at(row.(*T)), s); err != nil {
				return err.Error()
			}
			return ""
		},
		get: func(row any) (string, bool) {
			q := at(row.(*T))
			return tomlText(q.Text()), q.Given()
		}}
}

// exampleUnit picks a unit for a hint that is likelier than the SI base unit.
func exampleUnit(names []string) string {
	for _, likely := range []string{"in", "oz/ft2", "psi", "degF", "tex", "ft2"} {
		if slices.Contains(names, likely) {
			return likely
		}
	}
	return names[0]
}

func wordField[T any, W interface {
	comparable
	String() string
}](key string, at func(*T) *W, parse func(string) (W, bool), list []W) field {
	words := make([]string, len(list))
	for i, w := range list {
		words[i] = w.String()
	}
	return field{key: key, what: "one of " + strings.Join(words, ", "),
		set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				return "a word is expected, one of " + strings.Join(words, ", ") + ", not " + kindOf(value)
			}
			w, ok := parse(s)
			if !ok {
				return wrongWord(s, words)
			}
			*at(row.(*T)) = w
			return ""
		},
		get: func(row any) (string, bool) {
			w := *at(row.(*T))
			var none W
			return tomlText(w.String()), w != none
		}}
}

func wrongWord(s string, words []string) string {
	m := fmt.Sprintf("%s is not one of %s", quoted(s), strings.Join(words, ", "))
	if n, ok := nearest(s, words); ok {
		m += fmt.Sprintf("; %q is the nearest", n)
	}
	return m
}

// number takes whole numbers where decimals do.
func number(value any) (float64, string) {
	switch v := value.(type) {
	case int64:
		return float64(v), ""
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return 0, fmt.Sprintf("%v is no number to build from", v)
		}
		return v, ""
	}
	return 0, "a number is expected, not " + kindOf(value)
}

func numberField[T any](key, what string, at func(*T) *laminate.Optional[float64]) field {
	return field{key: key, what: what,
		set: func(row, value any) string {
			v, wrong := number(value)
			if wrong == "" {
				*at(row.(*T)) = laminate.Some(v)
			}
			return wrong
		},
		get: func(row any) (string, bool) {
			o := at(row.(*T))
			return tomlNumber(o.Value), o.Given
		}}
}

func shareField[T any](key string, at func(*T) *laminate.Optional[float64]) field {
	return numberField(key, "a share from 0 to 1", at)
}

// whole takes a number without decimals that fits the machine.
func whole(value any) (int, string) {
	switch v := value.(type) {
	case int64:
		if v > math.MaxInt32 || v < math.MinInt32 {
			return 0, fmt.Sprintf("%d is beyond reason", v)
		}
		return int(v), ""
	case float64:
		return 0, fmt.Sprintf("a whole number is expected, not %v", v)
	}
	return 0, "a whole number is expected, not " + kindOf(value)
}

func wholeField[T any](key string, at func(*T) *laminate.Optional[int]) field {
	return field{key: key, what: "a whole number",
		set: func(row, value any) string {
			v, wrong := whole(value)
			if wrong == "" {
				*at(row.(*T)) = laminate.Some(v)
			}
			return wrong
		},
		get: func(row any) (string, bool) {
			o := at(row.(*T))
			return strconv.Itoa(o.Value), o.Given
		}}
}

// countField is a number of plies that is 1 when not said.
func countField[T any](key string, at func(*T) *int) field {
	return field{key: key, what: "a whole number from 1; 1 when left out", blank: "1", stay: true,
		set: func(row, value any) string {
			v, wrong := whole(value)
			if wrong == "" {
				*at(row.(*T)) = v
			}
			return wrong
		},
		get: func(row any) (string, bool) {
			n := *at(row.(*T))
			return strconv.Itoa(n), n != 1
		}}
}

func boolean(value any) (bool, string) {
	if v, ok := value.(bool); ok {
		return v, ""
	}
	return false, "true or false is expected, not " + kindOf(value)
}

func flagField[T any](key string, at func(*T) *bool) field {
	return field{key: key, what: "true or false; false when left out", blank: "false", stay: true,
		set: func(row, value any) string {
			v, wrong := boolean(value)
			*at(row.(*T)) = v
			return wrong
		},
		get: func(row any) (string, bool) { return "true", *at(row.(*T)) }}
}

func answerField[T any](key string, at func(*T) *laminate.Optional[bool]) field {
	return field{key: key, what: "true or false; unknown when left out",
		set: func(row, value any) string {
			v, wrong := boolean(value)
			if wrong == "" {
				*at(row.(*T)) = laminate.Some(v)
			}
			return wrong
		},
		get: func(row any) (string, bool) {
			o := at(row.(*T))
			return strconv.FormatBool(o.Value), o.Given
		}}
}

func priceField[T any](key string, at func(*T) *laminate.Price) field {
	return field{key: key, what: `money per mass: "4.20 per kg"`,
		set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				return `text such as "4.20 per kg" is expected, not ` + kindOf(value)
			}
			p, err := laminate.ParsePrice(s)
			if err != nil {
				return err.Error()
			}
			*at(row.(*T)) = p
			return ""
		},
		get: func(row any) (string, bool) {
			p := at(row.(*T))
			return tomlText(p.Text), p.Given()
		}}
}

// numbers reads a list of exactly n numbers.
func numbers(value any, n int) ([]float64, string) {
	list, ok := value.([]any)
	if !ok || len(list) != n {
		what := kindOf(value)
		if ok {
			what = fmt.Sprintf("%d values", len(list))
		}
		return nil, fmt.Sprintf("a list of %d numbers is expected, not %s", n, what)
	}
	out := make([]float64, n)
	for i, v := range list {
		x, wrong := number(v)
		if wrong != "" {
			return nil, wrong
		}
		out[i] = x
	}
	return out, ""
}

// wordsOf reads a list of text.
func wordsOf(value any) ([]string, string) {
	list, ok := value.([]any)
	if !ok {
		return nil, "a list of words is expected, not " + kindOf(value)
	}
	out := make([]string, len(list))
	for i, v := range list {
		s, ok := v.(string)
		if !ok {
			return nil, "a list of words is expected, not one with " + kindOf(v)
		}
		out[i] = s
	}
	return out, ""
}
