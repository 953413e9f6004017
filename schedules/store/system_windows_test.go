package store

import (
	"errors"
	"testing"
)

// limitFileSize has no counterpart here, and nobody asks for it.
func limitFileSize() error { return errors.ErrUnsupported }

func TestFolders_areTheSystems(t *testing.T) {
	t.Setenv("XDG_STATE_HOME", "")
	t.Setenv("XDG_CONFIG_HOME", "")
	t.Setenv("LOCALAPPDATA", `C:\Users\u\AppData\Local`)
	t.Setenv("APPDATA", `C:\Users\u\AppData\Roaming`)
	if got, err := StateFolder(); err != nil || got != `C:\Users\u\AppData\Local\veilwright` {
		t.Errorf("state %q, %v", got, err)
	}
	if got, err := ConfigFolder(); err != nil || got != `C:\Users\u\AppData\Roaming\veilwright` {
		t.Errorf("configuration %q, %v", got, err)
	}
}
