package all_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"frp/veilwright/laminate/catalog"
	"frp/veilwright/rules"
	"frp/veilwright/rules/all"
	"frp/veilwright/rules/ruletest"
)

func TestCatalogIsSound(t *testing.T) {
	for _, err := range rules.Validate(all.Rules()) {
		t.Error(err)
	}
}

// An id is relied on by other people's scripts: none goes or changes.
func TestIDsStand(t *testing.T) {
	want := strings.Fields(`
		fluorides-attack-glass-veil veil-outside-ph carbon-veil-in-hypochlorite carbon-veil-in-oxidizer veil-not-preferred veil-missing
		resin-temperature resin-for-acid resin-in-alkali resin-in-solvent rating-missing rating-against resin-for-brine hypochlorite-cure flame-spread heat-deflection-unusual resin-figures-unusual barrier-resins-differ resin-family-missing service-incomplete confirm-resin
		inner-surface-thickness inner-surface-rich interior-layer-light barrier-thin barrier-glass-content continuous-fiber-in-barrier
		heavy-barrier-at-flange heavy-barrier double-barrier-usual
		zones-out-of-order woven-on-woven woven-outermost no-bond-mat no-outer-surface wax-between-plies gel-stop-missing gel-stop-late zones-inferred
		conductive-barrier conductive-path abrasive-barrier filler-in-structure filler-hides-glass
		structure-missing structure-overstrained typical-moduli-only retention-unproved structure-glass-content booked-thickness-differs structure-fails structure-incomplete structure-idle form-not-figured factor-mixed design-factor-low rings-by-others voids-high fiber-figures-unusual areal-mass-unusual lamina-too-stiff lamina-thickness-unlike-mass lamina-too-strong
		joint-shear-short joint-hoop-thin joint-axial-thin joint-wall-weak joint-taper-steep bond-ply-not-mat wax-under-bond joint-unqualified bond-too-warm parts-not-joined seal-missing seal-thinner-than-barrier seal-veil-not-last seal-differs-from-barrier
		pad-thin pad-narrow pad-bond neck-bond-short gusset-missing edge-unsealed joined-parts-differ opening-in-knuckle opening-under-vacuum opening-large openings-close inside-overlay-thin neck-barrier-thin neck-class-low nozzle-loads-unknown gas-test test-unstated test-loads-nothing test-proves-less-than-service ends-contradicted uplift-unheld cone-open course-overstrained-at-test overlay-overstrained-at-test test-above-part-class vacuum-not-proved collapse-at-test test-contradicted test-temperature-unfit test-held-short barrier-differs-between-parts schedule-overstrained-at-test schedule-test-below-service
		part-unplaced cover-class-low id-shared laminate-unused part-form-unstated shell-unclosed joint-elsewhere seal-out-of-reach neck-thin nozzle-barrier-differs nozzle-end-unstated nozzle-parts-differ opening-off-part outside-overlay-thin seal-narrow seal-uncoated strap-narrow
		parts-do-not-meet course-ends-near-knuckle taper-steep knuckle-weak rim-unstated miter-angle-large miter-seams-unstated pressure-above-scope flange-assembly torque-high schedule-says-otherwise level-contradicted pressures-differ gravities-differ level-over-rim course-counted service-unreached count-unused bolts-misfit area-contradicted vessel-unvented bond-unsourced overlay-resin-differs plate-corner cover-strapped nozzle-end-contradicted nozzle-kind-unstated strap-order-unstated
		flange-thin class-above-scope bolts-far-apart level-low seal-shut-in hold-down-high straps-overlap test-far-above-service test-warmer-than-service bend-radius-unusual rings-close deflection-limit-high gravity-low service-freezes proof-short rests-on-others proof-unused`)
	var got []string
	for _, r := range all.Rules() {
		got = append(got, r.ID)
	}
	slices.Sort(want)
	slices.Sort(got)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestFind(t *testing.T) {
	for _, id := range []string{"veil-missing", "structure-idle", "internal-error"} {
		if r, ok := all.Find(id); !ok || r.ID != id {
			t.Errorf("%s was not found", id)
		}
	}
	if _, ok := all.Find("veil-missin"); ok {
		t.Error("found a rule that is none")
	}
}

func TestSoundScheduleIsClear(t *testing.T) {
	r := all.Judge(ruletest.Sound(), catalog.Library(), rules.Options{Fixes: true})
	for _, f := range r.Findings {
		if f.Rule.ID != "confirm-resin" {
			t.Errorf("%v %s: %s", f.Severity, f.Rule.ID, f.Message)
		}
	}
	if r.Verdict != rules.Clear {
		t.Errorf("verdict %v", r.Verdict)
	}
}
