package report

import (
	"frp/veilwright/rules"
	"frp/veilwright/rules/joint/proof"
	"frp/veilwright/rules/joint/workings"
	"frp/veilwright/rules/others"
	"frp/veilwright/rules/revision"
	"frp/veilwright/schedules"
)

// Job is the report of a job: what a schedule reports, of each part.
type Job struct {
	File     string    `json:"file"`
	Title    string    `json:"title"`
	Books    []string  `json:"books"`
	Error    *string   `json:"error"`
	Problems []Problem `json:"problems"`
	Parts    []JobPart `json:"parts"`
	Findings []Finding `json:"findings"` // on the job as a whole
	Verdict  string    `json:"verdict"`  // the worst of all
}

// JobPart is the report of one part. Lines are those of the job.
type JobPart struct {
	Part string `json:"part"` // its id
	Schedule
	Criteria []Criterion `json:"criteria"` // what the part has to bear, governing first
}

// JudgedJob is the report of a job that the rules have judged.
func JudgedJob(file string, books []string, r *rules.JobReport, lines Lines) Job {
	job := Job{
		File: file, Title: r.Job.Title, Books: list(books), Problems: []Problem{}, Parts: []JobPart{},
		Findings: findings(&rules.Report{Findings: r.Findings}, lines), Verdict: r.Verdict.String(),
	}
	for i, p := range r.Parts {
		part := JobPart{Part: r.Job.Parts[i].ID, Schedule: Judged(file, books, p, r.Lines(i, lines)), Criteria: []Criterion{}}
		part.Verdict = r.PartVerdict(i).String()
		if p.Wall != nil {
			part.Criteria = criteria(p.Wall)
		}
		job.Parts = append(job.Parts, part)
	}
	return job
}

// UnreadJob is the report of a job that cannot be used.
func UnreadJob(s Schedule) Job {
	return Job{File: s.File, Books: s.Books, Error: s.Error, Problems: s.Problems, Parts: []JobPart{}, Findings: []Finding{}, Verdict: s.Verdict}
}

// JobWalls is the report on the walls of a job's parts.
type JobWalls struct {
	File     string    `json:"file"`
	Title    string    `json:"title"`
	Books    []string  `json:"books"`
	Error    *string   `json:"error"`
	Problems []Problem `json:"problems"`
	Parts    []JobWall `json:"parts"`
	// Joins are the demands on what is laid at joints and nozzles.
	Joins      []Criterion `json:"joins"`
	Findings   []Finding   `json:"findings"` // on the job as a whole: breaks, and what is incomplete
	NotChecked []string    `json:"not_checked"`
}

// JobWall is the wall of one part.
type JobWall struct {
	Part string `json:"part"` // its id
	Wall
}

// JobDifference is what differs between two revisions of a job: what is stated,
// and the plies, figures and findings of each part and overlay, by its id.
type JobDifference struct {
	Old      string           `json:"old"`
	New      string           `json:"new"`
	Error    *string          `json:"error"`
	Problems []Problem        `json:"problems"`
	Facts    []FactChange     `json:"facts"`
	Parts    []PartDifference `json:"parts"`
}

// PartDifference is what differs in a part, or in a laminate that no part names.
type PartDifference struct {
	ID string `json:"id"`
	Difference
}

// JobWallsOf is the report on the walls of a judged job.
func JobWallsOf(file string, books []string, r *rules.JobReport, checks []workings.Check, lines Lines) JobWalls {
	out := JobWalls{File: file, Title: r.Job.Title, Books: list(books), Problems: []Problem{}, Parts: []JobWall{}, Joins: []Criterion{}, NotChecked: list(r.NotChecked())}
	for i := range checks {
		out.Joins = append(out.Joins, criterion(&checks[i].Criterion))
	}
	out.Findings = findings(&rules.Report{Findings: r.Weighty()}, lines)
	for i, p := range r.Parts {
		out.Parts = append(out.Parts, JobWall{Part: r.Job.Parts[i].ID, Wall: WallOf(file, books, p.Schedule, others.Held(r.Structure(i, proof.TestProvesLess), i, r.Findings), nil)})
	}
	return out
}

// JobDiffering is the report of two judged revisions of a job.
func JobDiffering(older, newer string, facts []schedules.FactChange, d []revision.PartDifference) JobDifference {
	out := JobDifference{Old: older, New: newer, Problems: []Problem{}, Facts: Changes(facts), Parts: []PartDifference{}}
	for _, p := range d {
		out.Parts = append(out.Parts, PartDifference{ID: p.ID, Difference: Differing(older, newer, nil, p.Difference, p.Old, p.New)})
	}
	return out
}
