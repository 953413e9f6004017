package catalog

import (
	"cmp"
	"slices"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/laminate/stock"
)

// Book is a shop book: what a shop keeps for all its schedules.
type Book struct {
	Path       string // of the file, as reports name it
	Materials  []laminate.Material
	Resins     []laminate.Resin
	Ratings    []laminate.Rating
	Builds     []laminate.BarrierBuild
	Letterhead laminate.Letterhead
	Rack       []string // material ids; empty leaves the rack as it is
	Stock      stock.Stock
	Levels     []spec.LevelLimit
}

// Merge lays books over base, nearest first, and returns an indexed library;
// base and the books stay as they are. Of materials and resins with one id the
// nearest book's counts and the others are left out, of builds likewise; ratings of all books are
// kept, and each names its book; the rack is that of the nearest book that has
// one. Ids on a rack that no material answers to are left out.
func Merge(base *laminate.Library, books ...Book) *laminate.Library {
	l := &laminate.Library{Families: base.Families, Fibers: base.Fibers, Fillers: base.Fillers}
	l.Rack = base.Rack
	for _, b := range slices.Backward(books) {
		if len(b.Rack) > 0 {
			l.Rack = b.Rack
		}
	}
	materials, resins := map[string]bool{}, map[string]bool{}
	add := func(ms []laminate.Material, rs []laminate.Resin) {
		for _, m := range ms {
			if !materials[m.ID] {
				materials[m.ID] = true
				l.Materials = append(l.Materials, m)
			}
		}
		for _, r := range rs {
			if !resins[r.ID] {
				resins[r.ID] = true
				l.Resins = append(l.Resins, r)
			}
		}
	}
	for _, b := range books {
		add(b.Materials, b.Resins)
		for _, r := range b.Ratings {
			if r.Book == "" {
				r.Book = b.Path
			}
			l.Ratings = append(l.Ratings, r)
		}
		for _, own := range b.Builds {
			own.Book = cmp.Or(own.Book, b.Path)
			if !slices.ContainsFunc(l.Builds, func(x laminate.BarrierBuild) bool { return x.ID == own.ID }) {
				l.Builds = append(l.Builds, own)
			}
		}
		if l.Letterhead == (laminate.Letterhead{}) {
			l.Letterhead = b.Letterhead
		}
		l.Books = append(l.Books, b.Path)
	}
	add(base.Materials, base.Resins)
	l.Ratings = append(l.Ratings, base.Ratings...)
	for _, own := range base.Builds {
		if !slices.ContainsFunc(l.Builds, func(x laminate.BarrierBuild) bool { return x.ID == own.ID }) {
			l.Builds = append(l.Builds, own)
		}
	}
	l.Books = append(l.Books, base.Books...)
	l.Rack = slices.DeleteFunc(slices.Clone(l.Rack), func(id string) bool { return !materials[id] })
	l.Index()
	return l
}
