package store

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"syscall"
)

// BookName is the file name of a shop book that is found rather than named.
const BookName = "shop-book.toml"

// FindBooks returns the paths of the shop books that hold for a schedule in
// scheduleDir ("" is the present folder), nearest first.
//
// Explicit ones are the answer where there are any: they are returned as they
// are, without looking whether they exist. Else, unless none, they are the book
// in scheduleDir or in the nearest folder above that has one, and the one in
// ConfigFolder. A link to a missing book is returned too, for reading it to
// fail rather than the book to be left out in silence.
//
// The error tells of places that could not be searched; the books found
// elsewhere come with it.
func FindBooks(scheduleDir string, explicit []string, none bool) ([]string, error) {
	if len(explicit) > 0 {
		return slices.Clone(explicit), nil
	}
	if none {
		return nil, nil
	}
	var books []string
	near, err := nearestBook(scheduleDir)
	if near != "" {
		books = append(books, near)
	}
	// Without a home there is no configuration, and nothing to say about it.
	if config, homeless := ConfigFolder(); homeless == nil {
		own := filepath.Join(config, BookName)
		there, e := isBook(own)
		if there && !sameFile(near, own) {
			books = append(books, own)
		}
		err = errors.Join(err, e)
	}
	return books, err
}

func nearestBook(dir string) (string, error) {
	full, err := filepath.Abs(dir)
	if err != nil {
		return "", failure(dir, "cannot be searched for a shop book", err)
	}
	for {
		book := filepath.Join(full, BookName)
		if there, err := isBook(book); there || err != nil {
			if err != nil {
				book = ""
			}
			return book, err
		}
		up := filepath.Dir(full)
		if up == full {
			return "", nil
		}
		full = up
	}
}

// isBook reports whether there is anything but a folder at path.
func isBook(path string) (bool, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		info, err = os.Lstat(path)
	}
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR) {
		return false, nil
	}
	if err != nil {
		return false, failure(path, "cannot be looked for", err)
	}
	return !info.IsDir(), nil
}

func sameFile(a, b string) bool {
	if a == "" {
		return false
	}
	ia, err := os.Stat(a)
	if err != nil {
		return a == b
	}
	ib, err := os.Stat(b)
	return err == nil && os.SameFile(ia, ib)
}
