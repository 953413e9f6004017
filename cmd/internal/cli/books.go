package cli

import (
	"errors"
	"fmt"
	"strings"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/store"
)

// shelf holds the libraries of one call: the built-in one with the shop books
// that hold for a folder laid over it, made once for each set of books.
type shelf struct {
	c        *call
	byFolder map[string]*shelved
	byBooks  map[string]*shelved
}

type shelved struct {
	library *laminate.Library
	// unusable says in one sentence why a book cannot be used; what rests on it
	// is not judged without it.
	unusable error
}

func newShelf(c *call) *shelf {
	return &shelf{c: c, byFolder: map[string]*shelved{}, byBooks: map[string]*shelved{}}
}

// library gives the library that holds in a folder. Books that cannot be used
// are said on standard error once, with all their problems.
func (s *shelf) library(folder string) (*laminate.Library, error) {
	if known, ok := s.byFolder[folder]; ok {
		return known.library, known.unusable
	}
	var explicit []string
	if s.c.Book != "" {
		explicit = []string{s.c.Book}
	}
	paths, err := store.FindBooks(folder, explicit, s.c.NoBook)
	if err != nil {
		for _, e := range parts(err) {
			s.c.say.Say("looking for shop books: %v", e)
		}
		s.c.ends(Unusable)
	}
	key := strings.Join(paths, "\x00")
	made, ok := s.byBooks[key]
	if !ok {
		made = s.make(paths)
		s.byBooks[key] = made
	}
	s.byFolder[folder] = made
	return made.library, made.unusable
}

func (s *shelf) make(paths []string) *shelved {
	made := &shelved{}
	var books []catalog.Book
	for _, path := range paths {
		b, err := s.c.book(path)
		if err != nil {
			made.unusable = err
			continue
		}
		books = append(books, b)
	}
	made.library = catalog.Merge(catalog.Library(), books...)
	return made
}

// book reads a shop book.
func (c *call) book(path string) (catalog.Book, error) {
	unusable := func(why string) error {
		c.ends(Unusable)
		// In text what is wrong with the book was said just now; whoever reads
		// JSON or a screen has the error alone.
		return &bookError{path: path, why: why, told: !c.mute && !c.JSON}
	}
	text, err := c.read(input{name: path})
	if err != nil {
		c.say.Say("shop book %s: %v", path, err)
		return catalog.Book{}, unusable(err.Error())
	}
	b, problems := schedules.DecodeBook(text)
	if len(problems) > 0 {
		c.sayUnread(&document{input: input{name: path}, problems: problems}, nil)
		return catalog.Book{}, unusable(counted(problems))
	}
	return catalog.Book{Path: path, Materials: b.Materials, Resins: b.Resins, Ratings: b.Ratings, Rack: b.Rack}, nil
}

// bookError is a shop book that cannot be used.
type bookError struct {
	path, why string
	told      bool // why was said on standard error
}

func (e *bookError) Error() string {
	if e.told {
		return e.short()
	}
	return e.short() + ": " + e.why
}

func (e *bookError) short() string { return "the shop book " + e.path + " cannot be used" }

// sayUnread says why a document cannot be used, and gives its report. What is
// wrong with a shop book was said where the book was read.
func (c *call) sayUnread(d *document, err error) report.Schedule {
	sentence := ""
	if err != nil {
		sentence = err.Error()
	}
	s := unread(d, sentence)
	said := s
	var own *bookError
	if errors.As(err, &own) && !c.mute {
		short := own.short()
		said.Error = &short
	}
	explainUnread(c.say, said)
	return s
}

// counted is the first problem in one sentence, and how many follow.
func counted(problems []schedules.Problem) string {
	first := problems[0].String()
	if more := len(problems) - 1; more == 1 {
		return first + " (and 1 more problem)"
	} else if more > 1 {
		return fmt.Sprintf("%s (and %d more problems)", first, more)
	}
	return first
}
