package acceptance

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
)

// squareFoot is the area defects are counted in unless the limit names another, m².
const squareFoot = 0.09290304

// visual asks whether anybody looked: no limit of a defect is met by a record
// that says nothing.
func (j *judge) visual() {
	sides := map[spec.Side]bool{}
	for _, l := range j.limits() {
		sides[l.Side] = true
	}
	if len(sides) == 0 {
		return
	}
	for _, side := range bothSides {
		if !sides[side] && !sides[spec.EitherSide] {
			continue
		}
		l := Line{Key: "inspection.visual", Demand: "examined by eye" + onSide(side), Verdict: Incomplete, Found: "no examination recorded",
			Basis: "the specification's limits of defects"}
		if r := j.examination(side); r != nil {
			l.Verdict, l.Found = Meets, "examined"+record.By(r.Who)
		}
		j.add(l)
	}
}

var bothSides = []spec.Side{spec.ProcessSide, spec.OutsideFace}

// examination is the last of a side by eye that stands, nil for none; one that names
// no side is of both.
func (j *judge) examination(side spec.Side) (last *record.Reading) {
	for _, r := range j.valid(inspection.Visual) {
		if r.Side == side || r.Side == spec.EitherSide {
			last = r
		}
	}
	return last
}

// unexamined says that nobody looked at a side that a limit is of, "" where somebody did.
func (j *judge) unexamined(limit spec.Side) string {
	var not []string
	for _, side := range bothSides {
		if (limit == side || limit == spec.EitherSide) && j.examination(side) == nil {
			not = append(not, onSide(side))
		}
	}
	if not == nil {
		return ""
	}
	return "no examination by eye recorded" + strings.Join(not, " and")
}

// found is what was seen of one kind at one place on one side, added up.
type found struct {
	first record.Defect // with the largest size and depth of all
	count int
	area  float64 // m², 0 where none was recorded

	noSize, noDepth bool // of one of them
}

// defects judges what was seen against the limits agreed.
func (j *judge) defects() {
	limits := j.limits()
	all := j.openDefects()
	j.level()
	for i := range limits {
		limit := &limits[i]
		l := Line{Key: keyDefect, Demand: j.defectDemand(&limit.DefectLimit), Found: "none over the limit"}
		if limit.Level != "" {
			l.Basis = "acceptance level " + limit.Level + " as the shop's book states it" + record.Because(limit.Source)
		}
		seen := false
		for k := range all {
			if f := &all[k]; limited(&limit.DefectLimit, &f.first) {
				seen = true
				if v, text := j.defect(&limit.DefectLimit, f); v > l.Verdict {
					l.Verdict, l.Found = v, text
				}
			}
		}
		// What nobody looked for is not within its limit for being in no record.
		if why := j.unexamined(limit.Side); why != "" && l.Verdict == Meets {
			if l.Verdict = Incomplete; seen {
				why = "of those recorded none over the limit, and " + why
			}
			l.Found = why
		}
		j.add(l)
	}
	for k := range all {
		d := &all[k].first
		any := false
		for i := range limits {
			any = any || limited(&limits[i].DefectLimit, d)
		}
		if !any {
			// Nobody agreed on a limit, so that it cannot reject; but somebody has to
			// say what becomes of it.
			j.add(Line{Key: keyNonconformance, Demand: "a limit, or a disposition, for each defect seen", Verdict: Incomplete, Basis: byPractice,
				Found: fmt.Sprintf("%s: the specification sets no limit%s", seenAt(d), onSide(d.Side))})
		}
	}
}

// limits are those that the specification states itself, and those of the acceptance
// level that it names, as far as it does not state its own of the same kind and side.
func (j *judge) limits() []spec.LevelLimit {
	d := j.inspectionDemands()
	var all []spec.LevelLimit
	for _, own := range d.Defects {
		all = append(all, spec.LevelLimit{DefectLimit: own})
	}
	for _, l := range spec.OfLevel(d.AcceptanceLevel, j.Levels) {
		if !slices.ContainsFunc(d.Defects, func(own spec.DefectLimit) bool { return own.Kind == l.Kind && own.Side == l.Side }) {
			all = append(all, l)
		}
	}
	return all
}

