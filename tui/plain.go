package tui

import (
	"io"

	"frp/veilwright/tui/internal/draw"
)

// Plain is w for what is printed for people: where the environment's locale is
// not UTF-8, characters outside ASCII become what the terminal program shows in
// their place. Each Write has to hold whole characters. Documents, which are
// UTF-8 anywhere, are not to go through it.
func Plain(w io.Writer, env func(string) string) io.Writer {
	if !draw.NeedsASCII(env) {
		return w
	}
	return plain{w}
}

type plain struct{ w io.Writer }

func (p plain) Write(b []byte) (int, error) {
	if _, err := io.WriteString(p.w, draw.ASCII(string(b))); err != nil {
		return 0, err
	}
	return len(b), nil
}
