package acceptance

import (
	"cmp"
	"fmt"
	"strings"

	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/laid"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/rules/acceptance/holdpoint"
	"frp/veilwright/rules/conformance"
)

const byPractice = inspection.ByPractice

// demandsLayup tells whether every ply must be ticked.
func (j *judge) demandsLayup() bool {
	return j.Specification != nil && j.Specification.Inspection.LayupRecord.Or(false)
}

// layup judges the ticks: order, skipped, twice, gel stops, lots.
func (j *judge) layup() {
	total := j.Report.Analysis.Total.Plies
	times := make(map[int]int, total)
	var disorder, twice, strange []int
	// Order is that of laying: of a part laid from the outside its last ply is the first.
	order := j.laying()
	highest, ticks := -1, 0
	backwards := false
	var before *record.Laid
	for i := range j.Record.Laid {
		t := &j.Record.Laid[i]
		if t.Struck {
			continue
		}
		ticks++
		if t.Ply < 1 || t.Ply > total {
			strange = append(strange, t.Ply)
			continue
		}
		if times[t.Ply]++; times[t.Ply] == 2 {
			twice = append(twice, t.Ply)
		}
		if order.At(t.Ply) < highest && times[t.Ply] == 1 {
			disorder = append(disorder, t.Ply)
		}
		highest = max(highest, order.At(t.Ply))
		if before != nil && !t.At.IsZero() && !before.At.IsZero() && t.At.Before(before.At) {
			backwards = true
		}
		before = t
	}
	var skipped, missing []int
	for k, n := range order.Plies {
		if times[n] > 0 {
			continue
		}
		if k < highest {
			skipped = append(skipped, n)
		} else {
			missing = append(missing, n)
		}
	}
	if ticks > 0 {
		l := Line{Key: "record.order", Demand: "plies laid in the schedule's order, each once", Found: quantity.Counted(ticks, "ply checked off", "plies checked off"), Basis: "the schedule"}
		for _, c := range []struct {
			list []int
			text string
		}{{strange, "plies that are not in the schedule"}, {skipped, "skipped"}, {disorder, "out of order"}, {twice, "twice"}} {
			if len(c.list) > 0 {
				l.Verdict, l.Found = Fails, c.text+": "+conformance.Plies(c.list)
				l.Plies = c.list
				break
			}
		}
		if l.Verdict == Meets && len(missing) > 0 {
			// Part of an order is not the order: what is missing may still come out of it.
			l.Verdict, l.Plies = Incomplete, missing
			l.Found = fmt.Sprintf("%d of %s checked off, in order so far", total-len(missing), quantity.Counted(total, "ply", "plies"))
		}
		j.add(l)
	}
	j.deviations()
	j.hasty()
	if backwards {
		j.add(Line{Key: "record.time", Demand: "times in order", Found: "the clock goes back between two plies",
			Verdict: Incomplete, Basis: byPractice})
	}
	open := append(skipped, missing...)
	l := Line{Key: "record.laid", Demand: "every ply checked off", Found: "all " + quantity.Counted(total, "ply", "plies"), Plies: open, Basis: "the schedule"}
	if j.demandsLayup() {
		l.Key, l.Basis = "inspection.layup_record", conformance.BySpecification
	}
	if len(open) > 0 {
		// A tick that is missing may still come: it contradicts nothing. But a part
		// whose plies nobody saw laid is not accepted, whoever required a record.
		l.Verdict, l.Found = Incomplete, "not checked off: "+conformance.Plies(open)
	}
	if total == 0 {
		l.Verdict, l.Found = Incomplete, "the schedule has no ply"
	}
	if j.demandsLayup() || len(open) > 0 {
		j.add(l)
	}
	j.gelStops(times)
	j.lots()
}

