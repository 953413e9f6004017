package store

import (
	"path/filepath"
	"strings"
)

// Within is what Read reads of a file in a folder, by its name with forward
// slashes. It refuses what lies outside the folder, also by way of a symbolic
// link. The error is a *Error.
func Within(folder, name string) (File, error) {
	if folder == "" {
		folder = "."
	}
	path := filepath.Join(folder, filepath.FromSlash(name))
	outside := &Error{Path: path, Why: "it lies outside the folder"}
	if !filepath.IsLocal(filepath.FromSlash(name)) {
		return File{}, outside
	}
	base, err := Resolve(folder)
	if err != nil {
		return File{}, err
	}
	file, err := Resolve(path)
	if err != nil {
		return File{}, err
	}
	if rel, err := filepath.Rel(base, file); err != nil || rel == ".." || strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
		return File{}, outside
	}
	return Read(path)
}
