package cli

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/rules"
	"frp/veilwright/schedules"
	"frp/veilwright/schedules/shop"
)

// The documents that every record of this folder is held against.
const (
	acceptanceFolder = "../../../testdata/acceptance"
	shell            = "tank-shell.toml"
	shellDemands     = "specification.toml"
)

// specimen is the record of a tank shell on which everything is as it has to be,
// before it is sealed: each way of failing changes one thing of it.
type specimen struct {
	head      *record.Record
	ticks     []*record.Laid
	gelled    *record.Hold
	cured     *record.PostCure
	gauges    []*record.Instrument // of thickness, hardness, pressure and temperature
	wall      []*record.Reading    // thickness at A1, A1, B2, B2
	barrier   *record.Reading      // thickness at a cutout
	structure *record.Reading
	hard      []*record.Reading // Barcol at A1, A1, B2, B2
	burned    *record.Reading   // ignition loss of the barrier
	wiped     []*record.Reading // acetone at A1, B2
	looked    *record.Reading   // by eye
	sizes     []*record.Dimension
	water     *record.Hydrotest

	entries []record.Any                    // all of them, in the order in which they are entered
	of      map[record.Any]record.Any       // what a strike or a disposition is about
	tail    string                          // behind all entries, as a power cut or a hand leaves it
	tamper  func(entries []string) []string // what somebody did to the file
	last    time.Time
}

func mils(v float64) quantity.Length { return quantity.New(v, quantity.Mil).Spelled(quantity.Mil) }
func inch(v float64) quantity.Length { return quantity.New(v, quantity.Inch).Spelled(quantity.Inch) }
func fahrenheit(v float64) quantity.Temperature {
	return quantity.New(v, quantity.Fahrenheit).Spelled(quantity.Fahrenheit)
}
func psi(v float64) quantity.Pressure { return quantity.New(v, quantity.PSI).Spelled(quantity.PSI) }
func grams(v float64) quantity.Mass   { return quantity.New(v, quantity.Gram).Spelled(quantity.Gram) }

// later is what an entry has that somebody makes some minutes after the one before.
func (s *specimen) later(minutes int, who, role string) record.Entry {
	s.last = s.last.Add(time.Duration(minutes) * time.Minute)
	return record.Entry{At: s.last, Who: who, Role: role}
}

