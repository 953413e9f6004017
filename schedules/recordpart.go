package schedules

import (
	"strings"

	"frp/veilwright/laminate/record"
	"frp/veilwright/laminate/spec"
)

// ofPart tells what is wrong with the entries about the finished part.
func (d *recordDocument) ofPart(fail func(table, row int, key, message string)) {
	for i := range d.Dimensions {
		switch x := &d.Dimensions[i]; {
		case x.What == spec.NoMeasure:
			fail(dimensionEntryTable, i, "what", "it is missing")
		case !x.Value.Given():
			fail(dimensionEntryTable, i, "value", "it is missing")
		case x.Value.SI() < 0 || x.Value.SI() > 1000:
			fail(dimensionEntryTable, i, "value", "it is not from 0 to 1000 m")
		}
	}
	for i := range d.Hydrotests {
		switch x := &d.Hydrotests[i]; {
		case x.Medium != record.Water && x.Medium != "":
			fail(hydrotestEntryTable, i, "medium", record.GasRefused)
		case x.Medium == "":
			fail(hydrotestEntryTable, i, "medium", "it is missing: "+record.GasRefused)
		case !x.Pressure.Given() || x.Pressure.SI() <= 0:
			fail(hydrotestEntryTable, i, "pressure", "a pressure above 0 is expected")
		case x.Held == "" || notASpan(x.Held) != "":
			fail(hydrotestEntryTable, i, "held", `a time above 0 such as "30 min" or "1.5 h" is expected`)
		case !x.Leaks.Given:
			fail(hydrotestEntryTable, i, "leaks", "it is missing: how many were seen, 0 for none")
		case x.Leaks.Value < 0:
			fail(hydrotestEntryTable, i, "leaks", "it is below 0")
		}
	}
	for i := range d.Instruments {
		switch x := &d.Instruments[i]; {
		case strings.TrimSpace(x.Instrument) == "":
			fail(instrumentEntryTable, i, "instrument", "it is missing: what readings call it")
		case x.Calibrated.IsZero():
			fail(instrumentEntryTable, i, "calibrated", "it is missing")
		case !x.Due.IsZero() && x.Due.Before(x.Calibrated):
			fail(instrumentEntryTable, i, "due", "it is before the calibration")
		}
	}
	for i := range d.PostCures {
		switch x := &d.PostCures[i]; {
		case !x.Temperature.Given():
			fail(postCureEntryTable, i, "temperature", "it is missing")
		case x.Held == "" || notASpan(x.Held) != "":
			fail(postCureEntryTable, i, "held", `a time above 0 such as "4 h" is expected`)
		}
	}
	for i := range d.Holds {
		switch x := &d.Holds[i]; {
		case strings.TrimSpace(x.Point) == "":
			fail(holdEntryTable, i, "point", "it is missing: what the point is called")
		case !x.Passed.Given:
			fail(holdEntryTable, i, "passed", "it is missing: true or false")
		}
	}
	for i := range d.Specimens {
		if strings.TrimSpace(d.Specimens[i].Mark) == "" {
			fail(specimenTable, i, "mark", "it is missing: what is written on the specimen")
		}
	}
	for i := range d.Photographs {
		switch file := strings.TrimSpace(d.Photographs[i].File); {
		case file == "":
			fail(photographTable, i, "file", "it is missing: the name of the photograph's file")
		case strings.ContainsAny(file, `/\`):
			fail(photographTable, i, "file", "the name of a file is expected, without its folder")
		}
	}
	for i := range d.Marked {
		switch x := &d.Marked[i]; {
		case strings.TrimSpace(x.Serial) == "":
			fail(markedTable, i, "serial", "it is missing: the number as marked on the piece")
		case strings.TrimSpace(x.Who) == "":
			fail(markedTable, i, "who", "it is missing: somebody answers for it")
		}
	}
	for i := range d.Preparations {
		if !d.Preparations[i].Abraded.Given {
			fail(preparationTable, i, "abraded", "it is missing: true or false")
		}
	}
	for i := range d.Bonds {
		if x := &d.Bonds[i]; !x.At.IsZero() && x.Gelled.After(x.At) {
			fail(bondTable, i, "gelled", "it is after the bond itself")
		}
	}
}
