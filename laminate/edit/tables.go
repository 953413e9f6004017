package edit

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"frp/veilwright/laminate"
)

// SetPart changes a key of the part by f; what says it for the label: "length
// 20 ft" gives "part: length 20 ft".
func SetPart(key, what string, f func(*laminate.Part)) Edit {
	return Edit{
		Label: "part: " + what,
		At:    laminate.PartRef(key),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n := *s
			f(&n.Part)
			if n.Part == s.Part {
				return s, nil
			}
			if err := checkPart(&n.Part); err != nil {
				return nil, err
			}
			return &n, nil
		},
	}
}

// SetService changes a key of the service, as SetPart does of the part.
func SetService(key, what string, f func(*laminate.Service)) Edit {
	return Edit{
		Label: "service: " + what,
		At:    laminate.ServiceRef(key),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			n := *s
			f(&n.Service)
			if n.Service == s.Service {
				return s, nil
			}
			if err := checkService(&n.Service); err != nil {
				return nil, err
			}
			return &n, nil
		},
	}
}

// SetHeader changes title, job, revision, author, notes or units. What f does
// to part, service, resins, materials and plies is dropped.
func SetHeader(key, what string, f func(*laminate.Schedule)) Edit {
	return Edit{
		Label: "schedule: " + what,
		At:    laminate.Ref{Kind: laminate.RefSchedule, Key: key},
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			c := s.Clone()
			f(c)
			n := *c
			n.Part, n.Service, n.Resins, n.Materials, n.Plies = s.Part, s.Service, s.Resins, s.Materials, s.Plies
			if n.Title == s.Title && n.Job == s.Job && n.Revision == s.Revision && n.Author == s.Author && n.Notes == s.Notes &&
				n.Units == s.Units && n.UnitsSet == s.UnitsSet {
				return s, nil
			}
			if n.Revision.Given && n.Revision.Value < 0 {
				return nil, errors.New("a revision is a number from 0 up")
			}
			for _, line := range []string{n.Title, n.Job, n.Author} {
				if err := checkText(line, false); err != nil {
					return nil, err
				}
			}
			if err := checkText(n.Notes, true); err != nil {
				return nil, err
			}
			return &n, nil
		},
	}
}

// AddResin defines one more resin.
func AddResin(s *laminate.Schedule, r laminate.Resin) Edit {
	return Edit{
		Label: "added resin " + r.ID,
		At:    laminate.ResinRef(len(s.Resins), ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if err := checkResin(s, &r, -1); err != nil {
				return nil, err
			}
			n := *s
			n.Resins = append(slices.Clone(s.Resins), r)
			return &n, nil
		},
	}
}

// SetResin changes resin i by f; what says it for the label. Plies follow a
// change of its id.
func SetResin(s *laminate.Schedule, i int, key, what string, f func(*laminate.Resin)) Edit {
	return Edit{
		Label: fmt.Sprintf("resin %s: %s", resinName(s, i), what),
		At:    laminate.ResinRef(i, key),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if i < 0 || i >= len(s.Resins) {
				return nil, fmt.Errorf("there is no resin %d", i+1)
			}
			r := s.Resins[i]
			f(&r)
			if r == s.Resins[i] {
				return s, nil
			}
			if err := checkResin(s, &r, i); err != nil {
				return nil, err
			}
			n := *s
			n.Resins = slices.Clone(s.Resins)
			n.Resins[i] = r
			if old := s.Resins[i].ID; old != r.ID {
				n.Plies = slices.Clone(s.Plies)
				for row := range n.Plies {
					if n.Plies[row].Resin == old {
						n.Plies[row].Resin = r.ID
					}
				}
			}
			return &n, nil
		},
	}
}

// RemoveResin takes a resin out that no ply uses.
func RemoveResin(s *laminate.Schedule, i int) Edit {
	return Edit{
		Label: "removed resin " + resinName(s, i),
		At:    laminate.ResinRef(max(0, min(i, len(s.Resins)-2)), ""),
		Do: func(s *laminate.Schedule) (*laminate.Schedule, error) {
			if i < 0 || i >= len(s.Resins) {
				return nil, fmt.Errorf("there is no resin %d", i+1)
			}
			for row := range s.Plies {
				if s.Plies[row].Resin == s.Resins[i].ID {
					return nil, fmt.Errorf("%s is laid in it; give the ply another resin first", PlyLabel(s, row))
				}
			}
			n := *s
			n.Resins = slices.Delete(slices.Clone(s.Resins), i, i+1)
			return &n, nil
		},
	}
}

func resinName(s *laminate.Schedule, i int) string {
	if i < 0 || i >= len(s.Resins) {
		return fmt.Sprint(i + 1)
	}
	return s.Resins[i].ID
}

