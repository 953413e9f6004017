package cli

import (
	"bytes"
	"cmp"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	gocmp "github.com/google/go-cmp/cmp"

	"frp/veilwright/laminate"
	"frp/veilwright/laminate/inspection"
	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
	"frp/veilwright/schedules"
)

// way is one thing that can be wrong with a record, or right in spite of it.
type way struct {
	file, says string
	do         func(*specimen)

	verdict string
	not     map[string]string // keys of lines that are not met, with their verdict
	notes   string            // a note has it
	verify  string            // "" is follows
	first   int               // the first entry that does not follow

	laidTo   string // another schedule than the shell's
	schedule string // what it is held against, another than it was laid to
	demands  string // another specification
	book     string // another than what lies beside it
}

type keys = map[string]string

const (
	fails      = "fails"
	incomplete = "incomplete"
)

// ways are all of them, the sound one first. One file each in testdata.
var ways = []way{
	{file: "sound", says: "everything laid, measured, tested and signed", verdict: "accept", notes: "signed: accept, inspector one (inspector)",
		do: func(s *specimen) {
			s.enter(&record.Specimen{Entry: s.afterwards(), Mark: "T-31/A", Place: "cutout 1", Kept: "shelf 4"},
				&record.Photograph{Entry: s.afterwards(), File: "t-31-inside.jpg", Shows: "inner surface"})
			s.signs(record.Accept, "")
		}},

	// Thickness.
	{file: "barrier-thin", says: "the barrier is too thin at the cutout", verdict: "reject", not: keys{"barrier.thickness measured": fails},
		do: func(s *specimen) { s.barrier.Thickness = mils(92) }},
	{file: "barrier-thick", says: "the barrier is too thick at the cutout: more resin than the structure was asked for", verdict: "reject", not: keys{"barrier.thickness measured": fails},
		do: func(s *specimen) { s.barrier.Thickness = mils(131) }},
	{file: "structure-thin", says: "the structure is too thin at the cutout, though the whole wall is thick enough", verdict: "reject", not: keys{"structure.thickness measured": fails},
		do: func(s *specimen) { s.structure.Thickness, s.barrier.Thickness = mils(185), mils(118) }},
	{file: "wall-thin", says: "the whole wall is too thin on the mean", verdict: "reject", not: keys{"total.thickness measured": fails},
		do: func(s *specimen) {
			for _, r := range s.wall {
				r.Thickness = mils(296)
			}
			s.structure.Thickness = mils(190)
		}},
	{file: "spot-thin", says: "one spot is too thin, though the mean is not", verdict: "reject", not: keys{"inspection.spot_minimum": fails},
		do: func(s *specimen) { s.wall[1].Thickness = mils(266) }},
	{file: "cutout-missing", says: "nobody measured the barrier at a cutout", verdict: incomplete, not: keys{"barrier.thickness measured": incomplete, "plan.thickness": incomplete},
		do: func(s *specimen) { s.drop(s.barrier) }},
	{file: "place-missing", says: "nobody measured thickness at B2", verdict: incomplete, not: keys{"plan.thickness": incomplete},
		do: func(s *specimen) { s.drop(s.wall[2], s.wall[3]) }},
	{file: "place-not-named", says: "a reading that nobody knows the place of", verdict: incomplete, not: keys{"plan.thickness": incomplete, "record.places": incomplete},
		do: func(s *specimen) { s.wall[3].Place = "" }},
	{file: "unit-mistaken", says: "thickness typed in another unit: far from what the schedule computes", verdict: incomplete, not: keys{"record.agreement": incomplete},
		do: func(s *specimen) {
			for _, r := range s.wall {
				r.Thickness = mils(r.Thickness.SI() / 0.0000254 * 2.54)
			}
		}},
	{file: "parts-too-thick", says: "barrier and structure come out thicker than the whole wall: one of them is of something else", verdict: incomplete, not: keys{"record.agreement": incomplete},
		do: func(s *specimen) { s.structure.Thickness = mils(318) }},

	{file: "parts-too-thin", says: "barrier and structure come out thinner than the whole wall: one of them is of something else", verdict: incomplete, not: keys{"record.agreement": incomplete},
		do: func(s *specimen) { s.structure.Thickness = mils(188) }},

	// Hardness, glass, cure, looks.
	{file: "barcol-low", says: "hardness is low at B2, though not on the mean of all places", verdict: "reject", not: keys{"inspection.barcol": fails},
		do: func(s *specimen) { s.hard[2].Value, s.hard[3].Value = 26, 25 }},
	{file: "barcol-place-missing", says: "nobody measured hardness at B2", verdict: incomplete, not: keys{"plan.barcol": incomplete},
		do: func(s *specimen) { s.drop(s.hard[2], s.hard[3]) }},
	{file: "barcol-outside", says: "hardness at B2 was measured on the outside, which says nothing of the barrier", verdict: incomplete, not: keys{"plan.barcol": incomplete, "inspection.barcol": incomplete},
		do: func(s *specimen) { s.hard[2].Side, s.hard[3].Side = spec.OutsideFace, spec.OutsideFace }},
	{file: "glass-low", says: "the barrier has too little glass", verdict: "reject", not: keys{"barrier.glass_content measured": fails},
		do: func(s *specimen) { s.burned.After = grams(0.93) }},
	{file: "glass-high", says: "the barrier has too much glass", verdict: "reject", not: keys{"barrier.glass_content measured": fails},
		do: func(s *specimen) { s.burned.After = grams(1.61) }},
	{file: "specimen-missing", says: "nobody burned a specimen of the barrier", verdict: incomplete, not: keys{"plan.ignition-loss": incomplete},
		do: func(s *specimen) { s.drop(s.burned) }},
	{file: "specimen-too-light", says: "a specimen of 0.2 g, which is none: nobody knows what the barrier holds", verdict: incomplete, not: keys{"barrier.glass_content measured": incomplete},
		do: func(s *specimen) { s.burned.Before, s.burned.After = grams(0.2), grams(0.05) }},
	{file: "plies-counted", says: "what is left of the specimen has the plies of the barrier", verdict: "accept",
		do: func(s *specimen) { s.burned.Plies = laminate.Some(3); s.signs(record.Accept, "") }},
	{file: "plies-counted-fewer", says: "what is left of the specimen has a ply less than the barrier", verdict: incomplete, not: keys{"record.plies_counted": incomplete},
		do: func(s *specimen) { s.burned.Plies = laminate.Some(2) }},
	{file: "acetone-tacky", says: "the surface is tacky under acetone", verdict: "reject", not: keys{"inspection.acetone": fails},
		do: func(s *specimen) { s.wiped[1].Clean = false }},
	{file: "acetone-softened", says: "the surface softens under acetone", verdict: "reject", not: keys{"inspection.acetone": fails},
		do: func(s *specimen) { s.wiped[0].Clean, s.wiped[0].Softened = false, true }},
	{file: "acetone-missing", says: "nobody wiped anything", verdict: incomplete, not: keys{"inspection.acetone": incomplete, "plan.acetone": incomplete},
		do: func(s *specimen) { s.drop(each(s.wiped)...) }},
	{file: "visual-missing", says: "nobody looked", verdict: incomplete, not: keys{"inspection.visual": incomplete, "inspection.defect": incomplete},
		do: func(s *specimen) { s.drop(s.looked) }},
	{file: "visual-outside-only", says: "somebody looked at the outside only", verdict: incomplete, not: keys{"inspection.visual": incomplete, "inspection.defect": incomplete},
		do: func(s *specimen) { s.looked.Side = spec.OutsideFace }},
	{file: "pit-too-large", says: "a pit is larger than the limit", verdict: "reject", not: keys{"inspection.defect": fails},
		do: func(s *specimen) {
			s.found(record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: inch(3. / 16), Place: "A1"})
		}},
	{file: "pits-too-many", says: "two entries of pits at one place, together more than the limit", verdict: "reject", not: keys{"inspection.defect": fails},
		do: func(s *specimen) {
			for range 2 {
				s.found(record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: inch(1. / 16), Count: 2, Place: "A1"})
			}
		}},
	{file: "crack", says: "a crack, of which none is let pass", verdict: "reject", not: keys{"inspection.defect": fails},
		do: func(s *specimen) {
			s.found(record.Defect{Kind: spec.Crack, Side: spec.ProcessSide, Size: inch(0.5), Place: "B2"})
		}},
	{file: "pit-not-measured", says: "a pit that nobody measured", verdict: incomplete, not: keys{"inspection.defect": incomplete},
		do: func(s *specimen) { s.found(record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Place: "B2"}) }},
	{file: "delamination-without-limit", says: "a delamination, for which nobody agreed on a limit and of which nobody disposed", verdict: incomplete, not: keys{"record.nonconformance": incomplete},
		do: func(s *specimen) {
			s.found(record.Defect{Kind: spec.Delamination, Side: spec.OutsideFace, Size: inch(6), Place: "B2"})
		}},

	{file: "level-not-stated", says: "held against an acceptance level of which no shop book states the limits", verdict: incomplete, demands: "specification-level.toml",
		not: keys{"inspection.acceptance_level": incomplete}, do: func(*specimen) {}},
	{file: "level-not-met", says: "held against an acceptance level of the shop's book: a blister over its limit", verdict: "reject", demands: "specification-level.toml", book: "levels-book.toml",
		not: keys{"inspection.defect": fails}, do: func(s *specimen) {
			s.found(record.Defect{Kind: spec.Blister, Side: spec.ProcessSide, Size: inch(0.3), Place: "B2"})
		}},

	// Lay-up.
	{file: "tick-missing", says: "the last ply was not checked off", verdict: incomplete, not: keys{"record.order": incomplete, "inspection.layup_record": incomplete},
		do: func(s *specimen) { s.drop(s.ticks[8]) }},
	{file: "ply-skipped", says: "ply 5 was not laid, and what follows it was", verdict: "reject", not: keys{"record.order": fails, "inspection.layup_record": incomplete},
		do: func(s *specimen) { s.drop(s.ticks[4]) }},
	{file: "ply-twice", says: "ply 5 was laid twice", verdict: "reject", not: keys{"record.order": fails},
		do: func(s *specimen) {
			one := *s.ticks[4]
			one.At = one.At.Add(10 * time.Minute)
			s.entries = slices.Insert(s.entries, s.entry(s.ticks[4]), record.Any(&one))
		}},
	{file: "ply-out-of-order", says: "ply 8 was laid before ply 7", verdict: "reject", not: keys{"record.order": fails},
		do: func(s *specimen) {
			a, b := s.ticks[6], s.ticks[7]
			a.Ply, b.Ply, a.Fingerprint, b.Fingerprint = b.Ply, a.Ply, b.Fingerprint, a.Fingerprint
		}},
	{file: "ply-of-another-material", says: "ply 5 was laid of another mat", verdict: "reject", not: keys{"record.deviation": fails},
		do: func(s *specimen) { s.ticks[4].Material = "mat-1.0" }},
	{file: "lap-otherwise", says: "ply 5 was laid with another lap, and no schedule says which is right", verdict: incomplete, not: keys{"record.deviation": incomplete},
		do: func(s *specimen) { s.ticks[4].Lap = inch(0.5) }},
	{file: "lot-missing", says: "nobody knows the resin lot of ply 5", verdict: incomplete, not: keys{"record.lots": incomplete},
		do: func(s *specimen) { s.ticks[4].ResinLot = "" }},
	{file: "gel-time-missing", says: "the ply that gels before the next has no gel time", verdict: incomplete, not: keys{"record.gel": incomplete},
		do: func(s *specimen) { s.ticks[5].GelTime = "" }},
	{file: "gel-not-waited-out", says: "the ply after the gel stop came sooner than the gel time", verdict: incomplete, not: keys{"record.gel": incomplete},
		do: func(s *specimen) { s.ticks[5].GelTime = "55 min" }},
	{file: "checked-off-together", says: "two plies checked off within seconds", verdict: incomplete, not: keys{"record.pace": incomplete},
		do: func(s *specimen) { s.ticks[7].At = s.ticks[6].At.Add(5 * time.Second) }},
	{file: "clock-goes-back", says: "a ply is dated an hour before the one before it", verdict: incomplete, not: keys{"record.time": incomplete},
		do: func(s *specimen) { s.ticks[7].At = s.ticks[6].At.Add(-time.Hour) }},
	{file: "dates-in-disorder", says: "readings are dated two years before the lay-up", verdict: incomplete, not: keys{"record.dates": incomplete, "inspection.calibrated": incomplete},
		do: func(s *specimen) { s.hard[3].At = s.hard[3].At.AddDate(-2, 0, 0) }},

	// Hold points, tests, dimensions, instruments, the serial number.
	{file: "hold-not-released", says: "laid past the hold point, which nobody released", verdict: "reject", not: keys{"inspection.hold": fails},
		do: func(s *specimen) { s.drop(s.gelled) }},
	{file: "hold-released-late", says: "the hold point was released after it had been laid past", verdict: "reject", not: keys{"inspection.hold": fails},
		do: func(s *specimen) {
			s.drop(s.gelled)
			s.gelled.At = s.ticks[8].At.Add(time.Minute)
			s.entries = slices.Insert(s.entries, s.entry(s.ticks[8]), record.Any(s.gelled))
		}},
	{file: "hold-released-early", says: "the hold point was released before the barrier under it was laid", verdict: incomplete, not: keys{"inspection.hold": incomplete},
		do: func(s *specimen) {
			s.drop(s.gelled)
			s.gelled.At = s.ticks[0].At.Add(-time.Minute)
			s.entries = slices.Insert(s.entries, s.entry(s.ticks[0])-1, record.Any(s.gelled))
		}},
	{file: "measured-before-it-was-laid", says: "the whole wall was measured before its last ply was laid", verdict: incomplete, not: keys{"record.sequence": incomplete},
		do: func(s *specimen) {
			last := s.ticks[len(s.ticks)-1]
			for _, r := range s.wall {
				s.drop(r)
				r.At = last.At.Add(-time.Minute)
				s.entries = slices.Insert(s.entries, s.entry(last)-1, record.Any(r))
			}
		}},
	{file: "struck-and-not-measured-again", says: "a reading below the limit was struck, and its place not measured again; others there stand", verdict: incomplete, not: keys{"record.struck": incomplete},
		do: func(s *specimen) {
			one := *s.wall[0]
			one.Entry, one.Thickness = s.afterwards(), mils(200)
			s.enter(&one)
			s.strikes(&one, "x")
		}},
	{file: "hold-refused", says: "the hold point was not passed", verdict: "reject", not: keys{"inspection.hold": fails},
		do: func(s *specimen) { s.gelled.Passed = laminate.Some(false) }},
	{file: "hold-without-witness", says: "the purchaser's inspector was not at the hold point", verdict: incomplete, not: keys{"inspection.hold": incomplete},
		do: func(s *specimen) { s.gelled.Witness = "" }},
	{file: "hydrotest-with-gas", says: "tested with air, which is never done", verdict: "unusable", verify: "unusable",
		do: func(s *specimen) { s.water.Medium = "air" }},
	{file: "hydrotest-missing", says: "not tested under water", verdict: incomplete, not: keys{"inspection.hydrotest": incomplete},
		do: func(s *specimen) { s.drop(s.water) }},
	{file: "hydrotest-low", says: "tested under less than is required", verdict: incomplete, not: keys{"inspection.hydrotest": incomplete},
		do: func(s *specimen) { s.water.Pressure = psi(1.4) }},
	{file: "hydrotest-short", says: "tested for less time than is required", verdict: incomplete, not: keys{"inspection.hydrotest": incomplete},
		do: func(s *specimen) { s.water.Held = "55 min" }},
	{file: "hydrotest-leaks", says: "it leaked, and nobody disposed of the leak", verdict: "reject", not: keys{"inspection.hydrotest": fails, "record.nonconformance": incomplete},
		do: func(s *specimen) { s.water.Leaks = laminate.Some(1) }},
	{file: "post-cure-short", says: "post-cured for less time than is required", verdict: incomplete, not: keys{"inspection.post_cure": incomplete},
		do: func(s *specimen) { s.cured.Held = "1.5 h" }},
	{file: "post-cure-missing", says: "not post-cured", verdict: incomplete, not: keys{"inspection.post_cure": incomplete},
		do: func(s *specimen) { s.drop(s.cured) }},
	{file: "dimension-out", says: "the diameter at the bottom is out of its limits", verdict: "reject", not: keys{"inspection.dimension": fails},
		do: func(s *specimen) { s.sizes[1].Value = inch(36.25) }},
	{file: "dimension-missing", says: "the diameter at the bottom was not measured", verdict: incomplete, not: keys{"inspection.dimension": incomplete},
		do: func(s *specimen) { s.drop(s.sizes[1]) }},
	{file: "calibration-ran-out", says: "the impressor was due for calibration the week before", verdict: incomplete, not: keys{"inspection.calibrated": incomplete},
		do: func(s *specimen) { s.gauges[1].Due = s.hard[0].At.Truncate(24*time.Hour).AddDate(0, 0, -7) }},
	{file: "calibration-missing", says: "nobody recorded the calibration of the pressure gauge", verdict: incomplete, not: keys{"inspection.calibrated": incomplete},
		do: func(s *specimen) { s.drop(s.gauges[2]) }},
	{file: "instrument-not-named", says: "nobody knows which gauge measured the wall at A1", verdict: incomplete, not: keys{"inspection.calibrated": incomplete},
		do: func(s *specimen) { s.wall[0].Instrument = "" }},
	{file: "serial-missing", says: "the part has no serial number", verdict: incomplete, not: keys{"record.serial": incomplete},
		do: func(s *specimen) { s.head.Serial = "" }},
	{file: "serial-entered-later", says: "begun without a serial number, which was entered by name later", verdict: "accept",
		do: func(s *specimen) {
			s.head.Serial = ""
			s.enter(&record.Marked{Entry: s.afterwards(), Serial: "T-31-LATER", Remark: "the plate came later"})
			s.signs(record.Accept, "")
		}},
	{file: "serial-entered-doubled", says: "the serial number that was entered later is that of another record beside this one", verdict: incomplete, not: keys{"record.serial": incomplete},
		do: func(s *specimen) {
			s.head.Serial = ""
			s.enter(&record.Marked{Entry: s.afterwards(), Serial: "t-31-twice"})
		}},
	{file: "serial-entered-and-another", says: "begun with one serial number, and given another", verdict: incomplete, not: keys{"record.serial": incomplete},
		do: func(s *specimen) {
			s.head.Serial = "T-31-FIRST"
			s.enter(&record.Marked{Entry: s.afterwards(), Serial: "T-31-SECOND"})
		}},
	{file: "serial-entered-and-struck", says: "the serial number that was entered later was struck", verdict: incomplete, not: keys{"record.serial": incomplete},
		do: func(s *specimen) {
			s.head.Serial = ""
			m := &record.Marked{Entry: s.afterwards(), Serial: "T-31-WRONG"}
			s.enter(m)
			s.strikes(m, "that of the part beside it")
		}},
	{file: "serial-doubled", says: "another record beside this one has its serial number", verdict: incomplete, not: keys{"record.serial": incomplete},
		do: func(s *specimen) { s.head.Serial = "T-31-TWICE" }},
	{file: "serial-doubled-too", says: "another record beside this one has its serial number", verdict: incomplete, not: keys{"record.serial": incomplete},
		do: func(s *specimen) { s.head.Serial = "t-31-twice " }},
	{file: "nothing-inspected", says: "begun, and nothing entered", verdict: "not inspected", not: keys{"record.laid": ""},
		do: func(s *specimen) { s.entries = nil }},

	// Nonconformances and decisions.
	{file: "rejected", says: "too soft at B2, and rejected by name", verdict: "reject", not: keys{"inspection.barcol": fails, "record.decision": fails},
		do: func(s *specimen) {
			s.hard[2].Value, s.hard[3].Value = 20, 21
			s.signs(record.Reject, "soft at B2")
		}},
	{file: "retested", says: "rejected for its hardness at B2, disposed of, measured again, accepted; the rejection stays listed", verdict: "accept",
		notes: "signed: reject, inspector one (inspector)", do: func(s *specimen) {
			s.hard[2].Value, s.hard[3].Value = 20, 21
			rejected := s.signs(record.Reject, "soft at B2")
			s.disposes(s.hard[2], record.Retest, "engineer", "post-cured once more, then measured again")
			s.disposes(rejected, record.Retest, "engineer", "measured again")
			for i := range 2 {
				s.again(s.hard[2], func(r *record.Reading) { r.Value = float64(32 + i) })
			}
			s.signs(record.Accept, "")
		}},
	{file: "retest-not-taken", says: "disposed of with a retest that nobody took", verdict: incomplete, not: keys{"record.nonconformance": incomplete, "plan.barcol": incomplete},
		do: func(s *specimen) {
			s.hard[2].Value, s.hard[3].Value = 20, 21
			s.disposes(s.hard[2], record.Retest, "engineer", "to be measured again")
		}},
	{file: "rejection-not-answered", says: "rejected by name; the readings that failed were struck, which answers nothing", verdict: "reject", not: keys{"record.decision": fails, "plan.barcol": incomplete, "record.struck": incomplete},
		do: func(s *specimen) {
			s.hard[2].Value, s.hard[3].Value = 20, 21
			s.signs(record.Reject, "soft at B2")
			s.strikes(s.hard[2], "gauge not set")
			s.strikes(s.hard[3], "gauge not set")
		}},
	{file: "repair-not-examined", says: "a pit repaired, and nobody looked again", verdict: "reject", not: keys{"record.nonconformance": incomplete, "inspection.defect": fails},
		do: func(s *specimen) {
			s.disposes(s.found(record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: inch(3. / 16), Place: "A1"}), record.Repair, "engineer", "ground out and laid anew")
		}},
	{file: "repaired", says: "a pit repaired, examined again, accepted after repair", verdict: "accept", notes: "pit at A1: repair by engineer one (engineer), procedure RP-4",
		do: func(s *specimen) {
			s.disposes(s.found(record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: inch(3. / 16), Place: "A1"}), record.Repair, "engineer", "ground out and laid anew")
			s.again(s.looked, func(*record.Reading) {})
			s.signs(record.AcceptAfterRepair, "")
		}},
	{file: "leak-repaired", says: "it leaked, was repaired, and held the second time", verdict: "accept", notes: "1 leak at 1.5 psi: repair",
		do: func(s *specimen) {
			s.water.Leaks = laminate.Some(1)
			s.disposes(s.water, record.Repair, "engineer", "strap laid over the leak")
			again := *s.water
			again.Entry, again.Leaks = s.afterwards(), laminate.Some(0)
			s.enter(&again)
			s.signs(record.AcceptAfterRepair, "")
		}},
	{file: "conceded", says: "too much glass in the barrier, taken as it is by the purchaser", verdict: "accept", notes: "",
		do: func(s *specimen) {
			s.burned.After = grams(1.61)
			s.concedes("barrier.glass_content measured", record.Purchaser)
			s.signs(record.Accept, "the purchaser takes it as it is")
		}},
	{file: "cutout-conceded", says: "no cutout, since the part has none: the purchaser does without", verdict: "accept",
		do: func(s *specimen) {
			s.drop(s.barrier)
			s.concedes("barrier.thickness measured", record.Purchaser)
			s.concedes("plan.thickness", record.Purchaser)
			s.signs(record.Accept, "")
		}},
	{file: "serial-conceded", says: "a part without a serial number: no concession gives it one", verdict: incomplete, not: keys{"record.serial": incomplete},
		do: func(s *specimen) {
			s.head.Serial = ""
			s.concedes("record.serial", record.Purchaser)
		}},
	{file: "conceded-by-the-shop", says: "too much glass in the barrier, taken as it is by the shop, which cannot do so", verdict: "reject",
		not: keys{"barrier.glass_content measured": fails, "record.nonconformance": incomplete},
		do: func(s *specimen) {
			s.burned.After = grams(1.61)
			s.concedes("barrier.glass_content measured", "engineer")
		}},
	{file: "conceded-then-worse", says: "too much glass conceded, and then measured again, still too much", verdict: "reject", not: keys{"barrier.glass_content measured": fails},
		do: func(s *specimen) {
			s.burned.After = grams(1.61)
			s.concedes("barrier.glass_content measured", record.Purchaser)
			s.again(s.burned, func(r *record.Reading) { r.After = grams(1.75) })
		}},
	{file: "scrapped", says: "a crack, and the part scrapped", verdict: "reject", not: keys{"inspection.defect": fails, "record.decision": fails},
		do: func(s *specimen) {
			s.disposes(s.found(record.Defect{Kind: spec.Crack, Side: spec.ProcessSide, Size: inch(4), Place: "B2"}), record.Scrap, "engineer", "through the barrier")
		}},
	{file: "entered-after-acceptance", says: "a crack found after the acceptance was signed", verdict: "reject", not: keys{"inspection.defect": fails},
		notes: "which did not weigh it: entry", do: func(s *specimen) {
			s.signs(record.Accept, "")
			s.found(record.Defect{Kind: spec.Crack, Side: spec.ProcessSide, Size: inch(0.5), Place: "A1"})
		}},

	// The schedule is another one.
	{file: "schedule-changed", says: "the schedule was changed by hand after the part had been laid", verdict: "reject", schedule: "tank-shell-changed.toml",
		not: keys{"record.schedule": fails, "record.plies": fails, "barrier.thickness": fails, "schedule.breaks": incomplete, "record.signed": incomplete},
		do:  func(s *specimen) { s.signs(record.Accept, "") }},
	{file: "book-changed", says: "the shop book was changed after the part had been laid: another mat of the same name", verdict: "reject", book: "other-book.toml",
		not: keys{"record.schedule": fails, "record.plies": fails, "record.signed": incomplete},
		do:  func(s *specimen) { s.signs(record.Accept, "") }},
	{file: "schedule-lacks-a-fact", says: "the schedule does not say what the service contains: nobody can tell whether it suits it", verdict: incomplete, laidTo: "tank-shell-unstated.toml",
		not: keys{"schedule.incomplete": incomplete}, do: func(s *specimen) {}},
	{file: "schedule-lacks-a-fact-conceded", says: "the schedule does not say what the service contains, which the purchaser takes as it is", verdict: "accept", laidTo: "tank-shell-unstated.toml",
		notes: "cannot be determined of the schedule: service-incomplete, conceded in entry",
		do: func(s *specimen) {
			s.concedes("service-incomplete", record.Purchaser)
			s.signs(record.Accept, "")
		}},
	{file: "schedule-not-named", says: "the record does not say which schedule it is of", verdict: incomplete, not: keys{"record.schedule": incomplete},
		do: func(s *specimen) { s.head.ScheduleFingerprint = "" }},
	{file: "specification-changed", says: "the acceptance was signed on another specification", verdict: incomplete, not: keys{"record.signed": incomplete},
		do: func(s *specimen) { s.signs(record.Accept, "").Specification = strings.Repeat("0", 64) }},

	// Seals.
	{file: "by-hand", says: "entries written by hand: without a seal, and adopted by nobody", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: incomplete,
		do: func(s *specimen) { s.tamper = bare }},
	{file: "adopted", says: "entries written by hand, and adopted by somebody named", verdict: "accept", notes: "the entries without a seal before it adopted by inspector one (inspector)",
		do: func(s *specimen) { s.tamper = adopted }},
	{file: "torn", says: "a power cut in the middle of the last entry", verdict: incomplete, not: keys{"record.whole": incomplete}, verify: incomplete,
		do: func(s *specimen) { s.tail = "[[reading]]\nid = \"0123456789ab\"\nkind = \"barcol\"\npla" }},
	{file: "tail-put-aside", says: "the half-written entry of a power cut was put aside: that stays in the record", verdict: "accept", notes: "a half-written entry of 56 bytes was put aside in",
		do: func(s *specimen) {
			s.enter(&record.Cut{Entry: s.later(30, "veilwright", "program"), Bytes: 56, Aside: "tail-put-aside.toml.torn-1", SHA256: strings.Repeat("ab", 32)})
			s.signs(record.Accept, "")
		}},
	{file: "tampered-value", says: "a value was changed by hand", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 16,
		do: func(s *specimen) { s.tamper = changed(s, s.wall[0], "338 mil", "358 mil") }},
	{file: "tampered-name", says: "the name of whoever measured was changed by hand", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 16,
		do: func(s *specimen) { s.tamper = changed(s, s.wall[0], "inspector one", "inspector two") }},
	{file: "tampered-head", says: "the serial number was changed by hand", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 1,
		do: func(s *specimen) {
			s.tamper = func(parts []string) []string {
				parts[0] = strings.Replace(parts[0], "serial = \"T-31", "serial = \"T-32", 1)
				return parts
			}
		}},
	{file: "tampered-removed", says: "an entry was removed", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 33,
		do: func(s *specimen) {
			pit := s.found(record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: inch(3. / 16), Place: "A1"})
			s.found(record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: inch(1. / 32), Place: "B2"})
			s.tamper = func(parts []string) []string { return slices.Delete(parts, s.entry(pit), s.entry(pit)+1) }
		}},
	{file: "tampered-moved", says: "two entries changed places", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 17,
		do: func(s *specimen) {
			s.tamper = func(parts []string) []string {
				at := s.entry(s.wall[1])
				parts[at], parts[at+1] = parts[at+1], parts[at]
				return parts
			}
		}},
	{file: "tampered-inserted", says: "an entry was put in, with a seal that fits nothing before it", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 17,
		do: func(s *specimen) {
			forged := string(schedules.SealEntry(&record.Reading{Entry: s.wall[0].Entry, Kind: inspection.WallThickness, Place: "A1", Thickness: mils(350), Instrument: "T-7"}, record.Sum{7}))
			s.tamper = func(parts []string) []string { return slices.Insert(parts, s.entry(s.wall[0])+1, forged) }
		}},
	{file: "tampered-seal-copied", says: "a value was changed by hand, and the seal of the entry before it put on it", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 17,
		do: func(s *specimen) {
			s.tamper = func(parts []string) []string {
				at := s.entry(s.wall[1])
				from, to := sealLines.FindAllString(parts[at-1], -1), sealLines.FindAllString(parts[at], -1)
				text := strings.NewReplacer(to[0], from[0], to[1], from[1], "342 mil", "352 mil").Replace(parts[at])
				parts[at] = text
				return parts
			}
		}},
	{file: "tampered-doubled", says: "an entry was copied and stands twice", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 17,
		do: func(s *specimen) {
			s.tamper = func(parts []string) []string {
				at := s.entry(s.wall[0])
				return slices.Insert(parts, at+1, parts[at])
			}
		}},
	{file: "tampered-strike", says: "a strike was pointed at another entry than the one it was made for", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 35,
		do: func(s *specimen) {
			pit := s.found(record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: inch(1. / 32), Place: "A1"})
			strike := s.strikes(s.found(record.Defect{Kind: spec.Pit, Side: spec.ProcessSide, Size: inch(1. / 16), Place: "A1"}), "counted twice")
			s.tamper = func(parts []string) []string {
				at := s.entry(strike)
				parts[at] = regexp.MustCompile(`entry = "[0-9a-f]+"`).ReplaceAllString(parts[at], `entry = "`+pit.ID+`"`)
				return parts
			}
		}},
	{file: "tampered-unstruck", says: "the strike of an entry was removed", verdict: "reject", not: keys{"record.seals": incomplete, "inspection.spot_minimum": fails}, verify: "does not follow", first: 34,
		do: func(s *specimen) {
			one := *s.wall[0]
			one.Entry, one.Thickness = s.afterwards(), mils(200)
			s.enter(&one)
			strike := s.strikes(&one, "gauge not set to zero")
			s.again(s.wall[0], func(r *record.Reading) { r.Thickness = mils(345) })
			s.tamper = func(parts []string) []string { return slices.Delete(parts, s.entry(strike), s.entry(strike)+1) }
		}},
	{file: "tampered-unsealed", says: "the seal of an entry was taken away, and a value changed: what follows it tells", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 18,
		do: func(s *specimen) {
			s.tamper = func(parts []string) []string {
				at := s.entry(s.wall[1])
				parts[at] = strings.Replace(sealLines.ReplaceAllString(parts[at], ""), "342 mil", "352 mil", 1)
				return parts
			}
		}},
	{file: "tampered-seal-removed", says: "an entry kept its id and lost its seal", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow", first: 17,
		do: func(s *specimen) {
			s.tamper = func(parts []string) []string {
				at := s.entry(s.wall[1])
				parts[at] = regexp.MustCompile(`seal = .*\n`).ReplaceAllString(parts[at], "")
				return parts
			}
		}},

	// Copies that went separate ways.
	{file: "merged-by-hand", says: "two copies put one behind the other, as one resolves a conflict by hand: joined by nobody", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: "does not follow",
		do: func(s *specimen) { s.tamper = merged }},
	{file: "joined", says: "two copies joined by somebody named", verdict: "accept", notes: "copies of the record joined by inspector one (inspector)",
		do: func(s *specimen) { s.tamper = joined(false) }},
	{file: "joined-with-tails-by-hand", says: "two copies joined, each of which ended in an entry by hand that nobody adopted", verdict: incomplete, not: keys{"record.seals": incomplete}, verify: incomplete,
		do: func(s *specimen) { s.tamper = joined(true) }},
}

