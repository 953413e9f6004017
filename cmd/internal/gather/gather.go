// Package gather finds and reads the documents that a command line names:
// files, folders that are searched, and standard input as "-".
//
// It reads at most what a document may hold and never more, so that a device,
// a pipe that does not end or a file of the wrong kind costs no memory.
package gather

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Stdin is the name that stands for standard input.
const Stdin = "-"

// Input is one document's worth of bytes, or why there are none.
type Input struct {
	Name   string // as reports name it: the path, or "-"
	Folder string // where a shop book is looked for: the document's folder, "" for standard input
	// Searched is true when the file was found in a folder, false when it was named.
	Searched bool
	// Nothing is true for a folder that was named and holds no document.
	Nothing bool

	stdin io.Reader
	err   error
	limit int64
}

// Find lists the inputs of the names in the order given; a folder becomes its
// *.toml files in sorted order, searched downward, not into folders whose name
// begins with a dot. Links to files are followed, links to folders only where
// they are named themselves. Nothing is read yet. limit is the most bytes a
// document may have.
func Find(names []string, stdin io.Reader, limit int64) []Input {
	var found []Input
	for _, name := range names {
		one := Input{Name: name, Folder: filepath.Dir(name), limit: limit}
		if name == Stdin {
			one.Folder, one.stdin = "", stdin
			found = append(found, one)
			continue
		}
		info, err := os.Stat(name)
		if err != nil || !info.IsDir() {
			one.err = err
			found = append(found, one)
			continue
		}
		inside := search(name, limit, nil)
		if len(inside) == 0 {
			one.Folder, one.Nothing = name, true
			inside = []Input{one}
		}
		found = append(found, inside...)
	}
	return found
}

func search(folder string, limit int64, found []Input) []Input {
	entries, err := os.ReadDir(folder)
	if err != nil {
		found = append(found, Input{Name: folder, Folder: folder, Searched: true, err: err})
	}
	for _, e := range entries {
		path := filepath.Join(folder, e.Name())
		switch {
		case e.IsDir():
			if !strings.HasPrefix(e.Name(), ".") {
				found = search(path, limit, found)
			}
		case filepath.Ext(e.Name()) != ".toml":
		case e.Type().IsRegular(), linksToFile(e, path):
			found = append(found, Input{Name: path, Folder: folder, Searched: true, limit: limit})
		}
	}
	return found
}

func linksToFile(e fs.DirEntry, path string) bool {
	if e.Type()&fs.ModeSymlink == 0 {
		return false
	}
	info, err := os.Stat(path)
	// A link to nothing is told when it is read.
	return err != nil || info.Mode().IsRegular()
}

// Read gives the bytes. The error is one sentence without the input's name.
func (in *Input) Read() ([]byte, error) {
	if in.err != nil {
		return nil, plain(in.err)
	}
	if in.stdin != nil {
		return in.readAll(in.stdin)
	}
	f, err := os.Open(in.Name)
	if err != nil {
		return nil, plain(err)
	}
	defer func() { _ = f.Close() }() // read only: nothing can be lost
	return in.readAll(f)
}

func (in *Input) readAll(r io.Reader) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, in.limit+1))
	if err != nil {
		return nil, plain(err)
	}
	if int64(len(text)) > in.limit {
		return nil, fmt.Errorf("is larger than %d MiB, the most a document may have", in.limit>>20)
	}
	return text, nil
}

// plain says what is wrong without the path, which reports name already.
func plain(err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errors.New("does not exist")
	case errors.Is(err, fs.ErrPermission):
		return errors.New("may not be read: permission denied")
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return fmt.Errorf("cannot be read: %w", path.Err)
	}
	return fmt.Errorf("cannot be read: %w", err)
}
