package scenarios

import "slices"

// Limits that keep looking for similar names cheap whatever the file says.
const (
	longestName   = 64  // characters
	mostNamesSeen = 200 // candidates
)

// nearest is the name most like the one given; "" when none is near: at most
// one letter off in short names, two in names of five letters or more, a swap
// of neighbours counting as one; else one that begins with the same four
// letters or more.
func nearest(name string, names []string) string {
	given := []rune(name)
	if len(given) == 0 || len(given) > longestName {
		return ""
	}
	best, least := "", 2
	alike, letters := "", 3 // the one that begins alike, with four letters or more
	if len(given) >= 5 {
		least = 3
	}
	for _, candidate := range names[:min(len(names), mostNamesSeen)] {
		if n := sameBeginning(name, candidate); n > letters {
			alike, letters = candidate, n
		}
		other := []rune(candidate)
		if len(other) > longestName || len(other)-len(given) > 2 || len(given)-len(other) > 2 {
			continue
		}
		if d := distance(given, other); d < least && d < len(given) {
			best, least = candidate, d
		}
	}
	if best == "" {
		return alike
	}
	return best
}

// sameBeginning is how many bytes two names begin alike, not counting the
// sections of a path that they share: study.period is not like study.title.
func sameBeginning(a, b string) int {
	n, section := 0, 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		if n++; a[n-1] == '.' {
			section = n
		}
	}
	return n - section
}

// distance is the number of letters to change, add, drop or swap with their
// neighbour (optimal string alignment).
func distance(a, b []rune) int {
	var before, last, row []int
	last = make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := range a {
		row = make([]int, len(b)+1)
		row[0] = i + 1
		for j := range b {
			change := 1
			if a[i] == b[j] {
				change = 0
			}
			row[j+1] = min(last[j]+change, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, last = last, row
	}
	return last[len(b)]
}

// firstIn is the first of the words that is among the names; "" for none.
func firstIn(words, names []string) string {
	for _, w := range words {
		if slices.Contains(names, w) {
			return w
		}
	}
	return ""
}
