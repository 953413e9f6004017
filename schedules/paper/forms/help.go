package forms

// Help says at length what a paper holds, with calls that a person would type.
func (k *Kind) Help() string { return helps[k.Name] }

const exits = `

Exit code: that of check: 1 when a rule is broken, 3 when a fact that matters is missing, 2 when a document cannot be read or the paper cannot be written, else 0. The paper is printed all the same, and says so.`

var helps = map[string]string{
	"laminate-schedule": `The drawing table of each part: what is stated of part and service, the wall in section to scale, each ply with zone, material, resin, thickness and glass, gel stops, repeats once with their count, thickness and mass by zone, what the structure has to carry, fields for what the fabricator states, lines to sign on.

    veilwright print laminate-schedule tank.toml -o tank.pdf
    veilwright print laminate-schedule tank.toml -o tank.svg` + exits,
	"lay-up-sheet": `What lies beside the mold: the cautions that this part calls for, when to stop, the resin mix by the shop's own table, the cut list, and each single ply in the order of laying with fields to write in; work stops at each gel stop and when the barrier is whole.

    veilwright print lay-up-sheet header.toml -o header-lay-up.pdf
    veilwright print lay-up-sheet tank.toml --part shell-1 -o shell-1.pdf
    veilwright print lay-up-sheet tank.toml --joint N2 -o N2.pdf` + exits,
	"route-sheet": `What goes with the part through the shop: each operation in order, with hold, witness and review points, fields for dates and names, and the text for the plate.

    veilwright print route-sheet job.toml -o job-route.pdf --paper a4` + exits,
	"inspection-plan": `What is inspected, how, how often, to which limit and by whose word; what nobody has stated is a field to write in. With a specification each of its requirements is a line.

    veilwright print inspection-plan header.toml spec.toml -o header-plan.pdf
    veilwright print inspection-plan tank.toml spec.toml --part shell-1 -o shell-1-plan.pdf` + exits,
	"calculation": `The structure worked out for a reviewer with a pocket calculator, of a job with the straps, pads and necks at its joints and nozzles: geometry, plies from their constituents, stiffness, loads and each criterion, with the formula, the numbers put in, the result and the source. wall prints the same in short, and its --json has the figures.

    veilwright print calculation header.toml
    veilwright print calculation header.toml -o header-calculation.pdf
    veilwright print calculation header.toml --units si --to md > header-3.md

Exit code: that of wall: 1 when a governing criterion fails, 3 when one cannot be determined, 2 when the schedule cannot be read, else 0.`,
	"takeoff": `What takeoff prints, of a schedule or of each part of a job, as a paper.

    veilwright print takeoff header.toml -o header-takeoff.csv

Exit code: that of takeoff: 3 when a quantity cannot be determined, 2 when the document cannot be read or the paper cannot be written, else 0.`,
}
