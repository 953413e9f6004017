package cli

import (
	"fmt"
	"slices"

	"frp/veilwright/cmd/internal/report"
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/catalog"
	"frp/veilwright/schedules/paper"
)

type catalogCommand struct {
	IDs []string `arg:"" optional:"" name:"id" help:"Materials or resin families to print in full; all in short if left out." complete:"materials"`
}

// Help is shown under the command's flags.
func (catalogCommand) Help() string {
	return `The built-in materials, fibers, fillers and resin families, with the source of each figure, and what the shop books of this folder add to them. All are generic and typical: put your own into a shop book. The figure in the id of a veil is the thickness of a ply in mil, of a mat or chop its mass in oz/ft², of a woven or unidirectional material its mass in oz/yd².

    veilwright catalog
    veilwright catalog mat-1.5 vinyl-ester
    veilwright catalog --json --no-book`
}

// Run prints what is known.
func (k catalogCommand) Run(c *call) error {
	lib, err := c.library()
	if err != nil {
		return err
	}
	wanted := map[string]bool{}
	for _, id := range k.IDs {
		if !knows(lib, id) {
			return fmt.Errorf("there is no material or resin family %q%s; veilwright catalog lists them", id, didYouMean(id, idsOf(lib)))
		}
		wanted[id] = true
	}
	want := func(id string) bool { return len(wanted) == 0 || wanted[id] }
	return c.either(report.CatalogOf(lib, want), paper.Catalog(lib, want, c.units(&laminate.Schedule{}), len(k.IDs) > 0))
}

func idsOf(lib *laminate.Library) []string {
	var ids []string
	for i := range lib.Materials {
		ids = append(ids, lib.Materials[i].ID)
	}
	for i := range lib.Resins {
		ids = append(ids, lib.Resins[i].ID)
	}
	for _, f := range laminate.Families.All() {
		ids = append(ids, f.String())
	}
	for _, f := range laminate.Fibers.All() {
		ids = append(ids, f.String())
	}
	for _, f := range laminate.Fillers.All() {
		ids = append(ids, f.String())
	}
	return ids
}

func knows(lib *laminate.Library, id string) bool {
	return slices.Contains(idsOf(lib), id)
}

// catalogIDs are the built-in ones: completion reads no files.
func catalogIDs() []string { return idsOf(catalog.Library()) }
