package store

import (
	"cmp"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
)

// Extension is that of the documents which folders are searched for.
const Extension = ".toml"

// List returns the paths of all *.toml under the folder root, in the order of
// their bytes, each beginning with root. Names that begin with a dot are left
// out, files and folders, and links to folders are not followed, root's own
// excepted. Anything else of that name is listed, be it a pipe or a link to
// nowhere: reading it says what it is.
//
// The error is made of *Errors: what could not be searched. The paths found
// elsewhere come with it.
func List(root string) ([]string, error) {
	var paths []string
	var errs []error
	var walk func(dir string)
	walk = func(dir string) {
		entries, err := readFolder(dir)
		if err != nil {
			errs = append(errs, err)
		}
		for _, e := range entries {
			switch {
			case e.Type().IsDir():
				walk(e.path)
			case e.document() && !e.leadsToFolder():
				paths = append(paths, e.path)
			}
		}
	}
	walk(root)
	slices.Sort(paths)
	return paths, errors.Join(errs...)
}

// Entry is a line of a folder's list.
type Entry struct {
	Name   string
	Path   string // the folder's, and the name
	Folder bool   // else a document
}

// Entries returns the folders and the *.toml of one folder: folders first, each
// in the order of their bytes. Names that begin with a dot are left out. A link
// counts as what it leads to. The error is a *Error; what could be read comes
// with it.
func Entries(folder string) ([]Entry, error) {
	found, err := readFolder(folder)
	var list []Entry
	for _, e := range found {
		in := e.Type().IsDir() || e.leadsToFolder()
		if in || e.document() {
			list = append(list, Entry{Name: e.Name(), Path: e.path, Folder: in})
		}
	}
	slices.SortFunc(list, func(a, b Entry) int {
		if a.Folder != b.Folder {
			if a.Folder {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.Name, b.Name)
	})
	return list, err
}

type entry struct {
	fs.DirEntry
	path string
}

func (e entry) document() bool { return strings.HasSuffix(e.Name(), Extension) }

func (e entry) leadsToFolder() bool {
	if e.Type()&fs.ModeSymlink == 0 {
		return false
	}
	info, err := os.Stat(e.path)
	return err == nil && info.IsDir()
}

func readFolder(dir string) ([]entry, error) {
	found, err := os.ReadDir(dir)
	if info, e := os.Stat(dir); errors.Is(err, syscall.ENOTDIR) && e == nil && !info.IsDir() {
		err = &Error{Path: dir, Why: "is not a folder", Err: err}
	}
	if err != nil {
		err = failure(dir, "cannot be searched", err)
	}
	var entries []entry
	for _, e := range found {
		if !strings.HasPrefix(e.Name(), ".") {
			entries = append(entries, entry{e, filepath.Join(dir, e.Name())})
		}
	}
	return entries, err
}
