package cli

import (
	"errors"
	"os"
	"path/filepath"

	"frp/veilwright/schedules/store"
)

// stdinName stands for standard input on a command line and in reports.
const stdinName = "-"

// input is a document that a command line leads to, not yet read.
type input struct {
	name     string // as reports name it
	folder   string // where its shop book is looked for, "" for the present folder
	searched bool   // found in a folder, not named itself
	refused  string // why it cannot be read whatever it holds
}

// inputs lists the documents of the names, in the order given. A folder becomes
// its documents; one that holds none is said on standard error.
func (c *call) inputs(names []string) []input {
	var found []input
	for _, name := range names {
		switch {
		case name == "":
			found = append(found, input{name: "''", refused: "the file name is empty"})
			continue
		case name == stdinName && c.piped:
			found = append(found, input{name: name, refused: "only one document can be standard input"})
			continue
		case name == stdinName:
			c.piped = true
			found = append(found, input{name: name})
			continue
		}
		info, err := os.Stat(name)
		if err != nil || !info.IsDir() {
			found = append(found, input{name: name, folder: filepath.Dir(name)})
			continue
		}
		paths, err := store.List(name)
		if err != nil {
			for _, e := range parts(err) {
				c.say.Say("%v", e)
			}
			c.ends(Unusable)
		}
		if len(paths) == 0 && err == nil {
			c.say.Say("%s: no documents in this folder", name)
		}
		for _, p := range paths {
			found = append(found, input{name: p, folder: filepath.Dir(p), searched: true})
		}
	}
	return found
}

// read gives the bytes of an input; the error is one sentence that does not
// name it.
func (c *call) read(in input) ([]byte, error) {
	if in.refused != "" {
		return nil, errors.New(in.refused)
	}
	var text []byte
	var err error
	if in.name == stdinName {
		var f store.File
		f, err = store.ReadFrom(c.In, in.name)
		text = f.Bytes
	} else {
		text, err = store.Bytes(in.name)
	}
	if own, ok := errors.AsType[*store.Error](err); ok {
		return nil, errors.New(own.Why)
	}
	return text, err
}

// parts takes joined errors apart.
func parts(err error) []error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		return joined.Unwrap()
	}
	return []error{err}
}
