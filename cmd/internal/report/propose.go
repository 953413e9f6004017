package report

import (
	"frp/veilwright/laminate"
	"frp/veilwright/rules/advice"
	"frp/veilwright/rules/advice/equipment"
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

// JobProposal is what propose prints of a job: what it did line by line, and the
// text of the job with it.
type JobProposal struct {
	File     string    `json:"file"`
	Title    string    `json:"title"`
	Books    []string  `json:"books"`
	Error    *string   `json:"error"`
	Problems []Problem `json:"problems"`
	Filled   []Said    `json:"filled"`
	Assumed  []Said    `json:"assumed"`
	Left     []Said    `json:"left"`
	Broken   []Said    `json:"broken"`
	Asked    []Said    `json:"asked"`
	Verdict  string    `json:"verdict"`
	Job      string    `json:"job"`
}

// Said is one thing said of a line of the text, 0 where it stands in none.
type Said struct {
	Line    int    `json:"line"`
	Message string `json:"message"`
}

// JobProposalOf is the proposal for a job.
func JobProposalOf(file string, books []string, p *equipment.Proposal, text []byte, line func(laminate.Ref) int) JobProposal {
	said := func(lines []equipment.Line) []Said {
		list := []Said{}
		for _, l := range lines {
			list = append(list, Said{line(l.At), l.Text})
		}
		return list
	}
	return JobProposal{File: file, Title: p.Job.Title, Books: append([]string{}, books...), Problems: []Problem{}, Filled: said(p.Filled), Assumed: said(p.Assumed),
		Left: said(p.Left), Broken: said(p.Broken), Asked: said(p.Asked), Verdict: p.Report.Verdict.String(), Job: string(text)}
}