// newSpecimen is the sound one. Its readings are invented; they lie where the
// schedule computes them.
func newSpecimen(t *testing.T, schedule, serial string) *specimen {
	t.Helper()
	path := filepath.Join(acceptanceFolder, schedule)
	o := shop.New(shop.Options{}).Read(path)
	if !o.Usable() {
		t.Fatal(o.Why())
	}
	judged := o.Judge(rules.Options{})
	prints := schedules.Fingerprint(o.Schedule, judged.Analysis, o.Library)
	s := &specimen{of: map[record.Any]record.Any{}, last: time.Date(2026, 3, 2, 7, 0, 0, 0, time.UTC),
		head: &record.Record{Schedule: schedule, ScheduleRevision: o.Schedule.Revision, ScheduleFingerprint: prints.Schedule, Serial: serial}}
	for n, print := range prints.Plies {
		tick := &record.Laid{Entry: s.later(25, "early shift", "laminator"), Ply: n + 1, Fingerprint: print, MaterialLot: "M-118", ResinLot: "R-40",
			Initiator: laminate.Some(0.015), AirTemperature: fahrenheit(68), Humidity: laminate.Some(0.55), SurfaceTemperature: fahrenheit(66)}
		if n+1 == 3 || n+1 == 6 {
			tick.GelTime = "20 min"
		}
		s.ticks = append(s.ticks, tick)
		s.entries = append(s.entries, tick)
		if n+1 == 3 {
			s.gelled = &record.Hold{Entry: s.later(40, "inspector one", "inspector"), Point: "barrier gelled", Passed: laminate.Some(true), Witness: "purchaser's inspector"}
			s.entries = append(s.entries, s.gelled)
		}
	}
	by := func() record.Entry { return s.later(1, "inspector one", "inspector") }
	s.later(18*60, "", "")
	for _, x := range [][2]string{{"T-7", "thickness gauge"}, {"H-2", "Barcol impressor"}, {"P-12", "pressure gauge"}, {"L-3", "temperature logger"}} {
		s.gauges = append(s.gauges, &record.Instrument{Entry: by(), Instrument: x[0], What: x[1], Calibrated: s.last.Truncate(24*time.Hour).AddDate(0, -2, 0), Due: s.last.Truncate(24*time.Hour).AddDate(0, 10, 0)})
	}
	s.cured = &record.PostCure{Entry: s.later(240, "inspector one", "inspector"), Temperature: fahrenheit(160), Held: "3 h", Instrument: "L-3"}
	for i, v := range []float64{338, 342, 351, 347} {
		s.wall = append(s.wall, &record.Reading{Entry: by(), Kind: inspection.WallThickness, Place: []string{"A1", "A1", "B2", "B2"}[i], Thickness: mils(v), Instrument: "T-7"})
	}
	s.barrier = &record.Reading{Entry: by(), Kind: inspection.WallThickness, Place: "cutout 1", Group: inspection.Barrier, Thickness: mils(112), Instrument: "T-7"}
	s.structure = &record.Reading{Entry: by(), Kind: inspection.WallThickness, Place: "cutout 1", Group: inspection.StructuralLayer, Thickness: mils(221), Instrument: "T-7"}
	for i, v := range []float64{34, 36, 33, 35} {
		s.hard = append(s.hard, &record.Reading{Entry: by(), Kind: inspection.Barcol, Place: []string{"A1", "A1", "B2", "B2"}[i], Side: spec.ProcessSide, Value: v, Instrument: "H-2"})
	}
	s.burned = &record.Reading{Entry: by(), Kind: inspection.IgnitionLoss, Place: "cutout 1", Group: inspection.Barrier, Before: grams(5.02), After: grams(1.27), Instrument: "T-7"}
	for _, place := range []string{"A1", "B2"} {
		s.wiped = append(s.wiped, &record.Reading{Entry: by(), Kind: inspection.Acetone, Place: place, Side: spec.ProcessSide, Clean: true})
	}
	s.looked = &record.Reading{Entry: by(), Kind: inspection.Visual, Place: "A1", Side: spec.ProcessSide}
	for _, place := range []string{"top", "bottom"} {
		s.sizes = append(s.sizes, &record.Dimension{Entry: by(), What: spec.InsideDiameter, Place: place, Value: inch(36.02), Instrument: "T-7"})
	}
	s.water = &record.Hydrotest{Entry: s.later(120, "inspector one", "inspector"), Medium: record.Water, Pressure: psi(1.5), Held: "1 h", Leaks: laminate.Some(0), Instrument: "P-12", Witness: "purchaser's inspector"}
	s.enter(each(s.gauges)...)
	s.enter(s.cured)
	s.enter(each(s.wall)...)
	s.enter(s.barrier, s.structure)
	s.enter(each(s.hard)...)
	s.enter(s.burned)
	s.enter(each(s.wiped)...)
	s.enter(s.looked)
	s.enter(each(s.sizes)...)
	s.enter(s.water)
	return s
}

func each[T record.Any](list []T) []record.Any {
	var entries []record.Any
	for _, x := range list {
		entries = append(entries, x)
	}
	return entries
}

// enter adds entries at the end.
func (s *specimen) enter(entries ...record.Any) { s.entries = append(s.entries, entries...) }

// drop leaves entries out that were never made.
func (s *specimen) drop(entries ...record.Any) {
	s.entries = slices.DeleteFunc(s.entries, func(e record.Any) bool { return slices.Contains(entries, e) })
}

// afterwards is one more entry by the inspector.
func (s *specimen) afterwards() record.Entry { return s.later(30, "inspector one", "inspector") }

// found enters a defect.
func (s *specimen) found(d record.Defect) *record.Defect {
	d.Entry = s.afterwards()
	s.enter(&d)
	return &d
}

// disposes enters what becomes of an entry.
func (s *specimen) disposes(of record.Any, action record.Action, role, why string) {
	d := &record.Disposition{Entry: s.later(30, "engineer one", role), Action: action, Why: why}
	if action == record.Repair {
		d.Procedure = "RP-4"
	}
	s.of[d] = of
	s.enter(d)
}

