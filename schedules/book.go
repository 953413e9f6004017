package schedules

import (
	"math"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/internal/keyed"
)

// shelf is a shop book as it is read: the book, and what only its text has.
type shelf struct {
	catalog.Book
	title, notes string
}

const (
	bookRoot = iota
	bookMaterial
	bookResin
	bookRating
)

var bookTables = []keyed.Table{
	{Fields: bookFields, At: func(m any, _ int) any { return m }, Rows: keyed.OneRow, Resize: keyed.Fixed},
	{Name: "material", Array: true, Most: laminate.MostRows, Fields: materialFields,
		At:     func(m any, i int) any { return &m.(*shelf).Materials[i] },
		Rows:   func(m any) int { return len(m.(*shelf).Materials) },
		Resize: func(m any, n int) { m.(*shelf).Materials = make([]laminate.Material, n) }},
	{Name: "resin", Array: true, Most: laminate.MostRows, Fields: resinFields,
		At:     func(m any, i int) any { return &m.(*shelf).Resins[i] },
		Rows:   func(m any) int { return len(m.(*shelf).Resins) },
		Resize: func(m any, n int) { m.(*shelf).Resins = make([]laminate.Resin, n) }},
	{Name: "rating", Array: true, Most: laminate.MostRows, Fields: ratingFields,
		At:   func(m any, i int) any { return &m.(*shelf).Ratings[i] },
		Rows: func(m any) int { return len(m.(*shelf).Ratings) },
		Resize: func(m any, n int) {
			rows := make([]laminate.Rating, n)
			for i := range rows {
				rows[i].Concentration = [2]float64{math.NaN(), math.NaN()} // not given
			}
			m.(*shelf).Ratings = rows
		}},
}

var bookFields = []keyed.Field{
	keyed.Declaration("document", `"shop-book"`, `"shop-book"`),
	keyed.Declaration("format", "1", "1"),
	keyed.TextField("title", func(b *shelf) *string { return &b.title }),
	keyed.NotesField("notes", func(b *shelf) *string { return &b.notes }),
	{Key: "rack", What: "a list of material ids, in the order the rack shows them",
		Set: func(row, value any) (wrong string) {
			row.(*shelf).Rack, wrong = keyed.WordsOf(value)
			return wrong
		},
		Get: func(row any) (string, bool) {
			var items []string
			for _, id := range row.(*shelf).Rack {
				items = append(items, keyed.TOMLText(id))
			}
			return keyed.TOMLList(items), len(items) > 0
		}},
}

type rating = laminate.Rating

var ratingFields = []keyed.Field{
	keyed.TextField("fluid", func(r *rating) *string { return &r.Fluid }),
	{Key: "concentration", What: "a share from 0 to 1, or a list of the lowest and the highest",
		Set: func(row, value any) string {
			if _, list := value.([]any); list {
				ends, wrong := keyed.Numbers(value, 2)
				if wrong == "" {
					row.(*rating).Concentration = [2]float64(ends)
				}
				return wrong
			}
			v, wrong := keyed.Number(value)
			if wrong == "" {
				row.(*rating).Concentration = [2]float64{v, v}
			}
			return wrong
		},
		Get: func(row any) (string, bool) {
			c := row.(*rating).Concentration
			if c[0] == c[1] {
				return keyed.TOMLNumber(c[0]), true
			}
			return keyed.TOMLList([]string{keyed.TOMLNumber(c[0]), keyed.TOMLNumber(c[1])}), true
		}},
	keyed.SizeField("temperature", func(r *rating) *quantity.Temperature { return &r.MaxTemperature }),
	keyed.WordField("family", func(r *rating) *laminate.Family { return &r.Family }, laminate.Families),
	keyed.TextField("build", func(r *rating) *string { return &r.Build }),
	keyed.TextField("grade", func(r *rating) *string { return &r.Grade }),
	keyed.TextField("source", func(r *rating) *string { return &r.Source }),
	keyed.TextField("date", func(r *rating) *string { return &r.Date }),
}

// BookKeys lists the tables and keys of a shop book in canonical order.
func BookKeys() []TableKeys { return keysOf(bookTables) }

// DecodeBook reads a shop book. Where there are problems the book is nil; all
// problems are told, in the order of the file. Its Path, and the Book of its
// ratings, are the reader's to set; the ratings know their lines.
func DecodeBook(b []byte) (*catalog.Book, []Problem) {
	_, own, problems := decodeBook(b)
	if len(problems) > 0 {
		return nil, problems
	}
	return &own.Book, nil
}

func decodeBook(b []byte) (*Source, *shelf, []Problem) {
	own := new(shelf)
	src, problems := read(b, ShopBook, bookTables, own)
	if src.doc == nil {
		return src, nil, problems
	}
	fail := func(table, row int, key, message string) {
		problems = src.fault(problems, bookTables, keyed.Spot{Table: table, Row: row, Key: key}, message)
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
	seen := map[keyed.Spot]bool{}
	twice := func(table, row int, id string) {
		here := keyed.Spot{Table: table, Key: id}
		if seen[here] && id != "" {
			fail(table, row, "id", keyed.Quoted(id)+" is the id of another one already")
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
		r.Line = src.doc.LineAt(src.doc.Offset(bookRating, i, ""))
		for _, w := range ratingFaults(r) {
			fail(bookRating, i, w.Key, w.message)
		}
	}
	return src, own, keyed.Sorted(problems)
}

func badCharacter(r rune) string { return "it has " + laminate.CharacterName(r) }

type wrong struct{ Key, message string }

// ratingFaults tells what a row of ratings lacks: nothing of it is guessed.
func ratingFaults(r *laminate.Rating) []wrong {
	var all []wrong
	need := func(given bool, key string) {
		if !given {
			all = append(all, wrong{key, "it is missing; a rating needs it"})
		}
	}
	need(r.Fluid != "", "fluid")
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
	for _, t := range []wrong{{"fluid", r.Fluid}, {"grade", r.Grade}, {"source", r.Source}, {"date", r.Date}} {
		if c, bad := laminate.BadCharacter(t.message, false); bad {
			all = append(all, wrong{t.Key, badCharacter(c)})
		}
	}
	return all
}