var sealLines = regexp.MustCompile(`(?m)^(id|seal) = .*\n`)

// bare takes all seals away.
func bare(parts []string) []string {
	for i := range parts {
		parts[i] = sealLines.ReplaceAllString(parts[i], "")
	}
	return parts
}

func adopted(parts []string) []string {
	return goingOn(bare(parts), &record.Adopted{Entry: evening(0), Why: "held against the notes of the shift"})
}

// evening is who enters in the evening of the last day.
func evening(minute int) record.Entry {
	return record.Entry{At: time.Date(2026, 3, 4, 18, minute, 0, 0, time.UTC), Who: "inspector one", Role: "inspector"}
}

// goingOn adds sealed entries to what stands there.
func goingOn(parts []string, entries ...record.Any) []string {
	for _, e := range entries {
		r, _, problems := schedules.DecodeRecord([]byte(strings.Join(parts, "")))
		if len(problems) > 0 {
			panic(problems[0].String())
		}
		parts = append(parts, string(schedules.SealEntry(e, r.Trail.Last)))
	}
	return parts
}

// changed replaces a piece of an entry's text.
func changed(s *specimen, e record.Any, old, now string) func([]string) []string {
	return func(parts []string) []string {
		at := s.entry(e)
		parts[at] = strings.Replace(parts[at], old, now, 1)
		return parts
	}
}

