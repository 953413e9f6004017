package schedules

import (
	"math"
	"slices"
	"strings"
	"sync"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/stock"
	"frp/veilwright/schedules/internal/spell"
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
	bookTakeoff
	bookRoll
	bookInitiator
	bookLevel
)

var bookTables = sync.OnceValue(func() []tables.Table {
	return []tables.Table{
		tables.One("", declared(ShopBook,
			tables.TextField("title", func(b *shelf) *string { return &b.title }),
			tables.TextField("shop", func(b *shelf) *string { return &b.Letterhead.Name }),
			tables.TextField("address", func(b *shelf) *string { return &b.Letterhead.Address }),
			tables.NotesField("notes", func(b *shelf) *string { return &b.notes }),
			tables.Of("rack", "a list of material ids, in the order the rack shows them", func(b *shelf) *[]string { return &b.Rack },
				tables.WordsOf, func(ids []string) (string, bool) { return spell.Words(ids), len(ids) > 0 }),
		), func(b *shelf) *shelf { return b }),
		tables.Many("material", laminate.MostRows, materialFields, func(b *shelf) *[]laminate.Material { return &b.Materials }),
		tables.Many("resin", laminate.MostRows, resinFields, func(b *shelf) *[]laminate.Resin { return &b.Resins }),
		tables.Many("build", mostBuilds, []tables.Field{
			tables.TextField("id", func(b *laminate.BarrierBuild) *string { return &b.ID }),
			tables.OrdinalField("veils", "a number of veils from 1 to 10", 10, func(b *laminate.BarrierBuild) *int { return &b.Veils }),
			tables.OrdinalField("mats", "a number of chopped mats from 1 to 40", 40, func(b *laminate.BarrierBuild) *int { return &b.Mats }),
		}, func(b *shelf) *[]laminate.BarrierBuild { return &b.Builds }),
		tables.Many("rating", laminate.MostRows, []tables.Field{
			tables.TextField("fluid", func(r *laminate.Rating) *string { return &r.Fluid }),
			concentrationField(),
			tables.SizeField("temperature", func(r *laminate.Rating) *quantity.Temperature { return &r.MaxTemperature }),
			tables.WordField("family", func(r *laminate.Rating) *laminate.Family { return &r.Family }, laminate.Families),
			tables.TextField("build", func(r *laminate.Rating) *string { return &r.Build }),
			tables.TextField("grade", func(r *laminate.Rating) *string { return &r.Grade }),
			tables.TextField("source", func(r *laminate.Rating) *string { return &r.Source }),
			tables.TextField("date", func(r *laminate.Rating) *string { return &r.Date }),
		}, func(b *shelf) *[]laminate.Rating { return &b.Ratings }),
		tables.One("takeoff", []tables.Field{
			tables.ShareField("resin_waste_contact", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.ResinWasteContact }),
			tables.ShareField("resin_waste_sprayed", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.ResinWasteSprayed }),
			tables.ShareField("resin_waste_wound", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.ResinWasteWound }),
			tables.ShareField("glass_waste", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.GlassWaste }),
			tables.ShareField("roving_waste", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.RovingWaste }),
			tables.ShareField("overspray", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.Overspray }),
			tables.ShareField("darting_mat", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.DartingMat }),
			tables.ShareField("darting_woven", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.DartingWoven }),
			tables.SizeField("lap", func(t *stock.Takeoff) *quantity.Length { return &t.Lap }),
			tables.AnswerField("strips_join", func(t *stock.Takeoff) *laminate.Optional[bool] { return &t.StripsJoin }),
			tables.SizeField("turnaround", func(t *stock.Takeoff) *quantity.Length { return &t.Turnaround }),
			tables.SizeField("batch", func(t *stock.Takeoff) *quantity.Mass { return &t.Batch }),
			tables.SizeField("laid_a_minute", func(t *stock.Takeoff) *quantity.Mass { return &t.LaidAMinute }),
			tables.WordField("spray", func(t *stock.Takeoff) *stock.SprayGun { return &t.Spray }, stock.SprayGuns),
			hoursField("hours_contact", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.HoursContact }),
			hoursField("hours_wound", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.HoursWound }),
			hoursField("hours_joint", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.HoursJoint }),
			hoursField("hours_nozzle", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.HoursNozzle }),
			hoursField("hours_fixed", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.HoursFixed }),
			tables.NumberField("hour_price", "money for an hour", func(t *stock.Takeoff) *laminate.Optional[float64] { return &t.HourPrice }),
			tables.TextField("currency", func(t *stock.Takeoff) *string { return &t.Currency }),
		}, func(b *shelf) *stock.Takeoff { return &b.Stock.Takeoff }),
		tables.Many("roll", laminate.MostRows, []tables.Field{
			tables.TextField("material", func(r *stock.Roll) *string { return &r.Material }),
			tables.SizeField("width", func(r *stock.Roll) *quantity.Length { return &r.Width }),
			tables.SizeField("length", func(r *stock.Roll) *quantity.Length { return &r.Length }),
			tables.PriceField("price", func(r *stock.Roll) *quantity.Price { return &r.Price }),
		}, func(b *shelf) *[]stock.Roll { return &b.Stock.Rolls }),
		tables.Many("initiator", laminate.MostRows, []tables.Field{
			tables.WordField("family", func(r *stock.Initiation) *laminate.Family { return &r.Family }, laminate.Families),
			tables.WordField("cure", func(r *stock.Initiation) *laminate.Cure { return &r.Cure }, laminate.Cures),
			tables.SizeField("temperature", func(r *stock.Initiation) *quantity.Temperature { return &r.Temperature }),
			tables.ShareField("initiator", func(r *stock.Initiation) *laminate.Optional[float64] { return &r.Initiator }),
			tables.ShareField("promoter", func(r *stock.Initiation) *laminate.Optional[float64] { return &r.Promoter }),
			tables.NumberField("gel_minutes", "minutes", func(r *stock.Initiation) *laminate.Optional[float64] { return &r.GelMinutes }),
			tables.SizeField("density", func(r *stock.Initiation) *quantity.Density { return &r.Density }),
			tables.PriceField("price", func(r *stock.Initiation) *quantity.Price { return &r.Price }),
			tables.TextField("source", func(r *stock.Initiation) *string { return &r.Source }),
		}, func(b *shelf) *[]stock.Initiation { return &b.Stock.Initiators }),
		tables.Many("level", laminate.MostRows, slices.Concat([]tables.Field{tables.TextField("level", func(l *spec.LevelLimit) *string { return &l.Level })},
			tables.Lift(defectFields(), func(l *spec.LevelLimit) *spec.DefectLimit { return &l.DefectLimit }),
			[]tables.Field{tables.TextField("source", func(l *spec.LevelLimit) *string { return &l.Source })}), func(b *shelf) *[]spec.LevelLimit { return &b.Levels }),
	}
})

