package tables

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
	"frp/veilwright/schedules/internal/spell"
)

// Field is one key of a table: how it is read, written and described.
type Field struct {
	Key  string
	What string // what may stand there: `text`; [Field.Takes] adds words and units
	// Blank is what an explicit "not stated" looks like, for a line that says
	// so (author = "", count = 1). Where Stay is set a value taken back leaves
	// its line with it.
	Blank string
	Stay  bool
	Begin func(row any) // what a new row has where the key is left out; may be nil
	// Check tells text that no screen should be sent; nil for what is no text.
	Check func(row any) (wrong string)
	// Set reads a decoded value into the row; it returns what is wrong with it.
	Set func(row, value any) string
	// Typed is Set of a value as a person types it into a form, 1'6" or a bare 0,
	// which no document has; nil where Set reads all there is.
	Typed func(row any, text string, of quantity.System) string
	// Get gives the value as TOML, not ok when not stated.
	Get func(row any) (text string, ok bool)
	// Value gives a physical value without its spelling; nil where Get does.
	Value func(row any) (text string, ok bool)
	// listed is the rest of What, made when somebody asks: a start has some
	// hundred fields, and nobody asks.
	listed func() string
}

// Takes says what may stand there: `text`, `one of pipe, duct, …`.
func (f Field) Takes() string {
	if f.listed == nil {
		return f.What
	}
	return f.What + f.listed()
}

// Digits are those that Value writes: more than anybody types, and fewer than
// differ by the unit that a value was typed in.
const Digits = 12

// Of is a field of a row type: read turns a decoded value into the model's or
// says what is wrong with it, write spells it, not ok when it is not stated.
func Of[T, V any](key, what string, at func(*T) *V, read func(value any) (V, string), write func(V) (string, bool)) Field {
	return At(key, what, In(at), read, write)
}

// Slot is where a row has a value. Of what the compiler makes for every type of
// row there is just this, however much a kind of field can do.
type Slot[V any] func(row any) *V

// In is the slot that at finds in a row of type T.
func In[T, V any](at func(*T) *V) Slot[V] { return func(row any) *V { return at(row.(*T)) } }

// At is a field in a slot: see [Of].
func At[V any](key, what string, at Slot[V], read func(value any) (V, string), write func(V) (string, bool)) Field {
	return Field{Key: key, What: what,
		Set: func(row, value any) string {
			v, wrong := read(value)
			if wrong == "" {
				*at(row) = v
			}
			return wrong
		},
		Get: func(row any) (string, bool) { return write(*at(row)) }}
}

// Lift makes fields of a row those of one that holds it.
func Lift[Outer, Inner any](fields []Field, inner func(*Outer) *Inner) []Field {
	return lift(fields, func(row any) any { return inner(row.(*Outer)) })
}

func lift(fields []Field, inner func(row any) any) []Field {
	list := make([]Field, len(fields))
	for i, f := range fields {
		list[i] = f
		list[i].Set = func(row, value any) string { return f.Set(inner(row), value) }
		list[i].Get = func(row any) (string, bool) { return f.Get(inner(row)) }
		if f.Typed != nil {
			list[i].Typed = func(row any, text string, of quantity.System) string { return f.Typed(inner(row), text, of) }
		}
		if f.Value != nil {
			list[i].Value = func(row any) (string, bool) { return f.Value(inner(row)) }
		}
		if f.Begin != nil {
			list[i].Begin = func(row any) { f.Begin(inner(row)) }
		}
		if f.Check != nil {
			list[i].Check = func(row any) string { return f.Check(inner(row)) }
		}
	}
	return list
}

// optional is a field that is unknown when left out.
func optional[V comparable](key, what string, at Slot[laminate.Optional[V]], read func(any) (V, string), write func(V) string) Field {
	return At(key, what, at,
		func(value any) (laminate.Optional[V], string) {
			v, wrong := read(value)
			return laminate.Some(v), wrong
		},
		func(o laminate.Optional[V]) (string, bool) { return write(o.Value), o.Given })
}

