package risk

// source gives uniform numbers by place: trial and dimension. It is SplitMix64
// [Steele] read at the position trial·stride + dimension of its sequence, so
// that any number can be had alone and again.
type source struct {
	key    uint64
	stride uint64 // numbers set aside for a trial
}

const golden = 0x9e3779b97f4a7c15

func newSource(seed uint64, dimensions int) source {
	stride := uint64(1)
	for stride < uint64(dimensions) {
		stride *= 2
	}
	return source{key: mix(seed + golden), stride: stride}
}

// local is the source of what only one of many roofs draws; 0 is no other
// source.
func (s source) local(roof uint64) source {
	if roof != 0 {
		s.key = mix(s.key + mix(roof+golden))
	}
	return s
}

// bits are 64 random bits.
func (s source) bits(trial, dimension int) uint64 { return mix(s.key + s.place(trial, dimension)) }

// place is how far from its key the source is read.
func (s source) place(trial, dimension int) uint64 {
	return (uint64(trial)*s.stride + uint64(dimension)) * golden
}

// at is uniform over the open interval from 0 to 1.
func (s source) at(trial, dimension int) float64 { return fraction(s.bits(trial, dimension)) }

// fraction is r/2⁶⁴ to 52 bits; with one more, the half added to the greatest
// would round to 1.
func fraction(r uint64) float64 { return (float64(r>>12) + 0.5) * (1.0 / (1 << 52)) }

// mix is the output function of SplitMix64.
func mix(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}
