// Package press makes files of forms: PDF, SVG of their drawings, Markdown, CSV
// of their tables, and text.
package press

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
	"frp/veilwright/schedules/paper/drawing/pdf"
	"frp/veilwright/schedules/paper/drawing/svg"
	"frp/veilwright/schedules/paper/layout"
)

// Endings are those of the files that can be made, each a way to write.
var Endings = []string{".pdf", ".svg", ".md", ".csv", ".txt"}

// TextWidth is how many characters a line of text holds.
const TextWidth = 100

// Made is a form as the bytes of a file.
type Made struct {
	Bytes   []byte
	Missing []rune // what the typeface lacks, each once
}

// Ending is the ending of a file's name that says how to write it.
func Ending(name string) (string, error) {
	ending := strings.ToLower(filepath.Ext(name))
	for _, e := range Endings {
		if e == ending {
			return ending, nil
		}
	}
	return "", fmt.Errorf("%s: the name of a paper ends in %s or %s", name, strings.Join(Endings[:len(Endings)-1], ", "), Endings[len(Endings)-1])
}

// Make writes a form as the ending asks; size is that of a PDF's pages.
func Make(f *paper.Form, ending string, size layout.Size) (Made, error) {
	var b bytes.Buffer
	switch ending {
	case ".pdf":
		pages, missing := layout.Pages(f, size)
		title, _ := font.Known(f.Paper + ": " + f.Title)
		err := pdf.Write(&b, pdf.About{Title: title, Subject: strings.Join(f.About(), ", ")}, pages)
		return Made{b.Bytes(), missing}, err
	case ".svg":
		p, missing, err := drawings(f)
		if err != nil {
			return Made{}, err
		}
		err = svg.Write(&b, f.Paper+": "+f.Title, p)
		return Made{b.Bytes(), missing}, err
	case ".md":
		err := paper.Markdown(&b, f.Plain())
		return Made{Bytes: b.Bytes()}, err
	case ".csv":
		err := paper.CSV(&b, f.Plain())
		return Made{Bytes: b.Bytes()}, err
	}
	err := paper.Text(&b, f.Plain(), TextWidth)
	return Made{Bytes: b.Bytes()}, err
}

// drawings are all drawings of a form, one below the other.
func drawings(f *paper.Form) (*drawing.Picture, []rune, error) {
	all := layout.Drawings(f)
	if all == nil {
		return nil, nil, errors.New("this paper has no drawing; it can be written as .pdf, .md, .csv or .txt")
	}
	p, missing := layout.Stacked(strings.Join(append([]string{f.Title}, f.About()...), ", "), all)
	return p, missing, nil
}
