package report

import (
	"frp/veilwright/cmd/internal/output"
	"frp/veilwright/laminate"
	"frp/veilwright/rules/advice"
)

// Advice is what advise prints as JSON.
type Advice struct {
	File      string         `json:"file"`
	Title     string         `json:"title"`
	Books     []string       `json:"books"`
	Error     *string        `json:"error"`
	Problems  []Problem      `json:"problems"`
	Veils     []AdviceOption `json:"veils"`
	Resins    []AdviceOption `json:"resins"`
	Builds    []AdviceOption `json:"builds"`
	Conflicts []Reason       `json:"conflicts"`
	Notes     []Reason       `json:"notes"`
	Ratings   []Rating       `json:"ratings"`
}

// AdviceOption is a veil, a resin family or a barrier build.
type AdviceOption struct {
	ID      string   `json:"id"`
	Suits   string   `json:"suits"`
	Reasons []Reason `json:"reasons"`
}

// Reason is why an option suits or does not, and on whose word.
type Reason struct {
	Text  string `json:"text"`
	Basis string `json:"basis"`
}

// Rating is a row that matched the service.
type Rating struct {
	Book            string     `json:"book"`
	Line            int        `json:"line"`
	Fluid           string     `json:"fluid"`
	Concentration   [2]float64 `json:"concentration"`
	MaxTemperatureK float64    `json:"max_temperature_k"`
	Family          string     `json:"family"`
	Build           string     `json:"build"`
	Grade           string     `json:"grade"`
	Source          string     `json:"source"`
	Date            string     `json:"date"`
}

// AdviceOf is the advice on the schedule of a file.
func AdviceOf(file, title string, a *advice.Advice) Advice {
	j := Advice{
		File: file, Title: title, Books: append([]string{}, a.Books...), Problems: []Problem{},
		Veils: optionsOf(a.Veils), Resins: optionsOf(a.Resins), Builds: optionsOf(a.Builds),
		Conflicts: reasonsOf(a.Conflicts), Notes: reasonsOf(a.Notes), Ratings: []Rating{},
	}
	for _, r := range a.Ratings {
		j.Ratings = append(j.Ratings, Rating{
			r.Book, r.Line, r.Fluid, r.Concentration, r.MaxTemperature.SI(), r.Family.String(), r.Build, r.Grade, r.Source, r.Date,
		})
	}
	return j
}

func optionsOf(list []advice.Option) []AdviceOption {
	all := []AdviceOption{}
	for _, o := range list {
		all = append(all, AdviceOption{o.ID, o.Suits.String(), reasonsOf(o.Reasons)})
	}
	return all
}

func reasonsOf(list []advice.Reason) []Reason {
	all := []Reason{}
	for _, r := range list {
		all = append(all, Reason{r.Text, r.Basis})
	}
	return all
}

// pageWidth is how wide text is that people read on a terminal.
const pageWidth = 80

// PrintAdvice prints the answers as a table and, unless brief, the reasons under
// each option.
func PrintAdvice(out *output.Sink, file string, s *laminate.Schedule, a *advice.Advice, brief bool) {
	title := s.Title
	if title == "" {
		title = "no title"
	}
	out.Line("%s: %s", file, title)
	for _, b := range a.Books {
		out.Line("  shop book %s", b)
	}
	for _, axis := range []struct {
		name    string
		options []advice.Option
	}{{"veils", a.Veils}, {"resins", a.Resins}, {"builds", a.Builds}} {
		out.Line("%s", axis.name)
		for _, o := range axis.options {
			out.Line("  %-11s %s", o.Suits.String(), o.ID)
			if brief {
				continue
			}
			for _, r := range o.Reasons {
				printReason(out, "           ", r)
			}
		}
	}
	for _, part := range []struct {
		name    string
		reasons []advice.Reason
	}{{"conflicts", a.Conflicts}, {"whatever is chosen", a.Notes}} {
		if len(part.reasons) == 0 {
			continue
		}
		out.Line("%s", part.name)
		for _, r := range part.reasons {
			printReason(out, "  ", r)
		}
	}
}

// printReason prints a reason with its basis, the first line marked.
func printReason(out *output.Sink, indent string, r advice.Reason) {
	for i, line := range output.Wrap(r.Text+" ["+r.Basis+"]", pageWidth-len(indent)-2) {
		mark := "  "
		if i == 0 {
			mark = "- "
		}
		out.Line("%s%s%s", indent, mark, line)
	}
}
