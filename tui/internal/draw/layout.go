package draw

import "strconv"

// Size is a number of columns and rows.
type Size struct{ W, H int }

// Rect is a part of the screen, in cells from its upper left corner. A part
// that has no room has no width or no height.
type Rect struct{ X, Y, W, H int }

// Empty reports a part without room.
func (r Rect) Empty() bool { return r.W < 1 || r.H < 1 }

// Top takes h rows off the top, or as many as there are.
func (r Rect) Top(h int) (top, rest Rect) {
	h = clamp(h, r.H)
	return Rect{r.X, r.Y, r.W, h}, Rect{r.X, r.Y + h, r.W, r.H - h}
}

// Bottom takes h rows off the bottom, or as many as there are.
func (r Rect) Bottom(h int) (rest, bottom Rect) {
	h = clamp(h, r.H)
	return Rect{r.X, r.Y, r.W, r.H - h}, Rect{r.X, r.Y + r.H - h, r.W, h}
}

// Left takes w columns off the left, or as many as there are.
func (r Rect) Left(w int) (left, rest Rect) {
	w = clamp(w, r.W)
	return Rect{r.X, r.Y, w, r.H}, Rect{r.X + w, r.Y, r.W - w, r.H}
}

// Right takes w columns off the right, or as many as there are.
func (r Rect) Right(w int) (rest, right Rect) {
	w = clamp(w, r.W)
	return Rect{r.X, r.Y, r.W - w, r.H}, Rect{r.X + r.W - w, r.Y, w, r.H}
}

func clamp(n, most int) int { return max(0, min(n, most)) }

// Form is how much a screen of some size can show.
type Form int

const (
	// TooSmall shows one sentence.
	TooSmall Form = iota
	// Reduced shows the work, with less beside it.
	Reduced
	// Full shows everything once.
	Full
	// Wide shows the picture high and figures beside it.
	Wide
	// Huge shows findings beside the work instead of under it.
	Huge
)

// The smallest sizes of the forms.
var (
	least    = Size{60, 16}
	fullFrom = Size{80, 24}
	wideFrom = Size{120, 36}
	hugeFrom = Size{200, 60}
)

// FormOf returns the form a size allows.
func FormOf(s Size) Form {
	holds := func(least Size) bool { return s.W >= least.W && s.H >= least.H }
	switch {
	case holds(hugeFrom):
		return Huge
	case holds(wideFrom):
		return Wide
	case holds(fullFrom):
		return Full
	case holds(least):
		return Reduced
	}
	return TooSmall
}

// SmallSentence says what a screen that is TooSmall needs.
func SmallSentence(s Size) string {
	return "too small: " + strconv.Itoa(s.W) + "×" + strconv.Itoa(s.H) +
		", needs " + strconv.Itoa(least.W) + "×" + strconv.Itoa(least.H) + " (nothing is lost)"
}

// Frame is what every page has: a title line, room of its own, the line that
// says what the last key did, and the line of keys.
type Frame struct {
	Form                      Form
	Title, Body, Notice, Help Rect
}

// PageFrame divides the screen for any page. A screen TooSmall has a Body only.
func PageFrame(s Size) Frame {
	f := Frame{Form: FormOf(s)}
	rest := Rect{W: max(0, s.W), H: max(0, s.H)}
	if f.Form == TooSmall {
		f.Body = rest
		return f
	}
	f.Title, rest = rest.Top(1)
	rest, f.Help = rest.Bottom(1)
	f.Body, f.Notice = rest.Bottom(1)
	return f
}

// Sided divides a page's body into the main part and a side part w columns
// wide with one column for the line between, where the form is Full and more;
// on a Reduced screen the side part lies below, h rows high with one row for
// the line between.
func Sided(f Frame, w, h int) (main, edge, side Rect) {
	switch f.Form {
	case TooSmall:
		return f.Body, Rect{}, Rect{}
	case Reduced:
		rest, side := f.Body.Bottom(h)
		main, edge := rest.Bottom(1)
		return main, edge, side
	default:
		rest, side := f.Body.Right(w)
		main, edge = rest.Right(1)
		return main, edge, side
	}
}

