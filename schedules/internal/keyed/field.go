package keyed

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// Field is one key of a table: how it is read, written and described. One list
// of fields a table decides what is read, which keys are known, in which order
// a canonical document has them and what the format's description says.
type Field struct {
	Key  string
	What string // what may stand there: `text`, `"pipe", "duct", …`
	// Blank is what an explicit "not stated" looks like, for a line that says
	// so (author = "", count = 1). Where Stay is set a value taken back leaves
	// its line with it.
	Blank string
	Stay  bool
	// Set reads a decoded value into the row; it returns what is wrong with it.
	Set func(row, value any) string
	// Get gives the value as TOML, not ok when not stated.
	Get func(row any) (text string, ok bool)
}

// Table is one table of a document.
type Table struct {
	Name   string
	Array  bool
	Most   int // rows
	Fields []Field
	At     func(model any, i int) any
	Resize func(model any, n int)
	Rows   func(model any) int
	Same   func(a, b any) bool            // may stay nil where documents are only read
	Origin func(row any) *laminate.Origin // nil where rows have none
}

func (t *Table) keys() []string {
	keys := make([]string, len(t.Fields))
	for i := range t.Fields {
		keys[i] = t.Fields[i].Key
	}
	return keys
}

// Field finds a key of the table, nil where it has none.
func (t *Table) Field(key string) *Field {
	for i := range t.Fields {
		if t.Fields[i].Key == key {
			return &t.Fields[i]
		}
	}
	return nil
}

// KindOf names what a decoded value is.
func KindOf(v any) string {
	switch v := v.(type) {
	case string:
		return "the text " + Quoted(v)
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

// TextField is a line of text.
func TextField[T any](key string, at func(*T) *string) Field { return stringField(key, at, "text") }

// NotesField is text of any lines.
func NotesField[T any](key string, at func(*T) *string) Field {
	return stringField(key, at, "text, of several lines where wanted")
}

func stringField[T any](key string, at func(*T) *string, what string) Field {
	return Field{Key: key, What: what, Blank: `""`,
		Set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				return "text is expected, not " + KindOf(value)
			}
			if strings.Contains(s, "\r\n") {
				s = strings.ReplaceAll(s, "\r\n", "\n")
			}
			*at(row.(*T)) = s
			return ""
		},
		Get: func(row any) (string, bool) {
			s := *at(row.(*T))
			return TOMLText(s), s != ""
		}}
}

// SizeField is a physical value in text, with its unit.
func SizeField[T any, D quantity.Dimension](key string, at func(*T) *quantity.Quantity[D]) Field {
	var zero quantity.Quantity[D]
	units := strings.Join(zero.UnitNames(), ", ")
	return Field{Key: key, What: zero.Noun() + " with its unit: " + units,
		Set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				switch value.(type) {
				case int64, float64:
					return fmt.Sprintf("the number %v has no unit: write text such as \"%v %s\"; units: %s", value, value, exampleUnit(zero.UnitNames()), units)
				}
				return "a " + zero.Noun() + " in text with its unit is expected, not " + KindOf(value)
			}
			if err := quantity.Read(at(row.(*T)), s); err != nil {
				return err.Error()
			}
			return ""
		},
		Get: func(row any) (string, bool) {
			q := at(row.(*T))
			return TOMLText(q.Text()), q.Given()
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

// WordField is one word of a closed set, whose zero value is "not stated".
func WordField[T any, W ~uint8](key string, at func(*T) *W, set word.Set[W]) Field {
	return Field{Key: key, What: "one of " + set.List(),
		Set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				return "a word is expected, one of " + set.List() + ", not " + KindOf(value)
			}
			w, ok := set.Parse(s)
			if !ok {
				return WrongWord(s, set.Words())
			}
			*at(row.(*T)) = w
			return ""
		},
		Get: func(row any) (string, bool) {
			w := *at(row.(*T))
			return TOMLText(set.Name(w)), w != 0
		}}
}

// WrongWord says that a word is not of a set, which ones are, and the nearest.
func WrongWord(s string, words []string) string {
	m := fmt.Sprintf("%s is not one of %s", Quoted(s), strings.Join(words, ", "))
	if n := word.Nearest(s, words); n != "" {
		m += fmt.Sprintf("; %q is the nearest", n)
	}
	return m
}

// Number takes whole numbers where decimals do.
func Number(value any) (float64, string) {
	switch v := value.(type) {
	case int64:
		return float64(v), ""
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return 0, fmt.Sprintf("%v is no number to build from", v)
		}
		return v, ""
	}
	return 0, "a number is expected, not " + KindOf(value)
}

// NumberField is a number; what says which.
func NumberField[T any](key, what string, at func(*T) *laminate.Optional[float64]) Field {
	return Field{Key: key, What: what,
		Set: func(row, value any) string {
			v, wrong := Number(value)
			if wrong == "" {
				*at(row.(*T)) = laminate.Some(v)
			}
			return wrong
		},
		Get: func(row any) (string, bool) {
			o := at(row.(*T))
			return TOMLNumber(o.Value), o.Given
		}}
}

