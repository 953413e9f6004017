package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"os"
	"path/filepath"

	"frp/veilwright/schedules/internal/system"
)

// StateFolder returns the folder of what the program keeps for itself:
// $XDG_STATE_HOME/veilwright, ~/.local/state/veilwright, or what stands for them
// on the system. It need not exist.
// Source: XDG Base Directory Specification 0.8, which also has relative paths
// ignored.
func StateFolder() (string, error) { return userFolder("XDG_STATE_HOME", system.StateFolder) }

// ConfigFolder returns the folder of what a user sets for every schedule:
// $XDG_CONFIG_HOME/veilwright, ~/.config/veilwright, or what stands for them. It need not exist.
// Source: as for StateFolder.
func ConfigFolder() (string, error) { return userFolder("XDG_CONFIG_HOME", system.ConfigFolder) }

func userFolder(variable string, usual func() string) (string, error) {
	dir := os.Getenv(variable)
	if !filepath.IsAbs(dir) {
		dir = usual()
	}
	if dir == "" {
		return "", errors.New("the user's folders cannot be found: neither " + variable + " nor " + system.Home + " is set to a full path")
	}
	return filepath.Join(dir, "veilwright"), nil
}

// stateFolderFor returns a folder in the state folder and sees that it exists,
// closed to other users.
func stateFolderFor(what string) (string, error) {
	state, err := StateFolder()
	if err != nil {
		return "", err
	}
	dir := filepath.Join(state, what)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", failure(dir, "cannot be made", err)
	}
	return dir, nil
}

// keyOf is a file name that stands for a resolved path.
func keyOf(resolved string) string {
	sum := sha256.Sum256([]byte(resolved))
	return hex.EncodeToString(sum[:16])
}
