package schedules

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/stock"
)

const shopBook = `document = "shop-book"
format = 1
title = "Invented shop"
rack = ["mat-450", "veil-c-10"]

[[material]]
id = "mat-450"
form = "chopped-mat"
fiber = "ecr-glass"
areal_mass = "450 g/m2"
price = "USD 1.90 per lb"

[[resin]]
id = "house"
family = "vinyl-ester"
price = "6 per kg"

[[build]]
id = "tri-mat"
veils = 1
mats = 3

[[rating]]   # invented
fluid = "sodium hypochlorite"
concentration = [0, 0.15]
temperature = "50 degC"
family = "vinyl-ester"
build = "200 mil"
grade = "good"
source = "coupons, invented"
date = "2020-04-01"

[[rating]]
fluid = "brine"
concentration = 0.26
temperature = "200 degF"
family = "novolac-vinyl-ester"
build = "tri-mat"
grade = "fair"
`

func TestDecodeBook(t *testing.T) {
	b, problems := DecodeBook([]byte(shopBook))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if len(b.Materials) != 1 || b.Materials[0].Price.Amount != 1.9 || b.Materials[0].Price.Currency != "USD" {
		t.Errorf("materials %+v", b.Materials)
	}
	if len(b.Resins) != 1 || b.Resins[0].Price.PerKilogram() != 6 || len(b.Rack) != 2 {
		t.Errorf("resins %+v, rack %v", b.Resins, b.Rack)
	}
	if len(b.Ratings) != 2 || b.Ratings[0].Line != 23 || len(b.Builds) != 1 || b.Builds[0].Veils != 1 || b.Builds[0].Mats != 3 || b.Ratings[0].Concentration != [2]float64{0, 0.15} || b.Ratings[1].Concentration != [2]float64{0.26, 0.26} ||
		b.Ratings[0].Family != laminate.VinylEster || b.Ratings[0].MaxTemperature.SI() != 323.15 {
		t.Errorf("ratings %+v", b.Ratings)
	}
}

func TestDecodeBook_badInput(t *testing.T) {
	for text, want := range map[string]string{
		string(Example()): "line 1: document: this is a schedule, not a shop-book",
		strings.Replace(shopBook, "grade = \"fair\"\n", "", 1):                      "line 33: rating.grade: it is missing; a rating needs it",
		strings.Replace(shopBook, "[0, 0.15]", "[0.2, 0.1]", 1):                     "line 25: rating.concentration: the lowest and the highest share",
		strings.Replace(shopBook, "concentration = 0.26\n", "", 1):                  "line 33: rating.concentration: it is missing",
		strings.Replace(shopBook, "200 mil", "double", 1):                           "line 28: rating.build: \"100 mil\", \"200 mil\" or the id of a build of this book",
		strings.Replace(shopBook, "areal_mass = \"450 g/m2\"", "", 1):               "line 6: material.areal_mass: it is missing",
		strings.Replace(shopBook, "Invented shop", "a\\u0007", 1):                   "line 3: title: it has the control character U+0007",
		strings.Replace(shopBook, "rack =", "rakc =", 1):                            "line 4: rakc: this key is not known; the nearest is \"rack\"",
		strings.Replace(shopBook, "\"veil-c-10\"]", "1]", 1):                        "line 4: rack: a list of words",
		strings.Replace(shopBook, "mats = 3", "mats = 0", 1):                        "line 21: build.mats: 0 is not between 1 and 40",
		strings.Replace(shopBook, "mats = 3", "", 1):                                "line 18: build.mats: it is missing",
		strings.ReplaceAll(shopBook, "\"tri-mat\"", "\"200-mil\""):                  "line 19: build.id: \"200-mil\" is kept for a usual build",
		shopBook + "[[resin]]\nid = \"house\"\nfamily = \"chlorendic-polyester\"\n": "line 41: resin.id: \"house\" is the id of another one already",
		shopBook + "[[level]]\nkind = \"pit\"\n":                                    "line 40: level.level: it is missing: the acceptance level that the limit belongs to",
		shopBook + "[[level]]\nlevel = \"II\"\nsize_max = \"1/8 in\"\n":             "line 40: level.kind: it is missing",
	} {
		b, problems := DecodeBook([]byte(text))
		if b != nil || len(problems) != 1 || !strings.HasPrefix(problems[0].String(), want) {
			t.Errorf("got %v, want %q", problems, want)
		}
	}
}

