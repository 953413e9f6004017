package paper

import (
	"strings"

	"frp/veilwright/laminate/word"
	"frp/veilwright/schedules/paper/drawing"
	"frp/veilwright/schedules/paper/picture"
)

// Sheet is what is printed, from top to bottom.
type Sheet []Block

// Block is one of Heading, Facts, Table, Note, Section, Figure, Boxes and
// Signature.
type Block interface{ block() }

// Heading names what follows; level 1 is that of the whole sheet.
type Heading struct {
	Level int
	Text  string
	// Page begins a new page of paper: what follows is handed to somebody else.
	Page bool
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
	// Write is a column to be written in with a pen; its cells are empty.
	Write bool
}

// Row is one row of a table.
type Row struct {
	Cells []string
	// Line says all but the first cell in one sentence, for text that has no
	// room for the columns; left out, the columns are set. With Place it says
	// all of it and stays one line. Brief leaves out what would stand beneath.
	Line         string
	Place, Brief bool
	// Band is said across the whole table instead of cells: what stops the work
	// there.
	Band string
	// Strong is a row at which work stops.
	Strong bool
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
	Indent     int  // how far in, where that can be shown
	Framed     bool // nobody may miss it
}

// Section is the laminate cut through, from the process side outward.
type Section struct{ picture.Wall }

// Figure is a drawing. Text says in lines what it shows, where there are none.
type Figure struct {
	Picture drawing.Picture
	Caption string
	Text    []string
}

// Boxes are fields to be written in with a pen, side by side.
type Boxes struct {
	Titles []string
	Across int     // of them beside one another, 0 for 4
	High   float64 // of each in mm, 0 for a line of writing
}

// Signature is a line to sign on.
type Signature struct{ Role string }

func (Heading) block()   {}
func (Facts) block()     {}
func (Table) block()     {}
func (Note) block()      {}
func (Section) block()   {}
func (Figure) block()    {}
func (Boxes) block()     {}
func (Signature) block() {}