// ShareField is a number from 0 to 1.
func ShareField[T any](key string, at func(*T) *laminate.Optional[float64]) Field {
	return NumberField(key, "a share from 0 to 1", at)
}

// Whole takes a number without decimals that fits the machine.
func Whole(value any) (int, string) {
	switch v := value.(type) {
	case int64:
		if v > math.MaxInt32 || v < math.MinInt32 {
			return 0, fmt.Sprintf("%d is beyond reason", v)
		}
		return int(v), ""
	case float64:
		return 0, fmt.Sprintf("a whole number is expected, not %v", v)
	}
	return 0, "a whole number is expected, not " + KindOf(value)
}

// WholeField is a whole number.
func WholeField[T any](key string, at func(*T) *laminate.Optional[int]) Field {
	return Field{Key: key, What: "a whole number",
		Set: func(row, value any) string {
			v, wrong := Whole(value)
			if wrong == "" {
				*at(row.(*T)) = laminate.Some(v)
			}
			return wrong
		},
		Get: func(row any) (string, bool) {
			o := at(row.(*T))
			return strconv.Itoa(o.Value), o.Given
		}}
}

// CountField is a number of plies that is 1 when not said.
func CountField[T any](key string, at func(*T) *int) Field {
	return Field{Key: key, What: "a whole number from 1; 1 when left out", Blank: "1", Stay: true,
		Set: func(row, value any) string {
			v, wrong := Whole(value)
			if wrong == "" {
				*at(row.(*T)) = v
			}
			return wrong
		},
		Get: func(row any) (string, bool) {
			n := *at(row.(*T))
			return strconv.Itoa(n), n != 1
		}}
}

// Boolean takes true or false.
func Boolean(value any) (bool, string) {
	if v, ok := value.(bool); ok {
		return v, ""
	}
	return false, "true or false is expected, not " + KindOf(value)
}

// FlagField is false when left out.
func FlagField[T any](key string, at func(*T) *bool) Field {
	return Field{Key: key, What: "true or false; false when left out", Blank: "false", Stay: true,
		Set: func(row, value any) string {
			v, wrong := Boolean(value)
			*at(row.(*T)) = v
			return wrong
		},
		Get: func(row any) (string, bool) { return "true", *at(row.(*T)) }}
}

// AnswerField is unknown when left out.
func AnswerField[T any](key string, at func(*T) *laminate.Optional[bool]) Field {
	return Field{Key: key, What: "true or false; unknown when left out",
		Set: func(row, value any) string {
			v, wrong := Boolean(value)
			if wrong == "" {
				*at(row.(*T)) = laminate.Some(v)
			}
			return wrong
		},
		Get: func(row any) (string, bool) {
			o := at(row.(*T))
			return strconv.FormatBool(o.Value), o.Given
		}}
}

// PriceField is money per mass.
func PriceField[T any](key string, at func(*T) *laminate.Price) Field {
	return Field{Key: key, What: `money per mass: "4.20 per kg"`,
		Set: func(row, value any) string {
			s, ok := value.(string)
			if !ok {
				return `text such as "4.20 per kg" is expected, not ` + KindOf(value)
			}
			p, err := laminate.ParsePrice(s)
			if err != nil {
				return err.Error()
			}
			*at(row.(*T)) = p
			return ""
		},
		Get: func(row any) (string, bool) {
			p := at(row.(*T))
			return TOMLText(p.Text), p.Given()
		}}
}

// Numbers reads a list of exactly n numbers.
func Numbers(value any, n int) ([]float64, string) {
	list, ok := value.([]any)
	if !ok || len(list) != n {
		what := KindOf(value)
		if ok {
			what = fmt.Sprintf("%d values", len(list))
		}
		return nil, fmt.Sprintf("a list of %d numbers is expected, not %s", n, what)
	}
	out := make([]float64, n)
	for i, v := range list {
		x, wrong := Number(v)
		if wrong != "" {
			return nil, wrong
		}
		out[i] = x
	}
	return out, ""
}

// WordsOf reads a list of text.
func WordsOf(value any) ([]string, string) {
	list, ok := value.([]any)
	if !ok {
		return nil, "a list of words is expected, not " + KindOf(value)
	}
	out := make([]string, len(list))
	for i, v := range list {
		s, ok := v.(string)
		if !ok {
			return nil, "a list of words is expected, not one with " + KindOf(v)
		}
		out[i] = s
	}
	return out, ""
}

// OneRow counts the rows of a table that stands once.
func OneRow(any) int { return 1 }

// Fixed resizes nothing.
func Fixed(any, int) {}

// Declaration is a key that belongs to the document, not to what it describes.
func Declaration(key, value, what string) Field {
	return Field{Key: key, What: what,
		Set: func(any, any) string { return "" },
		Get: func(any) (string, bool) { return value, true }}
}
