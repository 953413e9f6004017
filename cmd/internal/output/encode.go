package output

import (
	"encoding"
	"encoding/json"
	"math"
	"reflect"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"frp/veilwright/laminate/word"
)

// printer is JSON text in the making. It prints a value as json.MarshalIndent with
// two spaces would, depth steps in, and escapes what a terminal may act on: one pass
// over the value instead of three over its text, of which check prints nearly
// twenty kilobytes a schedule. What it has no way of its own for, such as a map, it
// leaves to encoding/json.
type printer struct {
	text  []byte
	depth int
	err   error // the first

	// recent are floats as they were printed last, by some of their bits: plies of
	// one material have all their figures in common.
	recent [64]struct {
		bits     uint64
		from, to int // in text
	}
}

// printers are kept for the room that their text has taken.
var printers = sync.Pool{New: func() any { return new(printer) }}

// printed prints a value depth steps in. The printer is to be let go.
func printed(v any, depth int) *printer {
	p := printers.Get().(*printer)
	p.depth = depth
	if v == nil {
		p.null()
		return p
	}
	value := reflect.ValueOf(v)
	wayOf(value.Type())(p, value)
	return p
}

// mostKept bounds the room that is kept for the next value.
const mostKept = 1 << 18

func (p *printer) letGo() {
	if cap(p.text) <= mostKept {
		*p = printer{text: p.text[:0]}
		printers.Put(p)
	}
}

// way prints the values of one type.
type way func(*printer, reflect.Value)

var ways sync.Map // of reflect.Type to way

func wayOf(t reflect.Type) way {
	if w, ok := ways.Load(t); ok {
		return w.(way)
	}
	// A type may hold itself: until its own way is known it is looked up.
	ways.Store(t, way(func(p *printer, v reflect.Value) { wayOf(t)(p, v) }))
	w := newWay(t)
	ways.Store(t, w)
	return w
}

func newWay(t reflect.Type) way {
	if words := reflect.TypeFor[encoding.TextMarshaler](); t.Implements(words) || reflect.PointerTo(t).Implements(words) {
		return (*printer).left
	}
	if own := reflect.TypeFor[json.Marshaler](); t.Implements(own) || reflect.PointerTo(t).Implements(own) {
		return (*printer).left
	}
	switch t.Kind() {
	case reflect.Bool:
		return func(p *printer, v reflect.Value) { p.text = strconv.AppendBool(p.text, v.Bool()) }
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		return func(p *printer, v reflect.Value) { p.text = strconv.AppendInt(p.text, v.Int(), 10) }
	case reflect.Float64:
		return func(p *printer, v reflect.Value) { p.float(v) }
	case reflect.String:
		return func(p *printer, v reflect.Value) { p.quote(v.String()) }
	case reflect.Interface:
		return func(p *printer, v reflect.Value) {
			if v.IsNil() {
				p.null()
				return
			}
			wayOf(v.Elem().Type())(p, v.Elem())
		}
	case reflect.Pointer:
		of := wayOf(t.Elem())
		return func(p *printer, v reflect.Value) {
			if v.IsNil() {
				p.null()
				return
			}
			of(p, v.Elem())
		}
	case reflect.Slice, reflect.Array:
		if t.Elem().Kind() != reflect.Uint8 {
			return listWay(t)
		}
	case reflect.Struct:
		if w, ok := structWay(t); ok {
			return w
		}
	default: // the rest is rare
	}
	return (*printer).left
}

func listWay(t reflect.Type) way {
	of := wayOf(t.Elem())
	return func(p *printer, v reflect.Value) {
		if v.Kind() == reflect.Slice && v.IsNil() {
			p.null()
			return
		}
		n := v.Len()
		if n == 0 {
			p.text = append(p.text, "[]"...)
			return
		}
		p.text = append(p.text, '[')
		p.depth++
		for i := range n {
			if i > 0 {
				p.text = append(p.text, ',')
			}
			p.line()
			of(p, v.Index(i))
		}
		p.depth--
		p.line()
		p.text = append(p.text, ']')
	}
}

// structWay is false of structs that are put together of others, whose fields
// encoding/json picks by rules of its own.
func structWay(t reflect.Type) (way, bool) {
	type field struct {
		at      int
		name    string // quoted, with what follows it
		of      way
		ifThere bool
	}
	var fields []field
	for i := range t.NumField() {
		f := t.Field(i)
		tag := f.Tag.Get("json")
		name, options, _ := strings.Cut(tag, ",")
		switch {
		case f.Anonymous, options != "" && options != "omitempty":
			return nil, false
		case !f.IsExported() || tag == "-":
			continue
		case name == "":
			name = f.Name
		}
		key := printer{}
		key.quote(name)
		fields = append(fields, field{at: i, name: string(key.text) + ": ", of: wayOf(f.Type), ifThere: options == "omitempty"})
	}
	return func(p *printer, v reflect.Value) {
		p.text = append(p.text, '{')
		p.depth++
		before := len(p.text)
		for i := range fields {
			f := &fields[i]
			value := v.Field(f.at)
			if f.ifThere && isEmpty(value) {
				continue
			}
			if len(p.text) > before {
				p.text = append(p.text, ',')
			}
			p.line()
			p.text = append(p.text, f.name...)
			f.of(p, value)
		}
		p.depth--
		if len(p.text) > before {
			p.line()
		}
		p.text = append(p.text, '}')
	}, true
}

