// Package takeoff counts what it takes to build a laminate, or a job of them:
// areas ply by ply at the middle of each, fiber and resin mix, strips and rolls,
// tow, resin to order with its initiator, styrene given off, weight and cost.
//
// Figures are plain float64 in SI. What the shop book does not state is never
// filled in: it stays out of the sum and a [Remark] says so. The few shares that
// practice agrees on are taken where the book has none, and said too. Amounts of
// initiator come from the shop's own table alone.
package takeoff
