package cli

const description = `Build and check the laminate of an FRP pipe, tank or duct, ply by ply: the ` +
	`corrosion barrier that meets the chemical and the structure that carries the load.`

// grammar is the command line: every command with its arguments and flags.
type grammar struct {
	Globals

	Open       openCommandArgs   `cmd:"" hidden:"" help:"Open the terminal program."`
	Check      checkCommand      `cmd:"" help:"Report each schedule: figures, findings, verdict."`
	Wall       wallCommand       `cmd:"" help:"Stiffness and design of the structure against part and service."`
	Winding    windingCommand    `cmd:"" help:"How the band of each wound ply closes its cover."`
	Takeoff    takeoffCommand    `cmd:"" help:"Glass, resin, rolls, weight and cost of what is to be built."`
	Advise     adviseCommand     `cmd:"" help:"Veils, resins and barriers that suit part and service, with reasons."`
	Propose    proposeCommand    `cmd:"" help:"A whole schedule for a part and service without plies."`
	Compare    compareCommand    `cmd:"" help:"A schedule, and what was built to it, against a specification."`
	Verify     verifyCommand     `cmd:"" help:"Whether the entries of a record follow one another unchanged."`
	Print      printCommand      `cmd:"" help:"Print a paper: laminate schedule, lay-up sheet, route sheet, inspection plan, inspection report, calculation."`
	Diff       diffCommand       `cmd:"" help:"Two revisions of a schedule, ply by ply."`
	Practice   practiceCommand   `cmd:"" help:"Exercises: print, mark, and keep count of what was learned."`
	Catalog    catalogCommand    `cmd:"" help:"Print the materials and resin families that are known."`
	Rules      rulesCommand      `cmd:"" help:"Print the rules that check runs, and why."`
	New        newCommand        `cmd:"" help:"Make an empty schedule, specification, record or shop book."`
	Tidy       tidyCommand       `cmd:"" help:"Rewrite schedules in canonical form, comments kept."`
	Completion completionCommand `cmd:"" help:"Print the script that completes command lines in a shell."`
	Complete   completeCommand   `cmd:"" hidden:""`
}