// Bench is the page on which a laminate is built.
type Bench struct {
	Frame
	Strip    Rect // the wall to scale and the line under it
	Totals   Rect // one line of figures
	Plies    Rect // the table
	Edge     Rect // the line left of the rack; none on a Reduced screen
	Rack     Rect // what digits lay
	Figures  Rect // zones and criteria: Wide and Huge only
	Findings Rect // with the rule that heads them
	Side     Rect // the line left of Findings: Huge only
}

// Widths and heights of the bench's parts, in cells.
const (
	stripLow, stripHigh = 2, 4 // picture and the line under it
	rackLines           = 11   // heading, nine materials, "any"
	rackNarrow          = 17   // "│" stands left of it, in Edge
	rackWide            = 38
	rackFlat            = 2 // on a Reduced screen, under the table
	findingsLow         = 6 // rule, three findings, why, fix
	findingsReduced     = 4
	findingsHigh        = 12
	findingsColumn      = 72
)

// BenchPage divides the screen for the bench.
func BenchPage(s Size) Bench {
	b := Bench{Frame: PageFrame(s)}
	body := b.Body
	switch b.Form {
	case TooSmall:
	case Reduced:
		b.Strip, body = body.Top(stripLow)
		b.Totals, body = body.Top(1)
		body, b.Findings = body.Bottom(findingsReduced)
		b.Plies, b.Rack = body.Bottom(rackFlat)
	case Full:
		b.Strip, body = body.Top(stripLow)
		b.Totals, body = body.Top(1)
		// What is high but not wide gives its rows to table and findings alike.
		spare := max(0, body.H-findingsLow-rackLines)
		body, b.Findings = body.Bottom(findingsLow + (spare+2)/3)
		body, b.Rack = body.Right(rackNarrow)
		b.Plies, b.Edge = body.Right(1)
	case Wide:
		b.Strip, body = body.Top(stripHigh)
		b.Totals, body = body.Top(1)
		b.side(&body)
		b.Plies, b.Findings = body.Bottom(max(findingsHigh, body.H/3))
	case Huge:
		b.Strip, body = body.Top(stripHigh)
		b.Totals, body = body.Top(1)
		b.side(&body)
		body, b.Findings = body.Right(findingsColumn)
		b.Plies, b.Side = body.Right(1)
	}
	return b
}

// LedBenchPage divides the screen for a bench on which a text of some lines
// stands first, in the place that Findings have. It has the lines that it needs
// as far as the rack keeps all of its own; on a Huge screen there is a column
// for it, as for findings.
func LedBenchPage(s Size, lines int) Bench {
	b := Bench{Frame: PageFrame(s)}
	body := b.Body
	switch b.Form {
	case TooSmall, Huge:
		return BenchPage(s)
	case Reduced:
		b.Findings, body = body.Top(findingsReduced)
		b.Strip, body = body.Top(stripLow)
		b.Totals, body = body.Top(1)
		b.Plies, b.Rack = body.Bottom(rackFlat)
	case Full:
		b.Findings, body = body.Top(max(findingsLow, min(lines, body.H-stripLow-1-rackLines)))
		b.Strip, body = body.Top(stripLow)
		b.Totals, body = body.Top(1)
		body, b.Rack = body.Right(rackNarrow)
		b.Plies, b.Edge = body.Right(1)
	case Wide:
		b.Findings, body = body.Top(max(findingsLow, min(lines, body.H/2)))
		b.Strip, body = body.Top(stripHigh)
		b.Totals, body = body.Top(1)
		b.side(&body)
		b.Plies = body
	}
	return b
}

// side takes the right column off: the rack and the figures under it.
func (b *Bench) side(body *Rect) {
	rest, column := body.Right(rackWide)
	*body, b.Edge = rest.Right(1)
	b.Rack, b.Figures = column.Top(rackLines)
}
