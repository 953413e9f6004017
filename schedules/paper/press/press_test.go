package press_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/paper/picture"
	"frp/veilwright/schedules/paper/press"
)

func form() *paper.Form {
	return &paper.Form{Frame: paper.Frame{Paper: "Laminate schedule", Title: `Header <&"é">`, Revision: "1", State: paper.Draft, File: "a.toml", Fingerprint: "0123456789ab"}, Sheet: paper.Sheet{
		paper.Heading{Level: 2, Text: "Section"},
		paper.Section{Wall: picture.Wall{Layers: []picture.Layer{{Material: "mat-1.5", Thickness: 5e-3, Count: 4, Hatch: drawing.Strands}}, Labels: []picture.Label{{Text: "1-4 <mat>"}}}},
		paper.Table{Columns: []paper.Column{{Title: "ply"}}, Rows: []paper.Row{{Cells: []string{"=1"}}}},
	}}
}

func made(t *testing.T, f *paper.Form, ending string) []byte {
	t.Helper()
	m, err := press.Make(f, ending, layout.Letter)
	if err != nil {
		t.Fatal(err)
	}
	return m.Bytes
}

func TestMake_givesTheSameBytesForTheSameForm(t *testing.T) {
	for _, ending := range press.Endings {
		a, b := made(t, form(), ending), made(t, form(), ending)
		if !bytes.Equal(a, b) || len(a) == 0 {
			t.Errorf("%s: two runs differ, or nothing is written", ending)
		}
	}
}

func TestMake_writesAPDFThatEmbedsItsFontsAndNoClock(t *testing.T) {
	text := string(made(t, form(), ".pdf"))
	for _, want := range []string{"%PDF-1.", "/FontFile2", "/CreationDate (D:20000101000000)", "%%EOF"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in it", want)
		}
	}
}

func TestMake_writesWellFormedSVG(t *testing.T) {
	d := xml.NewDecoder(bytes.NewReader(made(t, form(), ".svg")))
	said, paths := "", 0
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.CharData:
			said += string(token)
		case xml.StartElement:
			if token.Name.Local == "path" {
				paths++
			}
		}
	}
	if !strings.Contains(said, `Header <&"é">`) || !strings.Contains(said, "1-4 <mat>") || !strings.Contains(said, "scale ") || paths < 50 {
		t.Errorf("%d paths and the text %q", paths, said)
	}
	f := form()
	f.Sheet = f.Sheet[2:]
	if _, err := press.Make(f, ".svg", layout.Letter); err == nil || !strings.Contains(err.Error(), "no drawing") {
		t.Errorf("without a drawing: %v", err)
	}
}

func TestMake_keepsFormulasOutOfSpreadsheets(t *testing.T) {
	if got := string(made(t, form(), ".csv")); !strings.Contains(got, "'=1") {
		t.Errorf("got %q", got)
	}
}

func TestEnding_isOneThatCanBeWritten(t *testing.T) {
	if e, err := press.Ending("out/A.PDF"); e != ".pdf" || err != nil {
		t.Errorf("%q, %v", e, err)
	}
	for _, name := range []string{"a", "a.toml", "a.pdf.gz", ".", ""} {
		if _, err := press.Ending(name); err == nil {
			t.Errorf("%q is taken", name)
		}
	}
}