// isEmpty is what omitempty leaves out.
func isEmpty(v reflect.Value) bool {
	switch v.Kind() {
	case reflect.Array, reflect.Map, reflect.Slice, reflect.String:
		return v.Len() == 0
	case reflect.Struct:
		return false
	default:
		return v.IsZero()
	}
}

const indents = "\n                                "

// line begins a line.
func (p *printer) line() {
	if n := 1 + 2*p.depth; n <= len(indents) {
		p.text = append(p.text, indents[:n]...)
		return
	}
	p.text = append(append(p.text, '\n'), strings.Repeat("  ", p.depth)...)
}

func (p *printer) null() { p.text = append(p.text, "null"...) }

// left leaves a value to encoding/json.
func (p *printer) left(v reflect.Value) {
	text, err := json.MarshalIndent(v.Interface(), strings.Repeat("  ", p.depth), "  ")
	if err != nil {
		p.fail(err)
		return
	}
	p.text = append(p.text, escapeControls(text)...)
}

func (p *printer) fail(err error) {
	if p.err == nil {
		p.err = err
	}
}

// float prints the shortest decimal that reads back as the same, without an
// exponent where that is a number somebody would write.
func (p *printer) float(v reflect.Value) {
	f := v.Float()
	if math.IsNaN(f) || math.IsInf(f, 0) {
		p.fail(&json.UnsupportedValueError{Value: v, Str: strconv.FormatFloat(f, 'g', -1, 64)})
		return
	}
	bits := math.Float64bits(f)
	kept := &p.recent[bits*0x9e3779b97f4a7c15>>58]
	if kept.bits == bits && kept.to > 0 {
		p.text = append(p.text, p.text[kept.from:kept.to]...)
		return
	}
	from := len(p.text)
	format := byte('f')
	if size := math.Abs(f); size != 0 && (size < 1e-6 || size >= 1e21) {
		format = 'e'
	}
	p.text = strconv.AppendFloat(p.text, f, format, -1, 64)
	if n := len(p.text); format == 'e' && n-from >= 4 && p.text[n-4] == 'e' && (p.text[n-3] == '-' || p.text[n-3] == '+') && p.text[n-2] == '0' {
		p.text[n-2] = p.text[n-1] // e-09 as e-9
		p.text = p.text[:n-1]
	}
	kept.bits, kept.from, kept.to = bits, from, len(p.text)
}

const hex = "0123456789abcdef"

// quote prints a string so that it can stand in a web page too, as encoding/json
// does, and so that nothing of it acts on a terminal.
func (p *printer) quote(s string) {
	p.text = append(p.text, '"')
	from := 0
	for i := 0; i < len(s); {
		c := s[i]
		if c < utf8.RuneSelf {
			if plain[c] {
				i++
				continue
			}
			p.text = append(p.text, s[from:i]...)
			switch c {
			case '"', '\\':
				p.text = append(p.text, '\\', c)
			case '\b':
				p.text = append(p.text, `\b`...)
			case '\f':
				p.text = append(p.text, `\f`...)
			case '\n':
				p.text = append(p.text, `\n`...)
			case '\r':
				p.text = append(p.text, `\r`...)
			case '\t':
				p.text = append(p.text, `\t`...)
			default:
				p.escape(rune(c))
			}
			i++
			from = i
			continue
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && size == 1:
			p.text = append(append(p.text, s[from:i]...), `\ufffd`...)
			from = i + size
		case word.Unsafe(r):
			p.text = append(p.text, s[from:i]...)
			p.escape(r)
			from = i + size
		}
		i += size
	}
	p.text = append(append(p.text, s[from:]...), '"')
}

// escape prints a character by its number.
func (p *printer) escape(r rune) {
	if r > 0xffff {
		high, low := utf16Pair(r)
		p.escape(high)
		p.escape(low)
		return
	}
	p.text = append(p.text, '\\', 'u', hex[r>>12&0xf], hex[r>>8&0xf], hex[r>>4&0xf], hex[r&0xf])
}

// plain are the ASCII characters that stand for themselves in a string.
var plain = func() (t [utf8.RuneSelf]bool) {
	for c := range t {
		t[c] = c >= 0x20 && c != '"' && c != '\\' && c != '<' && c != '>' && c != '&' && c != 0x7f
	}
	return t
}()
