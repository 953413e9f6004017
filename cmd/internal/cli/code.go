package cli

// Code is an exit code. Scripts rely on the numbers.
type Code int

// The exit codes.
const (
	// Fine: nothing worse than a warning.
	Fine Code = 0
	// Broken: a rule is broken, a comparison rejects, a wall fails.
	Broken Code = 1
	// Unusable: something could not be read, or the call cannot be used.
	Unusable Code = 2
	// Incomplete: nothing is broken, but something that matters cannot be told.
	Incomplete Code = 3
)

// weights order codes: what could not be read outweighs what is broken, and
// that outweighs what cannot be told.
var weights = [...]int{Fine: 0, Incomplete: 1, Broken: 2, Unusable: 3}

// worse gives the code of two that the call as a whole ends with.
func (c Code) worse(other Code) Code {
	if weights[other] > weights[c] {
		return other
	}
	return c
}
