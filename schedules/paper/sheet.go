package paper

import (
	"frp/veilwright/laminate/word"
	"strings"
)

// Sheet is what is printed, from top to bottom.
type Sheet []Block

// Block is one of Heading, Facts, Table, Note, Section and Signature.
type Block interface{ block() }

// Heading names what follows; level 1 is that of the whole sheet.
type Heading struct {
	Level int
	Text  string
}

// Facts are named values, each on a line of its own.
type Facts []Fact

// Fact is a value and its name.
type Fact struct{ Name, Value string }

// Table is rows under the titles of its columns.
type Table struct {
	Columns []Column
	Rows    []Row
}

// Column is one column of a table.
type Column struct {
	Title string // with the unit, where the cells are bare numbers: "per ply, mil"
	Right bool   // figures line up at their end
	// Under is set beneath the row where lines are short, after its title; an
	// empty cell is left out there. Plain leaves out the title; List sets each
	// line of the cell (see Lines) as an item.
	Under, Plain, List bool
}

// Row is one row of a table.
type Row struct {
	Cells []string
	// Line says all but the first cell in one sentence, for text that has no
	// room for the columns; left out, the columns are set. With Place it says
	// all of it and stays one line. Brief leaves out what would stand beneath.
	Line         string
	Place, Brief bool
}

// Lines joins what is listed in one cell.
func Lines(list []string) string {
	clean := make([]string, len(list))
	for i, s := range list {
		clean[i] = word.Clean(s)
	}
	return strings.Join(clean, "\n")
}

// Note is a paragraph. Mark stands before it, "- " for one of a list.
type Note struct {
	Mark, Text string
	Indent     int // how far in, where that can be shown
}

// Section is the laminate cut through, from the process side outward.
type Section []Layer

// Layer is a row of plies in a section.
type Layer struct {
	Plies, Material, Zone string
	Thickness             float64 // m, of all of its plies
	Gel                   bool    // a gel stop follows
}

// Signature is a line to sign on.
type Signature struct{ Role string }

func (Heading) block()   {}
func (Facts) block()     {}
func (Table) block()     {}
func (Note) block()      {}
func (Section) block()   {}
func (Signature) block() {}
