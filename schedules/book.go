package schedules

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/schedules/internal/tables"
)

// shelf is a shop book as it is read: the book, and what only its text has.
type shelf struct {
	catalog.Book
	title, notes string
}

const (
	bookMaterial = 1 + iota
	bookResin
	bookBuild
	bookRating
)

var bookTables = []tables.Table{
	tables.One("", declared(ShopBook,
		tables.TextField("title", func(b *shelf) *string { return &b.title }),
		tables.TextField("shop", func(b *shelf) *string { return &b.Letterhead.Name }),
		tables.TextField("address", func(b *shelf) *string { return &b.Letterhead.Address }),
		tables.NotesField("notes", func(b *shelf) *string { return &b.notes }),
		tables.Of("rack", "a list of material ids, in the order the rack shows them", func(b *shelf) *[]string { return &b.Rack },
			tables.WordsOf, func(ids []string) (string, bool) { return tables.TOMLWords(ids), len(ids) > 0 }),
	), func(b *shelf) *shelf { return b }),
	tables.Many("material", laminate.MostRows, materialFields, func(b *shelf) *[]laminate.Material { return &b.Materials }),
	tables.Many("resin", laminate.MostRows, resinFields, func(b *shelf) *[]laminate.Resin { return &b.Resins }),
	tables.Many("build", mostBuilds, buildFields, func(b *shelf) *[]laminate.BarrierBuild { return &b.Builds }),
	tables.Many("rating", laminate.MostRows, ratingFields, func(b *shelf) *[]laminate.Rating { return &b.Ratings }),
}

// mostBuilds is how many barriers of its own a shop may list: advice answers
// for each of them.
const mostBuilds = 20

var buildFields = []tables.Field{
	tables.TextField("id", func(b *laminate.BarrierBuild) *string { return &b.ID }),
	tables.OrdinalField("veils", "a number of veils from 1 to 10", 10, func(b *laminate.BarrierBuild) *int { return &b.Veils }),
	tables.OrdinalField("mats", "a number of chopped mats from 1 to 40", 40, func(b *laminate.BarrierBuild) *int { return &b.Mats }),
}

var ratingFields = []tables.Field{
	tables.TextField("fluid", func(r *laminate.Rating) *string { return &r.Fluid }),
	concentrationField(),
	tables.SizeField("temperature", func(r *laminate.Rating) *quantity.Temperature { return &r.MaxTemperature }),
	tables.WordField("family", func(r *laminate.Rating) *laminate.Family { return &r.Family }, laminate.Families),
	tables.TextField("build", func(r *laminate.Rating) *string { return &r.Build }),
	tables.TextField("grade", func(r *laminate.Rating) *string { return &r.Grade }),
	tables.TextField("source", func(r *laminate.Rating) *string { return &r.Source }),
	tables.TextField("date", func(r *laminate.Rating) *string { return &r.Date }),
}

// concentrationField is a share or the lowest and the highest; not a number
// where it is left out.
func concentrationField() tables.Field {
	f := tables.Of("concentration", "a share from 0 to 1, or a list of the lowest and the highest", func(r *laminate.Rating) *[2]float64 { return &r.Concentration },
		func(value any) ([2]float64, string) {
			if _, list := value.([]any); list {
				ends, wrong := tables.Numbers(value, 2)
				if wrong != "" {
					return [2]float64{}, wrong
				}
				return [2]float64(ends), ""
			}
			v, wrong := tables.Number(value)
			return [2]float64{v, v}, wrong
		},
		func(c [2]float64) (string, bool) {
			if c[0] == c[1] {
				return tables.TOMLNumber(c[0]), true
			}
			return tables.TOMLNumbers(c[:]), true
		})
	f.Begin = func(row any) { row.(*laminate.Rating).Concentration = [2]float64{math.NaN(), math.NaN()} }
	return f
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
	problems = src.doc.Strange(problems, own)
	fail := func(table, row int, key, message string) {
		problems = src.fault(problems, tables.Spot{Table: table, Row: row, Key: key}, message)
	}
	seen := map[tables.Spot]bool{}
	twice := func(table, row int, id string) {
		here := tables.Spot{Table: table, Key: id}
		if seen[here] && id != "" {
			fail(table, row, "id", tables.Quoted(id)+" is the id of another one already")
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
	for i := range own.Builds {
		b := &own.Builds[i]
		for _, w := range buildFaults(b) {
			fail(bookBuild, i, w.key, w.message)
		}
		twice(bookBuild, i, b.ID)
	}
	for i := range own.Ratings {
		r := &own.Ratings[i]
		r.Line = src.doc.LineAt(src.doc.Offset(tables.Spot{Table: bookRating, Row: i}))
		for _, w := range ratingFaults(r, own.Builds) {
			fail(bookRating, i, w.key, w.message)
		}
	}
	return src, own, tables.Sorted(problems)
}

// knownBuild tells whether a rating's build is a usual one or one of a list.
func knownBuild(text string, own []laminate.BarrierBuild) bool {
	return slices.ContainsFunc(catalog.Builds(&laminate.Library{Builds: own}), func(b laminate.BarrierBuild) bool { return b.Is(text) })
}

var buildID = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// buildFaults tells what a shop's own build lacks.
func buildFaults(b *laminate.BarrierBuild) []wrong {
	var all []wrong
	switch {
	case b.ID == "":
		all = append(all, wrong{"id", "it is missing or empty"})
	case len(b.ID) > 40 || !buildID.MatchString(b.ID):
		all = append(all, wrong{"id", tables.Quoted(b.ID) + " is no id of a build: small letters, digits and single hyphens are expected, at most 40"})
	case knownBuild(b.ID, nil) || strings.HasPrefix(b.ID, "over-") || strings.HasSuffix(b.ID, "-filled") || strings.HasSuffix(b.ID, "-conductive"):
		all = append(all, wrong{"id", tables.Quoted(b.ID) + " is kept for a usual build: take another id"})
	}
	if b.Veils == 0 {
		all = append(all, wrong{"veils", "it is missing; a build needs the number of its veils"})
	}
	if b.Mats == 0 {
		all = append(all, wrong{"mats", "it is missing; a build needs the number of its chopped mats"})
	}
	return all
}

type wrong struct{ key, message string }

// ratingFaults tells what a row of ratings lacks: nothing of it is guessed.
func ratingFaults(r *laminate.Rating, own []laminate.BarrierBuild) []wrong {
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
	if !knownBuild(r.Build, own) {
		all = append(all, wrong{"build", `"100 mil", "200 mil" or the id of a build of this book is expected, the barrier the rating is for`})
	}
	return all
}
