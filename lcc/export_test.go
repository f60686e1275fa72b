package lcc

// RandomStudy makes the study that a number stands for, by the choices of the
// property tests, for tests that need the rooms above this one.
func RandomStudy(number uint64) *Study {
	return randomStudy(&tape{state: number << 32, endless: true})
}
