// Package advice turns a service and a part into what suits them: veils, resin
// families and barrier builds with the reasons for and against each, and whole
// schedules.
//
// It holds no knowledge of its own about what harms what. Each option is laid
// in a small schedule that is otherwise sound, the rules judge that schedule,
// and what they say is the advice: what is called usual or suitable here is what
// raises no break, no incomplete and no warning in a check. Only what speaks for an option, and what
// people do where demands contradict one another, stands here.
package advice
