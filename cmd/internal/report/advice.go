package report

import (
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
