package cli

import (
	"runtime/debug"

	"frp/veilwright/cmd/internal/flagvalue"
)

// unitsFlag chooses US or SI units; empty leaves it to the document.
type unitsFlag string

// The words of --units.
const (
	unitsAsWritten unitsFlag = ""
	unitsUS        unitsFlag = "us"
	unitsSI        unitsFlag = "si"
)

// UnmarshalText reads a word of --units.
func (f *unitsFlag) UnmarshalText(text []byte) error {
	return flagvalue.OneOf(f, text, unitsUS, unitsSI)
}

// Words lists them.
func (unitsFlag) Words() []string { return []string{string(unitsUS), string(unitsSI)} }

// themeFlag chooses the colors of the terminal program.
type themeFlag string

// The words of --theme.
const (
	themeDark  themeFlag = "dark"
	themeLight themeFlag = "light"
	themeMono  themeFlag = "mono"
)

// UnmarshalText reads a word of --theme.
func (f *themeFlag) UnmarshalText(text []byte) error {
	return flagvalue.OneOf(f, text, themeDark, themeLight, themeMono)
}

// Words lists them.
func (themeFlag) Words() []string {
	return []string{string(themeDark), string(themeLight), string(themeMono)}
}

// version is the module's version as the build knows it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "veilwright (unversioned build)"
	}
	return "veilwright " + info.Main.Version
}