// copies are two copies of a record that went on in separate ways: in one a typing
// error was struck and taken again, in the other two readings were taken.
func copies(parts []string) (a, b []string) {
	wrong := &record.Reading{Entry: evening(1), Kind: inspection.WallThickness, Place: "A1", Thickness: mils(3420), Instrument: "T-7"}
	a = goingOn(slices.Clone(parts), wrong)
	a = goingOn(a, &record.Struck{Entry: evening(2), OfID: wrong.ID, Why: "342 was meant"},
		&record.Reading{Entry: evening(3), Kind: inspection.WallThickness, Place: "A1", Thickness: mils(342), Instrument: "T-7"})
	b = goingOn(slices.Clone(parts), &record.Reading{Entry: evening(4), Kind: inspection.WallThickness, Place: "B2", Thickness: mils(332), Instrument: "T-7"},
		&record.Reading{Entry: evening(5), Kind: inspection.WallThickness, Place: "B2", Thickness: mils(341), Instrument: "T-7"})
	return a, b
}

func merged(parts []string) []string {
	a, b := copies(parts)
	return append(b, a[len(parts):]...)
}

func joined(byHand bool) func([]string) []string {
	return func(parts []string) []string {
		a, b := copies(parts)
		if byHand {
			a = append(a, "[[reading]]\nkind = \"thickness\"\nplace = \"A1\"\nvalue = \"344 mil\"\ninstrument = \"T-7\"\nat = 2026-03-04T18:05:00Z\nwho = \"inspector two\"\nrole = \"inspector\"\n\n")
			b = append(b, "[[reading]]\nkind = \"thickness\"\nplace = \"B2\"\nvalue = \"339 mil\"\ninstrument = \"T-7\"\nat = 2026-03-04T18:06:00Z\nwho = \"inspector two\"\nrole = \"inspector\"\n\n")
		}
		text, err := schedules.JoinRecords([]byte(strings.Join(a, "")), []byte(strings.Join(b, "")), evening(30), "the network was down")
		if err != nil {
			panic(err)
		}
		return []string{string(text)}
	}
}

