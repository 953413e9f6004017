// Package shoptest gives documents to tests: the examples of this program, and
// what is left of them after an accident.
package shoptest

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"frp/veilwright/laminate/catalog"
)

// Corpus reads every example document of the source tree, whose root is given.
func Corpus(t testing.TB, root string) [][]byte {
	t.Helper()
	var all [][]byte
	for _, pattern := range []string{"testdata/schedules/*.toml", "testdata/specifications/*.toml", "testdata/records/*.toml", "testdata/jobs/*.toml", "schedules/*.toml", "schedules/exercises/a*.toml"} {
		names, err := filepath.Glob(filepath.Join(root, pattern))
		if err != nil || len(names) == 0 {
			t.Fatalf("%s: %d documents, %v", pattern, len(names), err)
		}
		for _, name := range names {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, text)
		}
	}
	return all
}

// swaps are slips that leave TOML what it is: values and keys that cannot be,
// materials that nobody knows, bands without an angle.
var swaps = [][2]string{
	{catalog.Mat15, "mat-nope"}, {catalog.VeilC10, catalog.BandHelical}, {"angle ", "# angle "}, {"angle=", "#"}, {"resin ", "# resin "}, {" = 2", " = 0"},
	{" = 2", " = 2000"}, {" = 3", " = -1"}, {"glass_content = 0", "glass_content = 1"}, {"count ", "cuont "}, {"\"contact\"", "\"molded\""},
	{" psi\"", "\""}, {"degF", "deg F"}, {"[part]", "[[part]]"}, {"[[ply]]", "[ply]"}, {"[[ply]]", "[[plies]]"}, {"[[resin]]\n", ""},
	{"format", "formt"}, {"\"schedule\"", "\"record\""}, {"contains ", "carries "}, {"\"us\"", "\"si\""}, {"0.", "-0."}, {"title", "title = 1\ntitle"},
}

// Accident draws a document of a corpus with slips in it, or none.
func Accident(corpus [][]byte) *rapid.Generator[[]byte] {
	return rapid.Custom(func(t *rapid.T) []byte {
		text := bytes.Clone(rapid.SampledFrom(corpus).Draw(t, "document"))
		for range rapid.IntRange(0, 3).Draw(t, "slips") {
			at := rapid.IntRange(0, len(text)).Draw(t, "at")
			switch rapid.IntRange(0, 5).Draw(t, "slip") {
			case 0: // cut off
				text = text[:at]
			case 1: // a byte
				text = append(text[:at:at], append([]byte{rapid.Byte().Draw(t, "byte")}, text[min(len(text), at+1):]...)...)
			case 2: // a line
				end := at + 1 + bytes.IndexByte(text[at:], '\n')
				text = append(text[:at:at], text[max(at, end):]...)
			default:
				swap := rapid.SampledFrom(swaps).Draw(t, "swap")
				text = bytes.Replace(text, []byte(swap[0]), []byte(swap[1]), rapid.IntRange(1, 3).Draw(t, "times"))
			}
		}
		return text
	})
}
