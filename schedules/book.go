package schedules

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/book"
	"frp/veilwright/laminate/quantity"
)

// shelf is a shop book as it is read: the book, and what only its text has.
type shelf struct {
	book.Book
	title, notes string
}

const (
	bookRoot = iota
	bookMaterial
	bookResin
	bookRating
)

var bookTables = []table{
	{fields: bookFields, at: func(m any, _ int) any { return m }, rows: one, resize: fixed},
	{name: "material", array: true, most: laminate.MostRows, fields: materialFields,
		at:     func(m any, i int) any { return &m.(*shelf).Materials[i] },
		rows:   func(m any) int { return len(m.(*shelf).Materials) },
		resize: func(m any, n int) { m.(*shelf).Materials = make([]laminate.Material, n) }},
	{name: "resin", array: true, most: laminate.MostRows, fields: resinFields,
		at:     func(m any, i int) any { return &m.(*shelf).Resins[i] },
		rows:   func(m any) int { return len(m.(*shelf).Resins) },
		resize: func(m any, n int) { m.(*shelf).Resins = make([]laminate.Resin, n) }},
	{name: "rating", array: true, most: laminate.MostRows, fields: ratingFields,
		at:   func(m any, i int) any { return &m.(*shelf).Ratings[i] },
		rows: func(m any) int { return len(m.(*shelf).Ratings) },
		resize: func(m any, n int) {
			rows := make([]laminate.Rating, n)
			for i := range rows {
				rows[i].Concentration = [2]float64{math.NaN(), math.NaN()} // not given
			}
			m.(*shelf).Ratings = rows
		}},
}

var bookFields = []field{
	declaration("document", `"shop-book"`, `"shop-book"`),
	declaration("format", "1", "1"),
	textField("title", func(b *shelf) *string { return &b.title }),
	notesField("notes", func(b *shelf) *string { return &b.notes }),
	{key: "rack", what: "a list of material ids, in the order the rack shows them",
		set: func(row, value any) (wrong string) {
			row.(*shelf).Rack, wrong = wordsOf(value)
			return wrong
		},
		get: func(row any) (string, bool) {
			var items []string
			for _, id := range row.(*shelf).Rack {
				items = append(items, tomlText(id))
			}
			return tomlList(items), len(items) > 0
		}},
}

type rating = laminate.Rating

var ratingFields = []field{
	textField("contents", func(r *rating) *string { return &r.Contents }),
	{key: "concentration", what: "a share from 0 to 1, or a list of the lowest and the highest",
		set: func(row, value any) string {
			if _, list := value.([]any); list {
				ends, wrong := numbers(value, 2)
				if wrong == "" {
					row.(*rating).Concentration = [2]float64(ends)
				}
				return wrong
			}
			v, wrong := number(value)
			if wrong == "" {
				row.(*rating).Concentration = [2]float64{v, v}
			}
			return wrong
		},
		get: func(row any) (string, bool) {
			c := row.(*rating).Concentration
			if c[0] == c[1] {
				return tomlNumber(c[0]), true
			}
			return tomlList([]string{tomlNumber(c[0]), tomlNumber(c[1])}), true
		}},
	sizeField("temperature", func(r *rating) *quantity.Temperature { return &r.MaxTemperature }),
	wordField("family", func(r *rating) *laminate.Family { return &r.Family }, laminate.ParseFamily, laminate.Families()),
	textField("build", func(r *rating) *string { return &r.Build }),
	textField("grade", func(r *rating) *string { return &r.Grade }),
	textField("source", func(r *rating) *string { return &r.Source }),
	textField("date", func(r *rating) *string { return &r.Date }),
}

// BookKeys lists the tables and keys of a shop book in canonical order.
func BookKeys() []TableKeys { return keysOf(bookTables) }

// DecodeBook reads a shop book. Where there are problems the book is nil; all
// problems are told, in the order of the file. Its Path, and the Book of its
// ratings, are the reader's to set; the ratings know their lines.
func DecodeBook(b []byte) (*book.Book, []Problem) {
	_, own, problems := decodeBook(b)
	if len(problems) > 0 {
		return nil, problems
	}
	return &own.Book, nil
}

func decodeBook(b []byte) (*Source, *shelf, []Problem) {
	own := new(shelf)
	src, problems := read(b, ShopBook, bookTables, own)
	if src.out == nil {
		return src, nil, problems
	}
	fail := func(table, row int, key, message string) {
		problems = src.fault(problems, bookTables, spot{table, row, key}, message)
	}
	if r, bad := laminate.BadCharacter(own.title, false); bad {
		fail(bookRoot, 0, "title", badCharacter(r))
	}
	if r, bad := laminate.BadCharacter(own.notes, true); bad {
		fail(bookRoot, 0, "notes", badCharacter(r))
	}
	for _, id := range own.Rack {
		if r, bad := laminate.BadCharacter(id, false); bad {
			fail(bookRoot, 0, "rack", badCharacter(r))
		}
	}
	seen := map[spot]bool{}
	twice := func(table, row int, id string) {
		here := spot{table, 0, id}
		if seen[here] && id != "" {
			fail(table, row, "id", quoted(id)+" is the id of another one already")
		}
		seen[here] = true
	}
	for i := range own.Materials {
		for _, f := range own.Materials[i].Validate(laminate.Ref{}) {
			fail(bookMaterial, i, f.Ref.Key, f.Message)
		}
		twice(bookMaterial, i, own.Materials[i].ID)
	}
	for i := range own.Resins {
		for _, f := range own.Resins[i].Validate(laminate.Ref{}) {
			fail(bookResin, i, f.Ref.Key, f.Message)
		}
		twice(bookResin, i, own.Resins[i].ID)
	}
	for i := range own.Ratings {
		r := &own.Ratings[i]
		r.Line = src.lineAt(src.offset(bookRating, i, ""))
		for _, w := range ratingFaults(r) {
			fail(bookRating, i, w.key, w.message)
		}
	}
	return src, own, sorted(problems)
}

func badCharacter(r rune) string { return "it has the control character U+" + hex(r) }

func hex(r rune) string {
	const digits = "0123456789ABCDEF"
	return string([]byte{digits[r>>12&15], digits[r>>8&15], digits[r>>4&15], digits[r&15]})
}

type wrong struct{ key, message string }

// ratingFaults tells what a row of ratings lacks: nothing of it is guessed.
func ratingFaults(r *laminate.Rating) []wrong {
	var all []wrong
	need := func(given bool, key string) {
		if !given {
			all = append(all, wrong{key, "it is missing; a rating needs it"})
		}
	}
	need(r.Contents != "", "contents")
	low, high := r.Concentration[0], r.Concentration[1]
	need(!math.IsNaN(low), "concentration")
	if low < 0 || high > 1 || low > high {
		all = append(all, wrong{"concentration", "the lowest and the highest share are expected, from 0 to 1 and ascending"})
	}
	need(r.MaxTemperature.Given(), "temperature")
	need(r.Family != laminate.NoFamily, "family")
	need(r.Grade != "", "grade")
	if r.Build != "100 mil" && r.Build != "200 mil" {
		all = append(all, wrong{"build", `"100 mil" or "200 mil" is expected, the barrier the rating is for`})
	}
	for _, t := range []wrong{{"contents", r.Contents}, {"grade", r.Grade}, {"source", r.Source}, {"date", r.Date}} {
		if c, bad := laminate.BadCharacter(t.message, false); bad {
			all = append(all, wrong{t.key, badCharacter(c)})
		}
	}
	return all
}