// Every way of failing by itself, and what is accepted in spite of something: the
// verdict, the lines that are not met and no other, the exit code, and what verify
// says of the entries. UPDATE_SCRIPTS=1 writes the records anew.
func TestAcceptance_eachWayOfFailingHasItsRecord(t *testing.T) {
	if os.Getenv("UPDATE_SCRIPTS") != "" {
		writeWays(t)
	}
	files := map[string]bool{}
	for i := range ways {
		w := &ways[i]
		files[w.file+".toml"] = true
		t.Run(w.file, func(t *testing.T) {
			path := filepath.Join(acceptanceFolder, "records", w.file+".toml")
			schedule := cmp.Or(w.schedule, w.laidTo, shell)
			var flags []string
			if w.book != "" {
				flags = []string{"--book", filepath.Join(acceptanceFolder, w.book)}
			}
			got, code := compared(t, filepath.Join(acceptanceFolder, schedule), cmp.Or(w.demands, shellDemands), path, flags...)
			want := map[string]Code{"accept": Fine, "reject": Broken, "incomplete": Incomplete, "not inspected": Incomplete, "unusable": Unusable}[w.verdict]
			if got.Verdict != w.verdict || code != want {
				t.Errorf("%s, exit code %d; want %s, %d", got.Verdict, code, w.verdict, want)
			}
			if w.verdict != "not inspected" && w.verdict != "unusable" {
				if diff := gocmp.Diff(expected(w.not), got.not()); diff != "" {
					t.Errorf("not met (- expected, + found): %s", diff)
				}
			}
			if notes := strings.Join(got.Notes, "\n"); !strings.Contains(notes, w.notes) {
				t.Errorf("%q is not among the notes:\n%s", w.notes, notes)
			}
			checkVerify(t, w, path)
		})
	}
	entries, err := os.ReadDir(filepath.Join(acceptanceFolder, "records"))
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !files[e.Name()] {
			t.Errorf("%s is the record of no way of failing", e.Name())
		}
	}
}