func hoursField(key string, at func(*stock.Takeoff) *laminate.Optional[float64]) tables.Field {
	return tables.NumberField(key, "hours", at)
}

// mostBuilds is how many barriers of its own a shop may list: advice answers
// for each of them.
const mostBuilds = 20

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
				return spell.Number(c[0]), true
			}
			return spell.Numbers(c[:]), true
		})
	f.Begin = func(row any) { row.(*laminate.Rating).Concentration = [2]float64{math.NaN(), math.NaN()} }
	return f
}

// BookKeys lists the tables and keys of a shop book in canonical order.
func BookKeys() []TableKeys { return keysOf(bookTables()) }

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
	src, problems := read(b, ShopBook, bookTables(), own)
	if src.doc == nil {
		return src, nil, problems
	}
	src.doc.Was = own
	problems = src.doc.Strange(problems, own)
	fail := func(table, row int, key, message string) {
		problems = src.fault(problems, tables.Spot{Table: table, Row: row, Key: key}, message)
	}
	faults := func(table, row int, list []laminate.Fault) {
		for _, f := range list {
			fail(table, row, f.Ref.Key, f.Message)
		}
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
		faults(bookMaterial, i, own.Materials[i].Validate(laminate.Ref{}))
		twice(bookMaterial, i, own.Materials[i].ID)
	}
	for i := range own.Resins {
		faults(bookResin, i, own.Resins[i].Validate(laminate.Ref{}))
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
	faults(bookTakeoff, 0, own.Stock.Takeoff.Validate())
	for i := range own.Stock.Rolls {
		faults(bookRoll, i, own.Stock.Rolls[i].Validate())
	}
	for i := range own.Stock.Initiators {
		faults(bookInitiator, i, own.Stock.Initiators[i].Validate())
	}
	for i := range own.Levels {
		l := &own.Levels[i]
		if strings.TrimSpace(l.Level) == "" {
			fail(bookLevel, i, "level", "it is missing: the acceptance level that the limit belongs to")
		}
		for _, w := range limitFaults(&l.DefectLimit) {
			fail(bookLevel, i, w.key, w.message)
		}
	}
	return src, own, tables.Sorted(problems)
}

// isBuildID tells whether id is words of small letters and digits, with a hyphen
// between two of them.
func isBuildID(id string) bool {
	for part := range strings.SplitSeq(id, "-") {
		if part == "" || strings.Trim(part, "abcdefghijklmnopqrstuvwxyz0123456789") != "" {
			return false
		}
	}
	return true
}

// buildFaults tells what a shop's own build lacks.
func buildFaults(b *laminate.BarrierBuild) []wrong {
	var all []wrong
	switch {
	case b.ID == "":
		all = append(all, wrong{"id", "it is missing or empty"})
	case len(b.ID) > 40 || !isBuildID(b.ID):
		all = append(all, wrong{"id", tables.Quoted(b.ID) + " is no id of a build: small letters, digits and single hyphens are expected, at most 40"})
	case catalog.KnownBuild(b.ID, nil) || strings.HasPrefix(b.ID, "over-") || strings.HasSuffix(b.ID, "-filled") || strings.HasSuffix(b.ID, "-conductive"):
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
	if !catalog.KnownBuild(r.Build, own) {
		all = append(all, wrong{"build", `"100 mil", "200 mil" or the id of a build of this book is expected, the barrier the rating is for`})
	}
	return all
}
