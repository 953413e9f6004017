package keys

// ID and Scope name rows of a table that is kept for several places at once.
type (
	ID    string
	Scope string
)

// Binding is a row of such a table without its act.
type Binding struct {
	ID                       ID
	Scope                    Scope
	Keys                     []string
	Show, Short, Long, Group string
	Rank                     int
}
