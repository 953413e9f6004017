package cli

import "runtime/debug"

// version is the module's version as the build knows it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "veilwright (unversioned build)"
	}
	return "veilwright " + info.Main.Version
}