// concedes enters the purchaser's concession of a requirement as a whole.
func (s *specimen) concedes(requirement, role string) {
	s.enter(&record.Disposition{Entry: s.later(30, "buyer one", role), Requirement: requirement, Action: record.UseAsIs, Why: "letter of 12 March"})
}

// strikes takes an entry back.
func (s *specimen) strikes(of record.Any, why string) *record.Struck {
	x := &record.Struck{Entry: s.afterwards(), Why: why}
	s.of[x] = of
	s.enter(x)
	return x
}

// signs enters a decision on what the record comes to by then.
func (s *specimen) signs(o record.Outcome, why string) *record.Decision {
	d := &record.Decision{Entry: s.afterwards(), Outcome: o, Why: why}
	s.enter(d)
	return d
}

// again is a reading taken once more, afterwards.
func (s *specimen) again(r *record.Reading, change func(*record.Reading)) {
	one := *r
	one.Entry = s.afterwards()
	change(&one)
	s.enter(&one)
}

// text is the record as the program writes it, then as whoever tampered left it.
func (s *specimen) text(t *testing.T, says string) []byte {
	t.Helper()
	head := string(schedules.RecordHead(s.head))
	r, _, problems := schedules.DecodeRecord([]byte(head))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	parts, last := []string{"# " + says + "\n" + head}, r.Trail.Last
	for i, e := range s.entries {
		if of := s.of[e]; of != nil {
			switch x := e.(type) {
			case *record.Struck:
				x.OfID = of.Head().ID
			case *record.Disposition:
				x.OfID = of.Head().ID
			}
		}
		if d, ok := e.(*record.Decision); ok {
			d.Covers = laminate.Some(i)
			d.Schedule = s.head.ScheduleFingerprint
			specification, verdict := s.comesTo(t, strings.Join(parts, ""))
			d.Verdict = verdict
			if d.Specification == "" {
				d.Specification = specification
			}
		}
		parts = append(parts, string(schedules.SealEntry(e, last)))
		last = record.Next(last, e.Head().Content)
	}
	if s.tamper != nil {
		parts = s.tamper(parts)
	}
	return []byte(strings.Join(parts, "") + s.tail)
}

// comesTo asks the command line what a record comes to so far.
func (s *specimen) comesTo(t *testing.T, text string) (specification, verdict string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "so-far.toml")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	o := shop.New(shop.Options{}).Read(filepath.Join(acceptanceFolder, shellDemands))
	if !o.Usable() {
		t.Fatal(o.Why())
	}
	got, _ := compared(t, filepath.Join(acceptanceFolder, s.head.Schedule), shellDemands, path)
	return schedules.SpecificationFingerprint(o.Specification, nil), got.Verdict
}

// comparison is what is looked at of compare --json.
type comparison struct {
	Error *string
	Lines []struct{ Key, Verdict, Found string }
	Notes []string

	Verdict string
}

// not gives the worst verdict of each key that is not met.
func (c *comparison) not() map[string]string {
	keys := map[string]string{}
	for _, l := range c.Lines {
		if l.Verdict != "meets" && keys[l.Key] != "fails" {
			keys[l.Key] = l.Verdict
		}
	}
	return keys
}

func compared(t *testing.T, schedule, demands, record string, flags ...string) (comparison, Code) {
	t.Helper()
	out, said, code := run(append([]string{"compare", "--json", schedule, filepath.Join(acceptanceFolder, demands), record}, flags...)...)
	var c comparison
	unmarshal(t, out, said, &c)
	return c, code
}

func unmarshal(t *testing.T, out, said string, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(out), into); err != nil {
		t.Fatalf("%v: %s%s", err, out, said)
	}
}

// verified is what is looked at of verify --json.
type verified struct {
	Breaks []struct {
		Entry int
		Why   string
	}
	Unsealed []int
	Loose    []int `json:"not_joined"`
	Verdict  string
}

// entry gives where an entry stands among the parts of a file, whose first is the head.
func (s *specimen) entry(e record.Any) int {
	at := slices.Index(s.entries, e)
	if at < 0 {
		panic(fmt.Sprintf("no entry %v", e))
	}
	return at + 1
}
