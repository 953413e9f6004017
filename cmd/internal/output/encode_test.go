package output

import (
	"encoding/json"
	"math"
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"
)

type inner struct {
	Ratio float64  `json:"ratio"`
	Of    *float64 `json:"of"`
	Names []string `json:"a<b"`
	Plain int
	_     int
}

// sample has a field of every type that a report has, and of some that none has.
type sample struct {
	Text    string         `json:"text"`
	Maybe   *string        `json:"maybe"`
	Count   int            `json:"count"`
	Yes     bool           `json:"yes"`
	Figures []float64      `json:"figures"`
	Matrix  [2][2]float64  `json:"matrix"`
	At      *[3]float64    `json:"at"`
	Inner   inner          `json:"inner"`
	Rows    []inner        `json:"rows"`
	More    []*sample      `json:"more"`
	Any     any            `json:"any"`
	Left    string         `json:"-"`
	By      map[string]int `json:"by"`
	Raw     []byte         `json:"raw"`
	When    time.Time      `json:"when"`
	Joined  struct{ inner }
	None    struct{}   `json:"none"`
	OText   string     `json:"otext,omitempty"`
	OList   []int      `json:"olist,omitempty"`
	OInner  inner      `json:"oinner,omitempty"`
	OFloat  float64    `json:"ofloat,omitempty"`
	ONone   *inner     `json:"onone,omitempty"`
	OAny    any        `json:"oany,omitempty"`
	OArray  [0]int     `json:"oarray,omitempty"`
	Quoted  int        `json:"quoted,string"`
	Nested  [][]inner  `json:"nested"`
	Small   int8       `json:"small"`
	Single  float32    `json:"single"`
	Unsign  uint16     `json:"unsign"`
	Anys    []any      `json:"anys"`
	Numbers [1]float64 `json:"numbers"`
}

var (
	anyText = rapid.OneOf(rapid.String(), rapid.StringN(0, 4, 8), rapid.Map(rapid.SliceOfN(rapid.Byte(), 0, 6), func(b []byte) string { return string(b) }),
		rapid.SampledFrom([]string{"", "a<b>&c", "24 in Ø, 180 °F", "\x7f\u0085\u202e\u2028\u2029\ufffd\U000e0001", "\b\f\n\r\t\x00\x1f\"\\", "cut \xff\xfe", "\u3164"}))
	anyFloat = rapid.OneOf(rapid.Float64Range(-1e300, 1e300), rapid.Float64Range(0, 1), rapid.SampledFrom([]float64{0, math.Copysign(0, -1), 1e-6, 9.9e-7, 1e21, 1e20, 9.99999e-7,
		1e-9, 1e-10, 1e100, math.MaxFloat64, math.SmallestNonzeroFloat64, 100, -3.5}))
)

// fill gives a value of a type that has nothing in it but what its fields may have.
func fill(t *rapid.T, v reflect.Value, depth int) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(anyText.Draw(t, "text"))
	case reflect.Float64, reflect.Float32:
		if f := anyFloat.Draw(t, "float"); !v.OverflowFloat(f) {
			v.SetFloat(f)
		}
	case reflect.Int, reflect.Int8:
		v.SetInt(int64(rapid.Int8().Draw(t, "int")))
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, "bool"))
	case reflect.Pointer:
		if depth > 0 && rapid.Bool().Draw(t, "there") {
			v.Set(reflect.New(v.Type().Elem()))
			fill(t, v.Elem(), depth-1)
		}
	case reflect.Slice:
		if n := rapid.IntRange(-1, 2).Draw(t, "length"); depth > 0 && n >= 0 {
			v.Set(reflect.MakeSlice(v.Type(), n, n))
			for i := range n {
				fill(t, v.Index(i), depth-1)
			}
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(t, v.Index(i), depth)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				fill(t, v.Field(i), depth)
			}
		}
	case reflect.Interface:
		if of := rapid.SampledFrom([]any{nil, "", 1.5, inner{}, []int{1}, map[string]any{"b": nil, "a": []any{}}}).Draw(t, "any"); of != nil {
			v.Set(reflect.ValueOf(of))
		}
	case reflect.Map:
		if rapid.Bool().Draw(t, "map") {
			v.Set(reflect.ValueOf(map[string]int{anyText.Draw(t, "key"): 1, "a": 2}))
		}
	default: // as they are
	}
}

// The bytes of encoding/json are what is promised; ours are those, faster.
func TestPrinted_isWhatEncodingJSONPrints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s sample
		fill(t, reflect.ValueOf(&s).Elem(), 3)
		for depth, prefix := range []string{"", "  "} {
			text, err := json.MarshalIndent(s, prefix, "  ")
			if err != nil {
				t.Fatal(err)
			}
			p := printed(s, depth)
			if got, want := string(p.text), string(escapeControls(text)); got != want || p.err != nil {
				t.Fatalf("got\n%s (%v)\nwant\n%s", got, p.err, want)
			}
			p.letGo()
		}
	})
}

func TestPrinted_refusesWhatEncodingJSONRefuses(t *testing.T) {
	for _, v := range []any{math.NaN(), []float64{1, math.Inf(-1)}, map[string]float64{"a": math.Inf(1)}, func() {}, []any{make(chan int)}} {
		_, want := json.Marshal(v)
		if p := printed(v, 0); p.err == nil || p.err.Error() != want.Error() {
			t.Errorf("%v: %v, want %v", v, p.err, want)
		}
	}
}

func BenchmarkPrinted(b *testing.B) {
	rows := make([]inner, 100)
	for i := range rows {
		f := float64(i%7) / 7
		rows[i] = inner{Ratio: f, Of: &f, Names: []string{"mat-1.5", "structural-layer"}, Plain: i}
	}
	b.Run("ours", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			printed(rows, 0).letGo()
		}
	})
	b.Run("encoding-json", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := json.MarshalIndent(rows, "", "  "); err != nil {
				b.Fatal(err)
			}
		}
	})
}
