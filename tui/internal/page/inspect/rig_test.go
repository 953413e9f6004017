package inspect

import (
	"testing"

	"frp/veilwright/tui/internal/page/pagetest"
)

type rig = pagetest.Rig[*Page]

func open(t testing.TB, w, h int, schedule string, others ...string) *rig {
	t.Helper()
	return pagetest.Open(t, New, w, h, schedule, others...)
}
