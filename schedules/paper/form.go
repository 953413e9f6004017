package paper

import (
	"strings"

	"frp/veilwright/laminate/wall"
)

// Form is a sheet as it goes to the floor or into the file: with what every
// page of it says.
type Form struct {
	Frame
	Sheet Sheet
}

// Frame is what stands on every page.
type Frame struct {
	Paper       string   // what it is: "Lay-up sheet"
	Title       string   // of the document
	Job, Part   string   // Part names the one of a job, or the serial of what was built
	Revision    string   // "3", "not stated"
	Date        string   // of the revision, "not stated"
	State       string   // DRAFT and why, or what the document says of itself
	File        string   // of the document
	Fingerprint string   // the first twelve digits of the SHA-256 of its content
	Units       string   // "us", "si"
	Books       []string // shop books used
	Shop        []string // the shop's name and the lines of its address
	NotChecked  []string // what nothing here was checked for
}

// About lists in one line each what the form is of, leaving out what is not
// stated.
func (f *Frame) About() []string {
	var list []string
	for _, x := range []struct{ name, value string }{
		{"job", f.Job}, {"piece", f.Part}, {"revision", f.Revision}, {"date", f.Date}, {"fingerprint", f.Fingerprint}, {"units", f.Units},
	} {
		if x.value != "" {
			list = append(list, x.name+" "+x.value)
		}
	}
	return list
}

// Aid is what has to stand wherever a figure could be built from.
func (f *Frame) Aid() string {
	text := wall.DesignAid
	if len(f.NotChecked) > 0 {
		text += " Not checked: " + strings.Join(f.NotChecked, ", ") + "."
	}
	return text
}

// Plain is the form as one sheet, for writers that know no pages.
func (f *Form) Plain() Sheet {
	title := f.Title
	if title == "" {
		title = "no title"
	}
	sheet := Sheet{Heading{Level: 1, Text: f.Paper + ": " + title}}
	if len(f.Shop) > 0 {
		sheet = append(sheet, Note{Text: strings.Join(f.Shop, ", ")})
	}
	facts := Facts{{"of", f.File}}
	for _, a := range f.About() {
		name, value, _ := strings.Cut(a, " ")
		facts = append(facts, Fact{name, value})
	}
	for _, b := range f.Books {
		facts = append(facts, Fact{"shop book", b})
	}
	facts = append(facts, Fact{"state", f.State})
	return append(append(append(sheet, facts), f.Sheet...), Note{Text: f.Aid()})
}
