// Package press makes files of forms: PDF, SVG of their drawings, Markdown, CSV
// of their tables, and text.
package press

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"frp/veilwright/schedules/paper"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/drawing/font"
	"frp/veilwright/schedules/paper/drawing/pdf"
	"frp/veilwright/schedules/paper/drawing/svg"
	"frp/veilwright/schedules/paper/layout"
	"frp/veilwright/schedules/store"
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

// ErrExists says that there is a file already.
var ErrExists = errors.New("already exists; not changed")

// Save writes a form into a file as the file's ending asks, over what is there
// only with replace. The file has the old bytes or the new, whatever breaks.
// lacks says what the typeface does not have, "" where it has everything.
func Save(path string, f *paper.Form, size layout.Size, replace bool) (lacks string, err error) {
	ending, err := Ending(path)
	if err != nil {
		return "", err
	}
	made, err := Make(f, ending, size)
	if err != nil {
		return "", fmt.Errorf("%s: %w", path, err)
	}
	if len(made.Missing) > 0 {
		lacks = "the typeface lacks " + named(made.Missing) + ", and " + string(font.Missing) + " stands there"
	}
	var terms store.Terms
	if replace {
		there, err := store.Read(path)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return lacks, err
		}
		terms.Expect = there.Fingerprint
	}
	_, err = store.Replace(path, made.Bytes, terms)
	var conflict *store.ConflictError
	if errors.As(err, &conflict) && !replace {
		return lacks, fmt.Errorf("%s: %w", path, ErrExists)
	}
	return lacks, err
}

// named lists the first of some characters by their numbers.
func named(list []rune) string {
	const most = 8
	var names []string
	for _, r := range list[:min(most, len(list))] {
		names = append(names, fmt.Sprintf("U+%04X", r))
	}
	text := strings.Join(names, ", ")
	if n := len(list) - most; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	return text
}