// KindOf names what a decoded value is.
func KindOf(v any) string {
	switch v := v.(type) {
	case string:
		return "the text " + Quoted(v)
	case int64:
		return fmt.Sprintf("the number %d", v)
	case float64:
		return "the number " + spell.Number(v)
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
func TextField[T any](key string, at func(*T) *string) Field {
	return textField(key, "text", In(at), false)
}

// NotesField is text of any lines.
func NotesField[T any](key string, at func(*T) *string) Field {
	return textField(key, "text, of several lines where wanted", In(at), true)
}

func textField(key, what string, at Slot[string], lines bool) Field {
	f := At(key, what, at,
		func(value any) (string, string) {
			s, ok := value.(string)
			if !ok {
				return "", "text is expected, not " + KindOf(value)
			}
			return strings.ReplaceAll(s, "\r\n", "\n"), ""
		},
		func(s string) (string, bool) { return spell.Text(s), s != "" })
	f.Blank, f.Check = `""`, func(row any) string { return Strange(*at(row), lines) }
	return f
}

// DayField is a day of the calendar, as TOML writes one or as text.
func DayField[T any](key string, at func(*T) *string) Field { return dayField(key, In(at)) }

func dayField(key string, at Slot[string]) Field {
	const what = "a day such as 2026-03-01"
	f := At(key, what, at,
		func(value any) (string, string) {
			text, ok := value.(string)
			if day, isTime := value.(time.Time); isTime {
				if h, m, s := day.Clock(); h+m+s == 0 && strings.HasPrefix(day.Location().String(), "date") {
					return day.Format(time.DateOnly), ""
				}
				return "", what + " is expected, not a time of day"
			}
			if _, err := time.Parse(time.DateOnly, text); !ok || err != nil && text != "" {
				return "", what + " is expected, not " + KindOf(value)
			}
			return text, ""
		},
		func(day string) (string, bool) { return day, day != "" })
	f.Blank = time.Time{}.AddDate(2025, 0, 0).Format(time.DateOnly)
	return f
}

// Strange says which character of a text no screen should be sent, "" for none.
// Several lines pass where lines says so.
func Strange(s string, lines bool) string {
	if r, bad := word.BadCharacter(s, lines); bad {
		return "it has " + word.CharacterName(r)
	}
	return ""
}

// SizeField is a physical value in text, with its unit.
func SizeField[T any, D quantity.Dimension](key string, at func(*T) *quantity.Quantity[D]) Field {
	return sizeField(key, In(at))
}

func sizeField[D quantity.Dimension](key string, at Slot[quantity.Quantity[D]]) Field {
	var zero quantity.Quantity[D]
	units := func() string { return strings.Join(zero.UnitNames(), ", ") }
	f := At(key, zero.Noun(), at,
		func(value any) (q quantity.Quantity[D], wrong string) {
			switch text := value.(type) {
			case string:
				return q, said(quantity.Read(&q, text))
			case int64, float64:
				v, wrong := Number(value)
				if wrong != "" {
					return q, wrong
				}
				number := spell.Number(v)
				return q, fmt.Sprintf("the number %s has no unit: write text such as \"%s %s\"; units: %s", number, number, exampleUnit(zero.UnitNames()), units())
			}
			return q, "a " + zero.Noun() + " in text with its unit is expected, not " + KindOf(value)
		},
		func(q quantity.Quantity[D]) (string, bool) { return spell.Text(q.Text()), q.Given() })
	f.Value = func(row any) (string, bool) {
		q := *at(row)
		return strconv.FormatFloat(q.SI(), 'g', Digits, 64), q.Given()
	}
	f.Typed = func(row any, s string, u quantity.System) string { return said(quantity.ReadEntry(at(row), s, u)) }
	f.listed = func() string { return " with its unit: " + units() }
	return f
}

func said(err error) string {
	if err != nil {
		return err.Error()
	}
	return ""
}

// exampleUnit picks a unit for a hint that is likelier than the SI base unit.
func exampleUnit(names []string) string {
	for _, likely := range []string{"in", "oz/ft2", "psi", "degF", "tex", "ft2", "lb/in", "ft-lb", "h"} {
		if slices.Contains(names, likely) {
			return likely
		}
	}
	return names[0]
}

// WordField is one word of a closed set, whose zero value is "not stated".
func WordField[T any, W ~uint8](key string, at func(*T) *W, set word.Set[W]) Field {
	return wordField(key, In(at), set)
}

func wordField[W ~uint8](key string, at Slot[W], set word.Set[W]) Field {
	f := At(key, "one of ", at,
		func(value any) (w W, wrong string) {
			s, ok := value.(string)
			if !ok {
				return w, "a word is expected, one of " + set.List() + ", not " + KindOf(value)
			}
			if w, ok = set.Parse(s); !ok {
				wrong = WrongWord(s, set.Words())
			}
			return w, wrong
		},
		func(w W) (string, bool) { return spell.Text(set.Name(w)), w != 0 })
	f.listed = set.List
	return f
}

// ParseWords reads a list of words of a closed set.
func ParseWords[W ~uint8](value any, set word.Set[W]) ([]W, string) {
	typed, wrong := WordsOf(value)
	if wrong != "" {
		return nil, wrong
	}
	list := make([]W, len(typed))
	for i, s := range typed {
		w, ok := set.Parse(s)
		if !ok {
			return nil, WrongWord(s, set.Words())
		}
		list[i] = w
	}
	return list, ""
}

// WrongWord says that a word is not of a set, which ones are, and the nearest; of
// a retired word what stands now.
func WrongWord(s string, words []string) string {
	if now := word.Renamed(s, words); now != "" {
		return fmt.Sprintf("%s is called %q now", Quoted(s), now)
	}
	return fmt.Sprintf("%s is not one of %s", Quoted(s), strings.Join(words, ", ")) + word.Hint(s, words)
}

// Number takes whole numbers where decimals do.
func Number(value any) (float64, string) {
	switch v := value.(type) {
	case int64:
		return float64(v), ""
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return 0, spell.Number(v) + " is no number to build from"
		}
		return v, ""
	}
	return 0, "a number is expected, not " + KindOf(value)
}

// NumberField is a number; what says which.
func NumberField[T any](key, what string, at func(*T) *laminate.Optional[float64]) Field {
	return optional(key, what, In(at), Number, spell.Number)
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
		return 0, "a whole number is expected, not " + spell.Number(v)
	}
	return 0, "a whole number is expected, not " + KindOf(value)
}