// level asks for the limits of the acceptance level that is named: nobody knows what
// a level means by its name alone, and this program holds no standard's tables.
func (j *judge) level() {
	level := j.inspectionDemands().AcceptanceLevel
	if level == "" {
		return
	}
	l := Line{Key: "inspection.acceptance_level", Demand: "the limits of acceptance level " + level + " stated", Found: "in the shop's book"}
	if len(spec.OfLevel(level, j.Levels)) == 0 {
		l.Verdict, l.Found = Incomplete, "no shop book states the limits of level "+level+" (its [[level]] rows), and this program holds no standard's tables of them"
	}
	j.add(l)
}

func limited(limit *spec.DefectLimit, d *record.Defect) bool {
	return limit.Kind == d.Kind && (limit.Side == spec.EitherSide || d.Side == spec.EitherSide || d.Side == limit.Side)
}

func onSide(s spec.Side) string {
	switch s {
	case spec.ProcessSide:
		return " on the process side"
	case spec.OutsideFace:
		return " on the outside"
	case spec.EitherSide:
	}
	return ""
}

func seenAt(d *record.Defect) string {
	return fmt.Sprintf("%s at %s", d.Kind, cmp.Or(d.Place, "a place not recorded"))
}

// openDefects adds up what no disposition has closed, by kind, side and place.
func (j *judge) openDefects() []found {
	var all []found
	at := map[string]int{}
	for k := range j.Record.Defects {
		d := &j.Record.Defects[k]
		if d.Struck || j.closed(d) {
			continue
		}
		key := d.Kind.String() + "\x00" + d.Side.String() + "\x00" + strings.ToLower(strings.TrimSpace(d.Place))
		i, ok := at[key]
		if !ok {
			i = len(all)
			at[key] = i
			all = append(all, found{first: *d})
		}
		f := &all[i]
		f.count += max(1, d.Count)
		f.area = max(f.area, d.Area.SI())
		f.noSize, f.noDepth = f.noSize || !d.Size.Given(), f.noDepth || !d.Depth.Given()
		if d.Size.Given() && (!f.first.Size.Given() || d.Size.Cmp(f.first.Size) > 0) {
			f.first.Size = d.Size
		}
		if d.Depth.Given() && (!f.first.Depth.Given() || d.Depth.Cmp(f.first.Depth) > 0) {
			f.first.Depth = d.Depth
		}
	}
	return all
}

func (j *judge) defectDemand(l *spec.DefectLimit) string {
	text := l.Kind.String() + onSide(l.Side)
	if l.SizeMax.Given() {
		text += ", at most " + j.size(l.SizeMax)
	}
	if l.DepthMax.Given() {
		text += ", at most " + j.size(l.DepthMax) + " deep"
	}
	if l.PerAreaMax.Given {
		area := j.Units.Figure(squareFoot, quantity.Surface)
		if l.Area.Given() {
			area = l.Area.TextFor(j.Units, j.Units.Surface())
		}
		text += fmt.Sprintf(", at most %d on %s", l.PerAreaMax.Value, area)
	}
	return text
}

// size prints a small measure as it was written, or in the reader's units.
func (j *judge) size(q quantity.Length) string { return q.TextFor(j.Units, j.Units.Size()) }

func (j *judge) defect(limit *spec.DefectLimit, f *found) (Verdict, string) {
	d := &f.first
	where := cmp.Or(d.Place, "a place not recorded")
	switch {
	case limit.SizeMax.Given() && d.Size.Given() && d.Size.Cmp(limit.SizeMax) > 0:
		return Fails, j.size(d.Size) + " at " + where
	case limit.DepthMax.Given() && d.Depth.Given() && d.Depth.Cmp(limit.DepthMax) > 0:
		return Fails, j.size(d.Depth) + " deep at " + where
	}
	if limit.PerAreaMax.Given && f.count > limit.PerAreaMax.Value {
		allowed := squareFoot
		if limit.Area.Given() {
			allowed = limit.Area.SI()
		}
		// On no more than the limit's area, or thicker sown than it over more of
		// it: too many somewhere. Else nobody knows how they lie.
		if quantity.Above(f.area, allowed) && !quantity.Above(float64(f.count)/f.area, float64(limit.PerAreaMax.Value)/allowed) {
			return Incomplete, fmt.Sprintf("%d at %s, on more than the area of the limit: how many lie within it was not recorded", f.count, where)
		}
		return Fails, fmt.Sprintf("%d at %s", f.count, where)
	}
	switch {
	case limit.SizeMax.Given() && f.noSize:
		return Incomplete, "size not recorded at " + where
	case limit.DepthMax.Given() && f.noDepth:
		return Incomplete, "depth not recorded at " + where
	}
	return Meets, ""
}