func TestTidy_shopBook(t *testing.T) {
	text := strings.Replace(shopBook, "rack = [", "rack = [ # the order\n  # of the shelf\n", 1)
	got, problems := Tidy([]byte(text), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	golden(t, "tidy/shop-book.golden", got)
	if again, _ := Tidy(got, nil); !bytes.Equal(got, again) {
		t.Errorf("twice is not once:\n%s", again)
	}
	a, _ := DecodeBook([]byte(text))
	b, _ := DecodeBook(got)
	for i := range a.Ratings {
		a.Ratings[i].Line, b.Ratings[i].Line = 0, 0
	}
	if !reflect.DeepEqual(a, b) || bytes.Count(got, []byte("#")) != 3 {
		t.Errorf("it says something else:\n%s", got)
	}
	if _, problems := Tidy([]byte(strings.Replace(shopBook, "rack", "rakc", 1)), nil); len(problems) != 1 {
		t.Errorf("%v", problems)
	}
}

func TestDecodeBook_readsWhatTakeoffGoesBy(t *testing.T) {
	const head = "document = \"shop-book\"\nformat = 1\n"
	b, problems := DecodeBook([]byte(head + `
[takeoff]
resin_waste_contact = 0.1
lap = "0 in"
batch = "4 kg"
spray = "atomized"
hour_price = 60
currency = "EUR"
[[roll]]
material = "mat-1.5"
width = "50 in"
length = "192 ft"
price = "3 per kg"
[[initiator]]
family = "vinyl-ester"
initiator = 0.015
source = "invented"
`))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if s := b.Stock; s.Takeoff.ResinWasteContact != laminate.Some(0.1) || s.Takeoff.Batch.SI() != 4 || s.Takeoff.Spray != stock.Atomized ||
		len(s.Rolls) != 1 || s.Rolls[0].Price.PerKilogram() != 3 || len(s.Initiators) != 1 {
		t.Errorf("%+v", s)
	}
	for text, want := range map[string]string{
		"[takeoff]\nresin_waste_contact = 8\n":                                     "line 4: takeoff.resin_waste_contact: 8 is not from 0 to 1",
		"[takeoff]\nbatch = 4\n":                                                   "line 4: takeoff.batch: ",
		"[takeoff]\nspray = \"airless\"\n":                                         "line 4: takeoff.spray: \"airless\" is not one of non-atomized, atomized",
		"[[roll]]\nwidth = \"50 in\"\n":                                            "line 3: roll.material: it is missing",
		"[[roll]]\nmaterial = \"m\"\nlength = \"9 m\"\n":                           "width: it is missing",
		"[[initiator]]\nfamily = \"vinyl-ester\"\nsource = \"s\"\n":                "initiator.initiator: it is missing",
		"[[initiator]]\ninitiator = 0.02\nsource = \"s\"\n":                        "family: it is missing",
		"[[initiator]]\nfamily = \"vinyl-ester\"\ninitiator = 0.02\n":              "source: it is missing",
		"[[initiator]]\nfamily = \"vinyl-ester\"\ninitiator = 0\nsource = \"s\"\n": "line 5: initiator.initiator: 0 is not",
	} {
		_, problems := DecodeBook([]byte(head + text))
		if len(problems) != 1 || !strings.Contains(problems[0].String(), want) {
			t.Errorf("%s\nsays %v, want %s", text, problems, want)
		}
	}
}

func TestDecodeBook_readsTheLetterhead(t *testing.T) {
	b, problems := DecodeBook([]byte("document = \"shop-book\"\nformat = 1\nshop = \"Invented shop\"\naddress = \"1 Resin Lane\"\n"))
	if problems != nil || b.Letterhead != (laminate.Letterhead{Name: "Invented shop", Address: "1 Resin Lane"}) {
		t.Errorf("%+v, %v", b, problems)
	}
}
