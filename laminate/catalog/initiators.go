package catalog

import (
	"frp/veilwright/laminate"
	"frp/veilwright/laminate/quantity"
	"frp/veilwright/laminate/stock"
)

// Shares of initiator and promoter that are usual, of the mass of the resin. Outside them a
// table was probably copied wrong: ten times the peroxide boils and burns in the pot, a tenth
// of it never cures. Common practice, no source; the resin manufacturer's table governs.
var (
	// UsualInitiator is of peroxide as it is sold, diluted.
	UsualInitiator = quantity.Range{Low: 0.01, High: 0.03}
	// usualCobalt is of cobalt solution, usualAmine of amine.
	usualCobalt = quantity.Range{Low: 0.001, High: 0.005}
	usualAmine  = quantity.Range{Low: 0.0005, High: 0.003}
)

// UsualPromoter is the usual share of promoter of a cure and what that promoter is; where
// the cure is not stated, what is usual of any.
func UsualPromoter(c laminate.Cure) (share quantity.Range, what string) {
	switch c {
	case laminate.PeroxideCobalt:
		return usualCobalt, "cobalt solution"
	case laminate.PeroxideAmine:
		return usualAmine, "amine"
	case laminate.NoCure:
	}
	return quantity.Range{Low: usualAmine.Low, High: usualCobalt.High}, "promoter"
}

// FarFromUsual is by how many times a share is above or below what is usual before no amount
// is weighed by it. The project's own bound.
const FarFromUsual = 2.0

// OddShare is a share of initiator or promoter outside what is usual.
type OddShare struct {
	Key  string // of the row: initiator, promoter
	Far  bool   // more than FarFromUsual times above or below it
	Says string // "15 % of initiator; 1 % to 3 % is usual, and it looks like 1.5 %"
}

// OddShares are the shares of a row of the shop's table that are outside what is usual for a
// resin of the cure. A promoter of nothing is none: such a resin comes promoted.
func OddShares(row *stock.Initiation, cure laminate.Cure) (odd []OddShare) {
	judge := func(key string, share laminate.Optional[float64], usual quantity.Range, what string) {
		v := share.Value
		if !share.Given || v == 0 || usual.Spans(v) {
			return
		}
		says := quantity.Percent(v) + " of " + what + "; " + quantity.Percent(usual.Low) + " to " + quantity.Percent(usual.High) + " is usual"
		if meant := quantity.ShareLooksLike(v, usual.Spans); meant != "" {
			says += ", and it looks like " + meant
		}
		odd = append(odd, OddShare{Key: key, Says: says, Far: quantity.Above(v, FarFromUsual*usual.High) || quantity.Below(v, usual.Low/FarFromUsual)})
	}
	judge("initiator", row.Initiator, UsualInitiator, "initiator")
	usual, what := UsualPromoter(cure)
	judge("promoter", row.Promoter, usual, what)
	return odd
}
