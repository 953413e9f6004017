package cli

const description = `Build and check the laminate of an FRP pipe, tank or duct, ply by ply: the ` +
	`corrosion barrier that meets the chemical and the structure that carries the load.`

// grammar is the command line: every command with its arguments and flags.
type grammar struct {
	Globals

	Check      checkCommand      `cmd:"" help:"Report each schedule: figures, findings, verdict."`
	Catalogue  catalogueCommand  `cmd:"" help:"Print the materials and resin families that are known."`
	Rules      rulesCommand      `cmd:"" help:"Print the rules that check runs, and why."`
	New        newCommand        `cmd:"" help:"Make an empty schedule."`
	Tidy       tidyCommand       `cmd:"" help:"Rewrite schedules in canonical form, comments kept."`
	Completion completionCommand `cmd:"" help:"Print the script that completes command lines in a shell."`
	Complete   completeCommand   `cmd:"" hidden:""`
}
