package paper

// Run is neighbors that repeat: Period of them, Times over, from First on.
type Run struct{ First, Period, Times int }

// longestPeriod is how many rows a repeated unit may have.
const longestPeriod = 6

// Fold takes n things apart into runs: a unit that stands three times or more
// in a row becomes one run, everything else one of its own. same tells whether
// two of them say the same.
func Fold(n int, same func(i, k int) bool) []Run {
	var runs []Run
	for i := 0; i < n; {
		best := Run{First: i, Period: 1, Times: 1}
		for period := 1; period <= longestPeriod && i+3*period <= n; period++ {
			end := i + period
			for end < n && same(end, end-period) {
				end++
			}
			if times := (end - i) / period; times >= 3 && times*period > best.Times*best.Period {
				best = Run{i, period, times}
			}
		}
		runs = append(runs, best)
		i += best.Period * best.Times
	}
	return runs
}
