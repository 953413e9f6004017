package barrier

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules"
)

// Asked is the least thickness in m that barrier-thin asks of the barrier
// without a word: its nominal build for the service and the shop book's
// ratings, less the allowance.
func Asked(s *laminate.Schedule, lib *laminate.Library) float64 {
	build, _ := nominalBuild(&rules.Pass{Schedule: s, Library: lib})
	return build.Nominal.SI() * (1 - allowance)
}

// AskedInner is the least thickness in m of the inner surface (API 12P 5.4.2).
func AskedInner() float64 { return catalog.ThinnestInnerSurface.SI() }
