package catalog_test

import (
	"slices"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
)

func TestMerge_nearestIdWins(t *testing.T) {
	near := catalog.Book{Path: "near.toml", Materials: []laminate.Material{{ID: catalog.Mat15, Name: "near"}, {ID: "own", Name: "near"}},
		Resins: []laminate.Resin{{ID: "r", Product: "near"}}}
	far := catalog.Book{Path: "far.toml", Materials: []laminate.Material{{ID: "own", Name: "far"}, {ID: "other", Name: "far"}},
		Resins: []laminate.Resin{{ID: "r", Product: "far"}, {ID: "q"}}}
	l := catalog.Merge(catalog.Library(), near, far)
	for id, name := range map[string]string{catalog.Mat15: "near", "own": "near", "other": "far", catalog.Woven24: "woven roving, 24 oz/yd²"} {
		if m, ok := l.Material(nil, id); !ok || m.Name != name {
			t.Errorf("%s is %+v, want the one called %q", id, m, name)
		}
	}
	seen := map[string]bool{}
	for _, m := range l.Materials {
		if seen[m.ID] {
			t.Errorf("%s is there twice", m.ID)
		}
		seen[m.ID] = true
	}
	if len(l.Resins) != 2 || l.Resins[0].Product != "near" {
		t.Errorf("resins %+v", l.Resins)
	}
	if !slices.Equal(l.Books, []string{"near.toml", "far.toml"}) {
		t.Errorf("books %v", l.Books)
	}
}

func TestMerge_ratingsNameTheirBook(t *testing.T) {
	l := catalog.Merge(catalog.Library(), catalog.Book{Path: "a", Ratings: []laminate.Rating{{Fluid: "brine"}}},
		catalog.Book{Path: "b", Ratings: []laminate.Rating{{Fluid: "lye", Book: "b/shop-book.toml"}}})
	if len(l.Ratings) != 2 || l.Ratings[0].Book != "a" || l.Ratings[1].Book != "b/shop-book.toml" {
		t.Errorf("ratings %+v", l.Ratings)
	}
}

func TestMerge_rackIsTheNearestBooks(t *testing.T) {
	base := catalog.Library()
	none, far := catalog.Book{Path: "near"}, catalog.Book{Path: "far", Rack: []string{catalog.Chop15, "nobody's", catalog.Mat20}}
	if l := catalog.Merge(base, none, far); !slices.Equal(l.Rack, []string{catalog.Chop15, catalog.Mat20}) {
		t.Errorf("rack %v", l.Rack)
	}
	if l := catalog.Merge(base, none); !slices.Equal(l.Rack, base.Rack) {
		t.Errorf("rack %v", l.Rack)
	}
}

func TestMerge_leavesItsArgumentsAlone(t *testing.T) {
	base := catalog.Library()
	b := catalog.Book{Path: "p", Ratings: []laminate.Rating{{Fluid: "brine"}}, Rack: []string{"gone", catalog.Mat15}}
	l := catalog.Merge(base, b)
	l.Materials[0].Name = "changed"
	if base.Materials[0].Name == "changed" || b.Ratings[0].Book != "" || b.Rack[0] != "gone" || len(base.Books) != 0 {
		t.Error("base or book was changed")
	}
}

func TestMerge_withoutBooksIsTheBase(t *testing.T) {
	base := catalog.Library()
	l := catalog.Merge(base)
	if len(l.Materials) != len(base.Materials) || len(l.Books) != 0 || l.Families != base.Families {
		t.Errorf("%+v", l)
	}
}
