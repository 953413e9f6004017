package report

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules/advice"
)

// Proposal is what propose prints as JSON.
type Proposal struct {
	File       string      `json:"file"`
	Title      string      `json:"title"`
	Books      []string    `json:"books"`
	Error      *string     `json:"error"`
	Problems   []Problem   `json:"problems"`
	Candidates []Candidate `json:"candidates"`
}

// Candidate is one candidate, the best first. Cost is by the given prices
// of resin and reinforcement alone.
type Candidate struct {
	Titles      []string `json:"titles"`
	GivesUp     []string `json:"trade_offs"`
	Notes       []string `json:"notes"`
	Unfinished  *string  `json:"unfinished"`
	Plies       int      `json:"plies"`
	GelStops    int      `json:"gel_stops"`
	ThicknessMM float64  `json:"thickness_mm"`
	MassKgM2    *float64 `json:"mass_kg_m2"`
	CostPerM2   *float64 `json:"cost_per_m2"`
	Currency    string   `json:"currency"`
	Verdict     string   `json:"verdict"`
	Schedule    string   `json:"schedule"`
	File        *string  `json:"file"`
}

// ProposalOf is the proposal for a schedule: candidates, the best first, with
// their text and, where they were written, their files.
func ProposalOf(file string, s *laminate.Schedule, books []string, list []advice.Candidate, texts [][]byte, files []string) Proposal {
	p := Proposal{File: file, Title: s.Title, Books: append([]string{}, books...), Problems: []Problem{}, Candidates: []Candidate{}}
	for i := range list {
		c, f := &list[i], &list[i].Figures
		one := Candidate{
			Titles: append([]string{}, c.Titles...), GivesUp: append([]string{}, c.GivesUp...), Notes: append([]string{}, c.Notes...),
			Plies: f.Plies, GelStops: f.GelStops, ThicknessMM: f.Thickness * 1000, Currency: f.Currency,
			Verdict: c.Report.Verdict.String(), Schedule: string(texts[i]),
		}
		if c.Unfinished != "" {
			one.Unfinished = &c.Unfinished
		}
		if f.MassKnown {
			one.MassKgM2 = &f.Mass
		}
		if f.CostKnown {
			one.CostPerM2 = &f.Cost
		}
		if i < len(files) {
			one.File = &files[i]
		}
		p.Candidates = append(p.Candidates, one)
	}
	return p
}
