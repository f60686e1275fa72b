package verify

import "crypto/sha256"

// pair is a node of the written page and the one in its place; one of them may
// be missing.
type pair struct{ want, got *node }

// maxTable bounds the work of looking for what two lists have in common.
const maxTable = 4 << 20

// align puts the children of two elements side by side in order: equal ones
// first, then those of one name, then those of one kind.
func align(want, got []*node) []pair {
	if len(want) == len(got) && len(want) > 0 && want[0].up.tag == "tr" {
		return inOrder(want, got) // cells have their columns
	}
	var head, tail []pair
	for len(want) > 0 && len(got) > 0 && want[0].sum == got[0].sum {
		head = append(head, pair{want[0], got[0]})
		want, got = want[1:], got[1:]
	}
	for len(want) > 0 && len(got) > 0 && want[len(want)-1].sum == got[len(got)-1].sum {
		tail = append(tail, pair{want[len(want)-1], got[len(got)-1]})
		want, got = want[:len(want)-1], got[:len(got)-1]
	}
	i, j := 0, 0
	for _, p := range common(want, got) {
		head = append(head, gap(want[i:p[0]], got[j:p[1]])...)
		head = append(head, pair{want[p[0]], got[p[1]]})
		i, j = p[0]+1, p[1]+1
	}
	head = append(head, gap(want[i:], got[j:])...)
	for k := len(tail) - 1; k >= 0; k-- {
		head = append(head, tail[k])
	}
	return head
}

func inOrder(want, got []*node) []pair {
	out := make([]pair, len(want))
	for i := range want {
		out[i] = pair{want[i], got[i]}
	}
	return out
}

// common is the longest common subsequence of two lists, as places in both.
func common(want, got []*node) [][2]int {
	n, m := len(want), len(got)
	if n == 0 || m == 0 || n*m > maxTable {
		return nil
	}
	longest := make([][]int32, n+1)
	for i := range longest {
		longest[i] = make([]int32, m+1)
	}
	for i := n - 1; i >= 0; i-- {
		for j := m - 1; j >= 0; j-- {
			if want[i].sum == got[j].sum {
				longest[i][j] = longest[i+1][j+1] + 1
			} else {
				longest[i][j] = max(longest[i+1][j], longest[i][j+1])
			}
		}
	}
	var out [][2]int
	for i, j := 0, 0; i < n && j < m; {
		switch {
		case want[i].sum == got[j].sum:
			out = append(out, [2]int{i, j})
			i, j = i+1, j+1
		case longest[i+1][j] >= longest[i][j+1]:
			i++
		default:
			j++
		}
	}
	return out
}

// gap pairs nodes of which no two are known to be equal. Pairs never cross,
// so that a node in another place is always told.
func gap(want, got []*node) []pair {
	if len(want)*len(got) > maxTable {
		least := min(len(want), len(got))
		return append(inOrder(want[:least], got[:least]), gap(want[least:], got[least:])...)
	}
	same := sameName
	if len(want) == len(got) {
		same = sameTag
	}
	var out []pair
	j := 0
	for _, w := range want {
		k := j
		for k < len(got) && !same(w, got[k]) {
			k++
		}
		if k == len(got) {
			out = append(out, pair{w, nil})
			continue
		}
		for ; j < k; j++ {
			out = append(out, pair{nil, got[j]})
		}
		out = append(out, pair{w, got[k]})
		j = k + 1
	}
	for ; j < len(got); j++ {
		out = append(out, pair{nil, got[j]})
	}
	return out
}

func sameTag(a, b *node) bool { return a.tag == b.tag }

// sameName tells whether two nodes are meant to be the same thing: by id, by
// the head of a row, or as the one of its kind.
func sameName(a, b *node) bool {
	if a.tag != b.tag {
		return false
	}
	if a.tag == "tr" {
		return rowHead(a) == rowHead(b)
	}
	for _, name := range []string{"id", "data-options", "data-chart", "http-equiv", "name"} {
		if a.attr(name) != "" || b.attr(name) != "" {
			return a.attr(name) == b.attr(name)
		}
	}
	return true
}

// movedAway finds what is missing in one place and stands in another.
func movedAway(pairs []pair) map[[sha256.Size]byte]bool {
	missing, out := map[[sha256.Size]byte]bool{}, map[[sha256.Size]byte]bool{}
	for _, p := range pairs {
		if p.got == nil {
			missing[p.want.sum] = true
		}
	}
	for _, p := range pairs {
		if p.want == nil && missing[p.got.sum] {
			out[p.got.sum] = true
		}
	}
	return out
}