// deviations names the plies that were laid otherwise than the schedule has them.
// Another material or number of plies is not the laminate that was specified: it
// fails until somebody disposes of it. What lap is required no schedule says, so
// that another one is for the inspector to settle.
func (j *judge) deviations() {
	var fails, asks []string
	var at []int
	for i := range j.Record.Laid {
		t := &j.Record.Laid[i]
		row := laid.RowOf(j.Report.Analysis, t.Ply)
		if t.Struck || row < 0 {
			continue
		}
		said := t.Deviations(j.Report.Schedule.Plies[row].Material, j.Units)
		if len(said) == 0 {
			continue
		}
		at = append(at, t.Ply)
		text := fmt.Sprintf("ply %d: %s", t.Ply, strings.Join(said, ", "))
		if len(said) == 1 && t.Lap.Given() {
			asks = append(asks, text)
		} else {
			fails = append(fails, text)
		}
	}
	if at == nil {
		return
	}
	l := Line{Key: "record.deviation", Demand: "every ply laid as the schedule has it", Verdict: Fails, Found: strings.Join(append(fails, asks...), "; "), Plies: at, Basis: "the schedule"}
	if fails == nil {
		l.Verdict = Incomplete
	}
	j.add(l)
}

// hasty asks about plies checked off within seconds of the one before. A remark
// on the later one answers.
func (j *judge) hasty() {
	var asked, answered []int
	var before *record.Laid
	for i := range j.Record.Laid {
		t := &j.Record.Laid[i]
		if t.Struck {
			continue
		}
		if before != nil && before.Ply != t.Ply && !t.At.IsZero() && !before.At.IsZero() {
			switch since := t.At.Sub(before.At); {
			case since < 0 || since >= holdpoint.TooSoon:
			case t.Remark != "":
				answered = append(answered, t.Ply)
			default:
				asked = append(asked, t.Ply)
			}
		}
		before = t
	}
	if len(answered) > 0 {
		j.note("checked off within seconds of the ply before, with a remark: " + conformance.Plies(answered))
	}
	if len(asked) > 0 {
		j.add(Line{Key: "record.pace", Demand: "plies checked off as they are laid", Plies: asked, Verdict: Incomplete, Basis: byPractice,
			Found: "within seconds of the ply before, without a remark that says why: " + conformance.Plies(asked)})
	}
}

// laying is the order in which the plies are laid.
func (j *judge) laying() laid.Order {
	r := j.Report
	return holdpoint.Order(r)
}

// gelStops judges whether each stop was waited out: the ply that stops has a
// gel time, and the next one came later by as much as it says. The mix was made
// after the ply before the stop, at the latest when the stop's own ply began, so
// that from the one before to the one after there is at least the gel time.
func (j *judge) gelStops(times map[int]int) {
	laid := make(map[int]*record.Laid, len(times))
	for i := range j.Record.Laid {
		if t := &j.Record.Laid[i]; !t.Struck {
			laid[t.Ply] = t
		}
	}
	var untold, early, short []int
	stops := 0
	order := j.laying()
	for k, n := range order.Plies {
		if !order.Stops[k+1] || k+1 == len(order.Plies) {
			continue
		}
		after := order.Plies[k+1]
		here, next := laid[n], laid[after]
		if here == nil || next == nil {
			continue
		}
		stops++
		gel, known := here.Gel()
		since := here
		if k > 0 {
			if before := laid[order.Plies[k-1]]; before != nil && !before.At.IsZero() {
				since = before
			}
		}
		switch {
		case !here.At.IsZero() && !next.At.IsZero() && !next.At.After(here.At):
			early = append(early, after)
		case !known:
			untold = append(untold, n)
		case since != here && !next.At.IsZero() && next.At.Sub(since.At) < gel:
			short = append(short, n)
		}
	}
	if stops == 0 {
		return
	}
	l := Line{Key: "record.gel", Demand: "gel stops observed", Found: quantity.Counted(stops, "stop", "stops") + " with a gel time", Basis: "the schedule"}
	switch {
	case len(early) > 0:
		l.Verdict, l.Found, l.Plies = Fails, "laid before the ply under it had gelled: "+conformance.Plies(early), early
	case len(short) > 0:
		l.Verdict, l.Found, l.Plies = Incomplete, "the gel time recorded is longer than the time from the ply before to the ply after: "+conformance.Plies(short), short
	case len(untold) > 0:
		l.Verdict, l.Found, l.Plies = Incomplete, "no gel time above 0 for "+conformance.Plies(untold), untold
	}
	j.add(l)
}

