package budget

// node is a part of the search: some roofs are decided, others open.
type node struct {
	open []open
	plan []int   // the choice of each roof that is decided
	room []int64 // what the decided roofs leave of each limit
	cost int64   // of the decided roofs
	work int64   // entries of the open roofs: the effort of one look at them
	// multipliers from which the relaxation starts
	multipliers []float64
}

// open is a roof between whose live choices it is still to be chosen.
type open struct {
	roof int
	live []int
}

// root has every roof open.
func (m model) root() node {
	n := node{plan: make([]int, len(m.roofs)), room: m.limits, multipliers: make([]float64, len(m.limits))}
	all := make([]open, len(m.roofs))
	for i, choices := range m.roofs {
		all[i] = open{i, make([]int, len(choices))}
		for j := range choices {
			all[i].live[j] = j
		}
	}
	return m.settle(n, all)
}

// settle is the node in which only the given choices are left of n's open
// roofs; those with one choice are decided.
func (m model) settle(n node, left []open) node {
	next := node{
		plan:        append([]int(nil), n.plan...),
		room:        append([]int64(nil), n.room...),
		cost:        n.cost,
		multipliers: n.multipliers,
		work:        1,
	}
	for _, o := range left {
		if len(o.live) > 1 {
			next.open = append(next.open, o)
			for _, j := range o.live {
				next.work += 1 + int64(len(m.roofs[o.roof][j].uses))
			}
			continue
		}
		c := m.roofs[o.roof][o.live[0]]
		next.plan[o.roof] = o.live[0]
		next.cost += c.cost
		for _, u := range c.uses {
			next.room[u.at] -= u.amount
		}
	}
	return next
}

// short tells whether a limit is exceeded even if each open roof takes the
// live choice that uses least of it.
func (m model) short(n node) bool {
	room := append([]int64(nil), n.room...)
	least := make([]int64, len(room))
	for _, o := range n.open {
		for k := range least {
			least[k] = largest
		}
		for _, j := range o.live {
			m.lower(least, m.roofs[o.roof][j])
		}
		for k, amount := range least {
			room[k] -= amount
		}
	}
	for _, r := range room {
		if r < 0 {
			return true
		}
	}
	return false
}

// lower takes least down to what a choice uses.
func (m model) lower(least []int64, c choice) {
	at := 0
	for k := range least {
		var amount int64
		if at < len(c.uses) && c.uses[at].at == k {
			amount = c.uses[at].amount
			at++
		}
		least[k] = min(least[k], amount)
	}
}
