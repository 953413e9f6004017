package cli

const description = `Build and check the laminate of an FRP pipe, tank or duct, ply by ply: the ` +
	`corrosion barrier that meets the chemical and the structure that carries the load.`

// grammar is the command line: every command with its arguments and flags.
type grammar struct {
	Globals

	Completion completionCommand `cmd:"" help:"Print the script that completes command lines in a shell."`
	Complete   completeCommand   `cmd:"" hidden:""`
}