// WholeField is a whole number.
func WholeField[T any](key string, at func(*T) *laminate.Optional[int]) Field {
	return optional(key, "a whole number", In(at), Whole, strconv.Itoa)
}

// CountField is a number of plies that is 1 when not said.
func CountField[T any](key string, at func(*T) *int) Field {
	f := Of(key, "a whole number from 1; 1 when left out", at, Whole,
		func(n int) (string, bool) { return strconv.Itoa(n), n != 1 })
	f.Blank, f.Stay, f.Begin = "1", true, func(row any) { *at(row.(*T)) = 1 }
	return f
}

// OrdinalField is a number from 1 to most, always said.
func OrdinalField[T any](key, what string, most int, at func(*T) *int) Field {
	return Of(key, what, at,
		func(value any) (int, string) {
			n, wrong := Whole(value)
			if wrong == "" && (n < 1 || n > most) {
				wrong = fmt.Sprintf("%d is not between 1 and %d", n, most)
			}
			return n, wrong
		},
		func(n int) (string, bool) { return strconv.Itoa(n), true })
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
	f := Of(key, "true or false; false when left out", at, Boolean, func(v bool) (string, bool) { return "true", v })
	f.Blank, f.Stay = "false", true
	return f
}

// AnswerField is unknown when left out.
func AnswerField[T any](key string, at func(*T) *laminate.Optional[bool]) Field {
	return optional(key, "true or false; unknown when left out", In(at), Boolean, strconv.FormatBool)
}

// PriceField is money per mass.
func PriceField[T any](key string, at func(*T) *quantity.Price) Field { return priceField(key, In(at)) }

func priceField(key string, at Slot[quantity.Price]) Field {
	return At(key, `money per mass: "4.20 per kg"`, at,
		func(value any) (quantity.Price, string) {
			s, ok := value.(string)
			if !ok {
				return quantity.Price{}, `text such as "4.20 per kg" is expected, not ` + KindOf(value)
			}
			p, err := quantity.ParsePrice(s)
			if err != nil {
				return p, err.Error()
			}
			return p, ""
		},
		func(p quantity.Price) (string, bool) { return spell.Text(p.Text), p.Given() })
}

// UnitsField is the system of units that screens and papers show.
func UnitsField[T any](key, what string, at func(*T) (*quantity.System, *bool)) Field {
	return Field{Key: key, What: what,
		Set: func(row, value any) string {
			s, _ := value.(string)
			u, ok := quantity.Systems.Parse(s)
			if !ok {
				return "us or si is expected, not " + KindOf(value)
			}
			units, set := at(row.(*T))
			*units, *set = u, true
			return ""
		},
		Get: func(row any) (string, bool) {
			units, set := at(row.(*T))
			return spell.Text(units.String()), *set
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
		if wrong := Strange(s, false); wrong != "" {
			return nil, wrong
		}
		out[i] = s
	}
	return out, ""
}

// Declaration is a key that belongs to the document, not to what it describes.
func Declaration(key, value, what string) Field {
	return Field{Key: key, What: what,
		Set: func(any, any) string { return "" },
		Get: func(any) (string, bool) { return value, true }}
}
