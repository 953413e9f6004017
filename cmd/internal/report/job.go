package report

import "frp/veilwright/rules"

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
}

// JudgedJob is the report of a job that the rules have judged.
func JudgedJob(file string, books []string, r *rules.JobReport, lines Lines) Job {
	job := Job{
		File: file, Title: r.Job.Title, Books: list(books), Problems: []Problem{}, Parts: []JobPart{},
		Findings: findings(&rules.Report{Findings: r.Findings}, lines), Verdict: r.Verdict.String(),
	}
	for i, p := range r.Parts {
		job.Parts = append(job.Parts, JobPart{r.Job.Parts[i].ID, Judged(file, books, p, r.Lines(i, lines))})
	}
	return job
}

// UnreadJob is the report of a job that cannot be used.
func UnreadJob(s Schedule) Job {
	return Job{File: s.File, Books: s.Books, Error: s.Error, Problems: s.Problems, Parts: []JobPart{}, Findings: []Finding{}, Verdict: s.Verdict}
}
