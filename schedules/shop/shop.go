// Package shop is where documents come in, whoever reads them: it finds out
// what a document is, reads the model of its kind, finds the library that holds
// for it, and has a schedule judged. What a command, a folder list or the bench
// says of a document is the same because it is said here.
//
// It is fit for several goroutines.
package shop

import (
	"errors"
	"fmt"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// Options say which shop books hold.
type Options struct {
	Book   string // this one, instead of those that lie beside the documents
	NoBook bool   // none
	// Trouble is told of places that could not be searched for books; the
	// library goes without them. It may be nil.
	Trouble func(error)
}

// Shop gives the libraries. Nil is a shop without options.
type Shop struct {
	options Options
	kept    *kept // nil: books are read anew each time
}

// kept are the libraries of one run.
type kept struct {
	mu       sync.Mutex
	byFolder map[string]shelf
}

// shelf is a library, or why there is none.
type shelf struct {
	library *laminate.Library
	stock   stock.Stock
	levels  []spec.LevelLimit // of the nearest shop book that states any
	err     error
	books   []string                     // that hold, nearest first
	prints  map[string]store.Fingerprint // of the books, as they were read
}

// New makes a shop that reads books anew each time, so that one that was mended
// counts at once.
func New(o Options) *Shop { return &Shop{options: o} }

// Keeping is the same shop for one run over many documents: it looks for the
// books of a folder but once.
func (s *Shop) Keeping() *Shop {
	k := &Shop{kept: &kept{byFolder: map[string]shelf{}}}
	if s != nil {
		k.options = s.options
	}
	return k
}

// BookError is a shop book that cannot be used. What rests on it is not judged
// without it.
type BookError struct {
	Path     string
	Problems []schedules.Problem // empty where the file could not be read at all
	Err      error               // that it could not be read
}

// Error names the book and the first thing that is wrong with it.
func (e *BookError) Error() string { return e.Short() + ": " + sentence(e.Err, e.Problems) }

// Short names the book alone.
func (e *BookError) Short() string { return "the shop book " + e.Path + " cannot be used" }

// Library gives the library that holds in a folder, its shop books laid over
// the built-in one; "" is the present folder. The error is a *BookError.
func (s *Shop) Library(folder string) (*laminate.Library, error) {
	made := s.find(folder)
	return made.library, made.err
}

// Stock gives what the shop books that hold in a folder say of how the shop buys
// and works.
func (s *Shop) Stock(folder string) stock.Stock { return s.find(folder).stock }

func (s *Shop) find(folder string) shelf {
	if s == nil || s.kept == nil {
		return s.shelf(folder)
	}
	s.kept.mu.Lock()
	defer s.kept.mu.Unlock()
	made, ok := s.kept.byFolder[folder]
	if !ok {
		made = s.shelf(folder)
		s.kept.byFolder[folder] = made
	}
	return made
}

// books finds the shop books that hold in a folder, nearest first; the error tells of
// places that could not be searched.
func (s *Shop) books(folder string) ([]string, error) {
	var o Options
	if s != nil {
		o = s.options
	}
	var explicit []string
	if o.Book != "" {
		explicit = []string{o.Book}
	}
	return store.FindBooks(folder, explicit, o.NoBook)
}

func (s *Shop) shelf(folder string) shelf {
	paths, err := s.books(folder)
	if err != nil && s != nil && s.options.Trouble != nil {
		s.options.Trouble(err)
	}
	made := shelf{books: paths, prints: make(map[string]store.Fingerprint, len(paths))}
	var books []catalog.Book
	for _, path := range paths {
		b, print, err := readBook(path)
		if made.prints[path] = print; err != nil {
			made.err = err
			return made
		}
		books = append(books, *b)
	}
	var own stock.Stock
	var levels []spec.LevelLimit
	for i := range books {
		own = own.Over(books[i].Stock)
		if levels == nil {
			levels = books[i].Levels
		}
	}
	made.library, made.stock, made.levels = catalog.Merge(catalog.Library(), books...), own, levels
	return made
}

func readBook(path string) (*catalog.Book, store.Fingerprint, error) {
	file, err := store.Read(path)
	if err != nil {
		return nil, file.Fingerprint, &BookError{Path: path, Err: why(err)}
	}
	b, problems := schedules.DecodeBook(file.Bytes)
	if len(problems) > 0 {
		return nil, file.Fingerprint, &BookError{Path: path, Problems: problems}
	}
	b.Path = path
	return b, file.Fingerprint, nil
}

// why is a file's error without its name, which stands beside it already.
func why(err error) error {
	var own *store.Error
	if errors.As(err, &own) {
		return errors.New(own.Why)
	}
	return err
}

// sentence is the first thing that is wrong, and how many follow.
func sentence(err error, problems []schedules.Problem) string {
	switch more := len(problems) - 1; {
	case len(problems) == 0 && err == nil:
		return ""
	case len(problems) == 0:
		return err.Error()
	case more == 0:
		return problems[0].String()
	case more == 1:
		return problems[0].String() + " (and 1 more problem)"
	default:
		return fmt.Sprintf("%s (and %d more problems)", problems[0], more)
	}
}
