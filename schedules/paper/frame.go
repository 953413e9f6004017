package paper

import (
	"path/filepath"
	"strconv"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Draft is the state of what nobody has released.
const Draft = "DRAFT, not released"

// Unsaved is the state of what is not even in its file.
const Unsaved = "DRAFT, not saved"

// Of is the document that a form is of.
type Of struct {
	File    string
	SHA256  string // of its content
	Head    laminate.Head
	Library *laminate.Library
	Units   quantity.System
}

// Frame is what stands on every page of a paper of a document.
func (of *Of) Frame(name string) Frame {
	h := &of.Head
	f := Frame{Paper: name, Title: h.Title, Job: h.Job, Revision: "not stated", State: Draft, File: filepath.Base(of.File), Fingerprint: of.SHA256[:min(12, len(of.SHA256))],
		Units: of.Units.String()}
	if h.Revision.Given {
		f.Revision = strconv.Itoa(h.Revision.Value)
	}
	if of.File == "-" {
		f.File = "standard input"
	}
	if of.Library != nil {
		f.Books = of.Library.Books
		for _, line := range []string{of.Library.Letterhead.Name, of.Library.Letterhead.Address} {
			if line != "" {
				f.Shop = append(f.Shop, line)
			}
		}
	}
	return f
}
