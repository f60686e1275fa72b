package budget

// node is a part of the search: some roofs are decided, others open.
type node struct {
	open    []open
	from    *node   // the part that this one is in, nil for the root
	decided []pick  // the roofs decided here, and not in from
	room    []int64 // what the decided roofs leave of each limit
	cost    int64   // of the decided roofs
	work    int64   // entries of the open roofs: the effort of one look at them
	// multipliers from which the relaxation starts
	multipliers []float64
}

// pick is a choice taken for a roof.
type pick struct{ roof, choice int }

// open is a roof between whose live choices it is still to be chosen.
type open struct {
	roof int
	live []int
}

// root has every roof open.
func (m model) root() node {
	n := node{room: m.limits, multipliers: make([]float64, len(m.limits))}
	all := make([]open, len(m.roofs))
	for i, choices := range m.roofs {
		all[i] = open{i, make([]int, len(choices))}
		for j := range choices {
			all[i].live[j] = j
		}
	}
	return m.settle(&n, all)
}

// settle is the node in which only the given choices are left of n's open
// roofs; those with one choice are decided.
func (m model) settle(n *node, left []open) node {
	next := node{
		from:        n,
		open:        make([]open, 0, len(left)),
		room:        append([]int64(nil), n.room...),
		cost:        n.cost,
		multipliers: n.multipliers,
		work:        1,
	}
	for _, o := range left {
		if len(o.live) > 1 {
			next.open = append(next.open, o)
			next.work += 2
			for _, j := range o.live {
				next.work += 2 + int64(len(m.roofs[o.roof][j].uses))
			}
			continue
		}
		c := m.roofs[o.roof][o.live[0]]
		next.decided = append(next.decided, pick{o.roof, o.live[0]})
		next.cost += c.cost
		for _, u := range c.uses {
			next.room[u.at] -= u.amount
		}
	}
	return next
}

// whole is the plan of a node's decided roofs and the picks of its open ones.
func (m model) whole(n *node, picks []int) []int {
	plan := make([]int, len(m.roofs))
	for i, o := range n.open {
		plan[o.roof] = picks[i]
	}
	for ; n != nil; n = n.from {
		for _, p := range n.decided {
			plan[p.roof] = p.choice
		}
	}
	return plan
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