// size is a quantity that has to be above zero where it is given.
type size struct {
	name  string
	value interface {
		Given() bool
		SI() float64
	}
}

func checkSizes(sizes ...size) error {
	for _, x := range sizes {
		if v := x.value.SI(); x.value.Given() && !(v > 0 && !math.IsInf(v, 0)) {
			return fmt.Errorf("%s is above zero", x.name)
		}
	}
	return nil
}

func checkShare(name string, v laminate.Optional[float64]) error {
	if v.Given && !(v.Value >= 0 && v.Value <= 1) {
		return fmt.Errorf("%s is a share from 0 to 1", name)
	}
	return nil
}

func checkPart(p *laminate.Part) error {
	if err := checkText(p.Earth, false); err != nil {
		return err
	}
	if k := p.StiffnessKept; k.Given && !(k.Value > 0 && k.Value <= 1) {
		return errors.New("the share of stiffness kept is above 0, at most 1")
	}
	if p.KFactors.Given {
		for _, k := range p.KFactors.Values {
			if !(k > 0 && k <= 100) {
				return errors.New("a k factor is above 0, at most 100")
			}
		}
	}
	return checkSizes(size{"an inside diameter", p.InsideDiameter}, size{"a length", p.Length}, size{"a liquid height", p.LiquidHeight},
		size{"an area", p.Area}, size{"a stiffener spacing", p.StiffenerSpacing})
}

func checkService(v *laminate.Service) error {
	if err := checkText(v.Contents, false); err != nil {
		return err
	}
	if err := checkShare("a concentration", v.Concentration); err != nil {
		return err
	}
	for _, x := range []size{{"a pressure", v.Pressure}, {"a vacuum", v.Vacuum}, {"a test pressure", v.TestPressure}} {
		if p := x.value.SI(); !(p >= 0) || math.IsInf(p, 0) {
			return fmt.Errorf("%s is not below zero", x.name)
		}
	}
	switch g, ph, flame := v.SpecificGravity, v.PH, v.FlameSpread; {
	case g.Given && !(g.Value > 0 && g.Value <= 25):
		return errors.New("a specific gravity is above zero, and below that of any liquid metal")
	case ph.Given && !(ph.Lowest <= ph.Highest) || math.IsInf(ph.Lowest, 0) || math.IsInf(ph.Highest, 0):
		return errors.New("a pH range goes from the lowest to the highest")
	case flame.Given && flame.Value < 0:
		return errors.New("a flame spread index is a number from 0 up")
	}
	return nil
}

// checkResin refuses a resin that a document could not define; i is its place,
// -1 for a new one.
func checkResin(s *laminate.Schedule, r *laminate.Resin, i int) error {
	if r.ID == "" {
		return errors.New("a resin needs an id")
	}
	if taken := slices.IndexFunc(s.Resins, func(x laminate.Resin) bool { return x.ID == r.ID }); taken >= 0 && taken != i {
		return fmt.Errorf("there is a resin %q already", r.ID)
	}
	if r.Family == laminate.NoFamily {
		return fmt.Errorf("resin %q needs a family", r.ID)
	}
	for _, text := range []string{r.ID, r.Source, r.Product, r.Initiator, r.Promoter, r.Thixotrope, r.Synergist} {
		if err := checkText(text, false); err != nil {
			return err
		}
	}
	switch f := r.FillerContent; {
	case f.Given && !(f.Value > 0 && f.Value < 1):
		return errors.New("a filler content is a share above 0 and below 1")
	case r.FailureStrain.Given && !(r.FailureStrain.Value > 0 && r.FailureStrain.Value <= 1):
		return errors.New("a failure strain is a share above 0, at most 1")
	case r.Poisson.Given && !(r.Poisson.Value > 0 && r.Poisson.Value < 0.5):
		return errors.New("a Poisson's ratio is above 0 and below 0.5")
	case r.FlameSpreadTested.Given && r.FlameSpreadTested.Value < 0:
		return errors.New("a flame spread index is a number from 0 up")
	}
	if err := checkShare("a styrene content", r.StyreneContent); err != nil {
		return err
	}
	return checkSizes(size{"a density", r.Density}, size{"a filler density", r.FillerDensity}, size{"a modulus", r.Modulus})
}

// checkText refuses control characters, which no document may hold; notes may
// have line ends and tabs.
func checkText(text string, notes bool) error {
	for _, c := range text {
		switch {
		case notes && (c == '\n' || c == '\t'):
		case c < ' ' || c >= 0x7f && c < 0xa0 || c == '\uFFFD':
			return errors.New("a text holds no control characters")
		}
	}
	return nil
}
