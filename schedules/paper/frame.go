package paper

import (
	"path/filepath"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
)

// Draft is the state of what nobody has released.
const Draft = "DRAFT, not released"

// States of a document beside Draft.
const (
	Unsaved  = "DRAFT, not saved" // not even in its file
	Changed  = "DRAFT, changed since it was released"
	Released = "RELEASED"
	// Disputed is what somebody released although a rule is broken: its papers warn
	// not to build it, and RELEASED alone would say the contrary.
	Disputed   = "RELEASED WITH A BREAK: ask first"
	Superseded = "SUPERSEDED, do not build"
)

// digits is how many of a fingerprint stand on paper.
const digits = 12

// Printed is a fingerprint as papers print it, and as it releases a document.
func Printed(fingerprint string) string { return fingerprint[:min(digits, len(fingerprint))] }

// Releases tells whether what a head says of its release is said of the content
// with this fingerprint, all of its digits.
func Releases(h *laminate.Head, fingerprint string) bool {
	return len(h.Released) >= digits && strings.HasPrefix(strings.ToLower(fingerprint), strings.ToLower(h.Released))
}

// state is what a document is: released only as long as its content is what was
// released.
func (of *Of) state() string {
	switch h := &of.Head; {
	case h.Superseded:
		return Superseded
	case h.Released == "":
		return Draft
	case Releases(h, of.Fingerprint):
		return Released
	}
	return Changed
}

// Of is the document that a form is of.
type Of struct {
	File string
	// Fingerprint is that of its content, 64 hexadecimal digits.
	Fingerprint string
	Head        laminate.Head
	Library     *laminate.Library
	Units       quantity.System
}

// Frame is what stands on every page of a paper of a document.
func (of *Of) Frame(name string) Frame {
	h := &of.Head
	f := Frame{Paper: name, Title: h.Title, Job: h.Job, Revision: "not stated", Date: Named(h.Date), State: of.state(), File: filepath.Base(of.File), Fingerprint: Printed(of.Fingerprint),
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
