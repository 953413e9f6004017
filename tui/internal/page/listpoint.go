package page

// Pointed is the item pointed at, -1 where there is none.
func (l *List) Pointed() int {
	l.open()
	if l.sel < 0 || l.sel >= len(l.found) {
		return -1
	}
	return l.found[l.sel]
}

// SetItems replaces the items; what is typed and the row pointed at stay.
func (l *List) SetItems(items []Item) {
	at := l.Pointed()
	l.Items = items
	l.search()
	l.point(at)
}

// SetItem changes what is said of one item, whose name stays.
func (l *List) SetItem(i int, item Item) { l.Items[i] = item }

// InSight are the items that were drawn last, by their places in Items.
func (l *List) InSight() []int {
	return l.found[min(l.top, len(l.found)):min(l.top+l.drawn, len(l.found))]
}

// Fill replaces the items by others: nothing is typed, the first is pointed at.
func (l *List) Fill(items []Item) {
	l.Items, l.opened = items, true
	l.query.Set("")
	l.search()
}

// PointAt points at an item.
func (l *List) PointAt(item int) { l.point(item) }

func (l *List) point(item int) {
	for i, n := range l.found {
		if n == item {
			l.sel = i
		}
	}
}

// Settle tells where it points and keeps that row in sight.
func (l *List) Settle() {
	l.open()
	rows := l.rows()
	l.drawn = rows
	l.top = max(0, min(l.top, max(0, l.sel), len(l.found)-rows), l.sel-rows+1)
}

// rows is how many rows are drawn.
func (l *List) rows() int {
	n := l.tall() - len(l.before())
	if l.Below != nil {
		n = min(n, max(len(l.found), 1), l.tall()/2)
	}
	return max(1, n)
}

func (l *List) pointed() {
	if l.Point != nil {
		l.Point(l.Pointed())
	}
}

// move goes round, so that one key reaches every row.
func (l *List) move(by int) {
	n := len(l.found)
	switch {
	case n == 0:
	case l.sel < 0:
		l.sel = 0
	default:
		l.sel = (l.sel + by + n) % n
	}
	l.pointed()
}

func (l *List) far(to int) {
	l.sel = max(0, min(to, len(l.found)-1))
	l.pointed()
}

// first is the row, by its place in found, that has the digit 1.
func (l *List) first() int {
	if len(l.found) <= 9 {
		return 0
	}
	return l.top
}
