// Package ratings reads a shop's or a resin maker's table of ratings.
package ratings

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/word"
)

// Refused is a row of a table that was not taken, and why.
type Refused struct {
	Line int // of the file, from 1
	Why  string
}

// mostRejections are told one by one: a table of another kind is wrong in each row.
const mostRejections = 20

// Rejections words what was refused of the table of a name, of which so many rows were
// taken: the first rows with their reasons, the last, which may say that the
// table goes on, and between them how many more.
func Rejections(name string, taken int, refused []Refused) []string {
	var lines []string
	for i, r := range refused {
		switch last := len(refused) - 1; {
		case i < mostRejections || i == last:
			lines = append(lines, fmt.Sprintf("%s:%d: row rejected: %s", name, r.Line, r.Why))
		case i == mostRejections:
			lines = append(lines, fmt.Sprintf("%s: %d more rows rejected, lines %d to %d; %d are taken", name, last-i, r.Line, refused[last-1].Line, taken))
		}
	}
	return lines
}

// ratingColumns are what a table of ratings has, in any order.
var ratingColumns = []string{"fluid", "concentration", "temperature", "family", "build", "grade", "source", "date"}

const (
	mostRated    = 100_000 // rows of one table
	longestField = 1_000   // bytes
)

// Import reads a table of ratings in CSV (RFC 4180; a semicolon parts
// the columns where the first line has one and no comma). The first line names
// the columns, as a shop book names its keys: fluid, concentration,
// temperature, family, build, grade, source, date. A concentration is a share
// from 0 to 1 or a percentage, one or a range: "0.1 to 0.3", "10-30 %". A
// temperature carries its unit. A row that lacks something or cannot be read is
// refused with its line and reason, and the others are taken; nothing is
// guessed. Line of a rating is the table's; Book is the caller's to set.
// own are the shop's builds, which a row may name beside the usual ones.
func Import(table io.Reader, own []laminate.BarrierBuild) ([]laminate.Rating, []Refused) {
	text, err := io.ReadAll(io.LimitReader(table, 16<<20+1))
	switch {
	case err != nil:
		return nil, []Refused{{Why: "reading the table: " + err.Error()}}
	case len(text) > 16<<20:
		return nil, []Refused{{Why: "the table is larger than 16 MiB"}}
	}
	content := strings.TrimPrefix(string(text), "\ufeff")
	r := csv.NewReader(strings.NewReader(content))
	r.FieldsPerRecord, r.TrimLeadingSpace, r.ReuseRecord = -1, true, true
	if first, _, _ := strings.Cut(content, "\n"); strings.Contains(first, ";") && !strings.Contains(first, ",") {
		r.Comma = ';'
	}
	heads, err := r.Read()
	if err != nil {
		return nil, []Refused{{Line: 1, Why: "the first line has to name the columns: " + strings.Join(ratingColumns, ", ")}}
	}
	at, why := places(heads)
	if why != "" {
		return nil, []Refused{{Line: 1, Why: why}}
	}
	var taken []laminate.Rating
	var refused []Refused
	for n := 0; ; n++ {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			return taken, refused
		}
		var parse *csv.ParseError
		broken, line := errors.As(err, &parse), 0
		if broken {
			line = parse.StartLine
		} else {
			line, _ = r.FieldPos(0)
		}
		switch {
		case n == mostRated:
			return taken, append(refused, Refused{line, fmt.Sprintf("more than %d rows: this one and the rest are left out", mostRated)})
		case broken:
			refused = append(refused, Refused{line, parse.Err.Error()})
			continue
		}
		if row, err := readRating(record, at, own); err != nil {
			refused = append(refused, Refused{line, err.Error()})
		} else {
			row.Line = line
			taken = append(taken, row)
		}
	}
}

// places finds the columns.
func places(heads []string) (map[string]int, string) {
	at := map[string]int{}
	for i, h := range heads {
		h = strings.ToLower(strings.TrimSpace(h))
		if !slices.Contains(ratingColumns, h) {
			return nil, fmt.Sprintf("no column is called %q; there are %s", shortened(h), strings.Join(ratingColumns, ", "))
		}
		if _, twice := at[h]; twice {
			return nil, fmt.Sprintf("column %q stands there twice", h)
		}
		at[h] = i
	}
	for _, c := range ratingColumns {
		if _, ok := at[c]; !ok {
			return nil, fmt.Sprintf("column %q is missing", c)
		}
	}
	return at, ""
}

// readRating reads one row.
func readRating(record []string, at map[string]int, own []laminate.BarrierBuild) (laminate.Rating, error) {
	var r laminate.Rating
	if len(record) != len(at) {
		return r, fmt.Errorf("it has %d fields, the first line names %d columns", len(record), len(at))
	}
	field := map[string]string{}
	for _, c := range ratingColumns {
		v := strings.TrimSpace(record[at[c]])
		switch bad, is := word.BadCharacter(v, false); {
		case v == "":
			return r, fmt.Errorf("%s is missing", c)
		case len(v) > longestField:
			return r, fmt.Errorf("%s is longer than %d bytes", c, longestField)
		case is:
			return r, fmt.Errorf("%s has the control character %U", c, bad)
		}
		field[c] = v
	}
	r.Fluid, r.Grade, r.Source, r.Date = field["fluid"], field["grade"], field["source"], field["date"]
	var err error
	if r.Concentration, err = shares(field["concentration"]); err != nil {
		return r, fmt.Errorf("concentration: %w", err)
	}
	if err = quantity.Read(&r.MaxTemperature, field["temperature"]); err != nil {
		return r, fmt.Errorf("temperature: %w", err)
	}
	if t := r.MaxTemperature.SI(); !(t > 0 && t < 2000) {
		return r, fmt.Errorf("temperature: %q is beyond reason", shortened(field["temperature"]))
	}
	var ok bool
	if r.Family, ok = laminate.Families.Parse(strings.ToLower(field["family"])); !ok {
		return r, fmt.Errorf("family: no resin family is called %q", shortened(field["family"]))
	}
	if r.Build = field["build"]; !catalog.KnownBuild(r.Build, own) {
		return r, fmt.Errorf("build: %q, %q or the id of a build of the shop book is expected, not %q", catalog.SingleBuild.Name, catalog.DoubleBuild.Name, shortened(r.Build))
	}
	return r, nil
}

// shares reads a share, a percentage, or a range of either.
func shares(text string) ([2]float64, error) {
	bad := fmt.Errorf("%q is no share from 0 to 1, percentage or range of them", shortened(text))
	t := strings.NewReplacer(" to ", "|", "–", "|", "-", "|").Replace(text)
	parts := strings.Split(t, "|")
	if len(parts) > 2 {
		return [2]float64{}, bad
	}
	percent := strings.Contains(parts[len(parts)-1], "%")
	var ends [2]float64
	for i, p := range parts {
		p = strings.TrimSpace(p)
		number, had := strings.CutSuffix(p, "%")
		v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		if err != nil || math.IsNaN(v) || strings.ContainsAny(number, "xXpP_") || had && !percent {
			return ends, bad
		}
		if percent {
			v /= 100
		}
		if !(v >= 0 && v <= 1) {
			return ends, bad
		}
		ends[i] = v
	}
	if len(parts) == 1 {
		ends[1] = ends[0]
	}
	if ends[0] > ends[1] {
		return ends, fmt.Errorf("%q descends", shortened(text))
	}
	return ends, nil
}

func shortened(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}