func (j *judge) lots() {
	var none []int
	for i := range j.Record.Laid {
		if t := &j.Record.Laid[i]; !t.Struck && (t.MaterialLot == "" || t.ResinLot == "") {
			none = append(none, t.Ply)
		}
	}
	switch {
	case len(none) == 0:
	case j.demandsLayup():
		j.add(Line{Key: "record.lots", Demand: "material and resin lots of every ply", Found: "a lot is missing for " + conformance.Plies(none),
			Verdict: Incomplete, Basis: byPractice, Plies: none})
	default:
		j.note("a lot is missing for " + conformance.Plies(none))
	}
}

// climate notes air and surface at each tick that tells them: no specification
// has a key that requires limits of them.
func (j *judge) climate() {
	var wet, cold, humid, untold []int
	told := 0
	for i := range j.Record.Laid {
		t := &j.Record.Laid[i]
		if t.Struck {
			continue
		}
		if !t.AirTemperature.Given() || !t.Humidity.Given || !t.SurfaceTemperature.Given() {
			untold = append(untold, t.Ply)
			continue
		}
		told++
		air, surface := t.AirTemperature.In(quantity.Celsius), t.SurfaceTemperature.In(quantity.Celsius)
		dew, err := inspection.DewPoint(air, t.Humidity.Value)
		switch {
		case err != nil:
			untold = append(untold, t.Ply)
		case quantity.Below(surface, dew+inspection.DewPointMargin):
			wet = append(wet, t.Ply)
		}
		if quantity.Below(air, inspection.LowestAir) {
			cold = append(cold, t.Ply)
		}
		if quantity.Above(t.Humidity.Value, inspection.HighestHumidity) {
			humid = append(humid, t.Ply)
		}
	}
	if len(untold) > 0 {
		j.note("ambient conditions not recorded for " + conformance.Plies(untold))
	}
	if told == 0 {
		return
	}
	for _, c := range []struct {
		limit, basis string
		bad          []int
	}{
		{"surface at least " + j.Units.Figure(inspection.DewPointMargin, quantity.Rise) + " above the dew point", inspection.ByDewPoint, wet},
		{"air at least " + j.Units.Temperature(inspection.LowestAir+273.15), byPractice, cold},
		{"relative humidity at most " + quantity.Share(inspection.HighestHumidity), byPractice, humid},
	} {
		found := "met at " + quantity.Counted(told, "ply", "plies")
		if len(c.bad) > 0 {
			found = "not met at " + conformance.Plies(c.bad)
		}
		j.note(c.limit + ": " + found + "; not required (" + c.basis + ")")
	}
}

// decisions notes what was signed. A rejection that stands last fails, whatever
// the readings say; one that was answered by a retest, a repair or a concession
// stays listed.
func (j *judge) decisions() {
	var rejected *record.Decision
	for i := range j.Record.Decisions {
		d := &j.Record.Decisions[i]
		if d.Struck {
			continue
		}
		when := "date not recorded"
		if !d.At.IsZero() {
			when = d.At.Format("2006-01-02")
		}
		signed := "signed: " + d.Outcome.String() + ", " + cmp.Or(d.Who, "name not recorded")
		if d.Role != "" {
			signed += " (" + d.Role + ")"
		}
		j.note(signed + ", " + when + record.Because(d.Why))
		if d.Outcome == record.Reject {
			rejected = d
		}
	}
	j.later()
	if rejected == nil {
		return
	}
	l := Line{Key: keyDecision, Demand: "every signed rejection answered", Found: "rejected" + record.By(rejected.Who) + record.Because(rejected.Why),
		Verdict: Fails, Basis: byRecord}
	for i := range j.Record.Dispositions {
		d := &j.Record.Dispositions[i]
		if !d.Struck && d.Number > rejected.Number && d.Action != record.Scrap && (d.Action != record.UseAsIs || conceded(d)) {
			l.Verdict, l.Found = Meets, fmt.Sprintf("%s; answered in entry %d: %s", l.Found, d.Number, disposedText(d))
			break
		}
	}
	j.add(l)
}