// What is kept of a part is in its report, and a photograph is named and not opened:
// there is no such file.
func TestAcceptance_theReportListsSpecimensAndPhotographs(t *testing.T) {
	at := func(name string) string { return filepath.Join(acceptanceFolder, name) }
	out, said, code := run("print", "inspection-report", at(shell), at(shellDemands), at("records/sound.toml"))
	for _, want := range []string{"PART: ACCEPT", "Retained specimens", "T-31/A", "shelf 4", "Photographs", "t-31-inside.jpg", "inner surface"} {
		if code != Fine || !strings.Contains(out, want) {
			t.Errorf("exit code %d, %q is not in the report: %s", code, want, said)
		}
	}
	if _, after, _ := strings.Cut(out, "Not inspected, or not recorded here: "); strings.Contains(after, "photographs") || strings.Contains(after, "specimens") {
		t.Errorf("listed, and said not to be recorded: %s", after)
	}
	if out, _, _ := run("print", "inspection-report", at(shell), at(shellDemands), at("records/barcol-low.toml")); !strings.Contains(strings.Join(strings.Fields(out), " "), "photographs, retained specimens") {
		t.Error("that there are none is not said")
	}
}

// A serial number that was entered later heads the report, and stands among how the
// record came about.
func TestAcceptance_theReportHasTheSerialNumberEnteredLater(t *testing.T) {
	at := func(name string) string { return filepath.Join(acceptanceFolder, name) }
	out, said, code := run("print", "inspection-report", at(shell), at(shellDemands), at("records/serial-entered-later.toml"))
	for _, want := range []string{"PART: ACCEPT", "T-31-LATER", "serial number T-31-LATER, where there was none"} {
		if code != Fine || !strings.Contains(strings.Join(strings.Fields(out), " "), want) {
			t.Errorf("exit code %d, %q is not in the report: %s\n%s", code, want, said, out)
		}
	}
}

