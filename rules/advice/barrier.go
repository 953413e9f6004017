package advice

import "frp/veilwright/laminate"

// WithBarrier makes a schedule with a barrier that suits in the place of the one it
// has, if any: the first of those that Propose would build walls on, with the
// choices the options fix. What stands outside of the barrier stays, its zones
// written. Errors: an option there is none of, nothing that suits, no material
// to lay with.
func WithBarrier(s *laminate.Schedule, lib *laminate.Library, o Options) (*laminate.Schedule, error) {
	if lib == nil {
		lib = &laminate.Library{}
	}
	f, err := newFinder(s, lib, o)
	if err != nil {
		return nil, err
	}
	found := f.barriers()
	if len(found) == 0 {
		return nil, &NothingSuitsError{"every barrier that the known materials allow breaks a rule" + f.because()}
	}
	return found[0].recipe.Line(s, lib), nil
}
