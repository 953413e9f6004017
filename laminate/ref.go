package laminate

// RefKind is the kind of table a Ref points at.
type RefKind uint8

// The kinds.
const (
	RefSchedule RefKind = iota
	RefPart
	RefService
	RefCondition
	RefResin
	RefMaterial
	RefPly

	// Of a job.
	RefLaminate
	RefLaminatePly // through all laminates of the job
	RefJobPart
	RefJoint
	RefNozzle
	RefVessel
	RefTest
	RefBond
)

// Ref points at a place in a schedule: a table and, where it matters, a key of
// it. Index counts conditions, resins, materials or ply rows from 0. Part counts the parts
// of a job: the place is in the schedule that is the wall of that part; −1 is
// what all of them share.
type Ref struct {
	Part  int
	Kind  RefKind
	Index int
	Key   string
}

// PlyRef points at a ply row.
func PlyRef(row int, key string) Ref { return Ref{Kind: RefPly, Index: row, Key: key} }

// JobPartRef points at a part of a job.
func JobPartRef(i int, key string) Ref { return Ref{Kind: RefJobPart, Index: i, Key: key} }

// ResinRef points at a resin.
func ResinRef(i int, key string) Ref { return Ref{Kind: RefResin, Index: i, Key: key} }

// PartRef points at a key of the part.
func PartRef(key string) Ref { return Ref{Kind: RefPart, Key: key} }

// ServiceRef points at a key of the service.
func ServiceRef(key string) Ref { return Ref{Kind: RefService, Key: key} }