// expected leaves out what is named only to be remembered.
func expected(not keys) keys {
	want := keys{}
	for key, verdict := range not {
		if verdict != "" {
			want[key] = verdict
		}
	}
	return want
}

func checkVerify(t *testing.T, w *way, path string) {
	t.Helper()
	var v struct{ Records []verified }
	out, said, code := run("verify", "--json", path)
	unmarshal(t, out, said, &v)
	verdict := w.verify
	if verdict == "" {
		verdict = "follows"
	}
	want := map[string]Code{"follows": Fine, "does not follow": Broken, incomplete: Incomplete, "unusable": Unusable}[verdict]
	if got := v.Records[0]; got.Verdict != verdict || code != want {
		t.Errorf("verify: %s, exit code %d; want %s, %d: %s", got.Verdict, code, verdict, want, out)
	}
	switch breaks := v.Records[0].Breaks; {
	case w.first == 0 && len(breaks) > 0, w.first > 0 && (len(breaks) == 0 || breaks[0].Entry != w.first):
		t.Errorf("the first entry that does not follow is %d: %v", w.first, breaks)
	}
}

func writeWays(t *testing.T) {
	t.Helper()
	folder := filepath.Join(acceptanceFolder, "records")
	if err := os.RemoveAll(folder); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	for i := range ways {
		w := &ways[i]
		if err := os.WriteFile(filepath.Join(folder, w.file+".toml"), w.text(t), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

func (w *way) text(t *testing.T) []byte {
	t.Helper()
	s := newSpecimen(t, cmp.Or(w.laidTo, shell), "T-31-"+w.file)
	w.do(s)
	return s.text(t, w.says)
}

// The records are what the program writes today: nobody has to trust a file that
// was made once.
func TestAcceptance_recordsAreAsTheProgramWritesThem(t *testing.T) {
	for i := range ways {
		w := &ways[i]
		kept, err := os.ReadFile(filepath.Join(acceptanceFolder, "records", w.file+".toml"))
		if err != nil || !bytes.Equal(kept, w.text(t)) {
			t.Errorf("%s.toml: %v: not as it is made: UPDATE_SCRIPTS=1 writes it anew", w.file, err)
		}
	}
}

// A line that may keep a part from being accepted has a record that shows it: the
// keys are read out of the source.
func TestAcceptance_everyLineOfARecordIsShownToFail(t *testing.T) {
	shown := map[string]bool{}
	for i := range ways {
		for key := range ways[i].not {
			shown[key] = true
		}
	}
	elsewhere := map[string]string{
		"inspection.thickness_readings":       "a count without places, instead of a plan",
		"inspection.ignition_specimens":       "a count without a plan",
		"inspection.resistance_to_ground_max": "the shell carries nothing that conducts",
	}
	files, err := filepath.Glob("../../../rules/acceptance/*.go")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		for _, m := range regexp.MustCompile(`"((?:record|inspection)\.[a-z_]+)"`).FindAllStringSubmatch(string(text), -1) {
			if key := m[1]; !shown[key] && elsewhere[key] == "" {
				t.Errorf("%s: no record shows that %s is not met", name, key)
			}
		}
	}
}
