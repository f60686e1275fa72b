package lcc

import (
	"slices"
	"testing"

	"github.com/shopspring/decimal"
)

// tape reads choices from bytes, and 0 where they have come to an end. An
// endless tape goes on with a stream of numbers of its own.
type tape struct {
	bytes   []byte
	state   uint64
	endless bool
}

func (t *tape) next() uint64 {
	if len(t.bytes) > 0 {
		b := t.bytes[0]
		t.bytes = t.bytes[1:]
		return uint64(b)
	}
	if !t.endless {
		return 0
	}
	// The finalizer of splitmix64, a counter made to look random.
	t.state += 0x9e3779b97f4a7c15
	z := t.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return (z ^ z>>31) & 0xff
}

func (t *tape) upTo(n int) int {
	value := uint64(0)
	for reach := 0; reach < n; reach = reach<<8 | 0xff {
		value = value<<8 | t.next()
	}
	return int(value % uint64(n+1))
}

// breakStudy spoils a sound study in one place; it gives false where there
// was nothing to spoil. Each of these must be an error and not a panic.
func breakStudy(d dice, s *Study) bool {
	y := &s.Systems[d.upTo(len(s.Systems)-1)]
	a := &s.Alternatives[d.upTo(len(s.Alternatives)-1)]
	switch d.upTo(13) {
	case 0:
		y.Then = len(s.Systems)
	case 1:
		y.Life = Ref(len(s.Inputs))
	case 2:
		a.Start = -1
	case 3:
		a.Wait = &Wait{On: 0, Years: s.Period}
	case 4:
		a.Wait = &Wait{On: len(s.Systems)}
	case 5:
		s.Rate = NoRef
	case 6:
		s.Inputs[y.Life].Likely = decimal.Zero
	case 7:
		s.Inputs[s.Rate].Likely = dec("-0.5")
	case 8:
		s.Period = []int{0, -1, MaxPeriod + 1}[d.upTo(2)]
	case 9:
		if len(y.Periodic) == 0 {
			return false
		}
		y.Periodic[0].Every = 0
	case 10:
		y.First = append(slices.Clip(y.First), Item{Category: NumCategories, Price: s.Rate, Quantity: NoRef, Growth: NoRef})
	case 11:
		y.Recoat = &Recoating{Life: y.Life}
	case 12:
		s.Alternatives = nil
	case 13:
		s.Basis, s.Inflation = Nominal, NoRef
	}
	return true
}

// evaluateUnsound evaluates a study that must be refused, with the same
// verdict of whatever guards it.
func evaluateUnsound(t fatal, s *Study) {
	if r, err := s.Evaluate(); err == nil || r != nil {
		t.Fatalf("an unsound study is evaluated: %+v", s)
	}
}

// FuzzChain makes a study of any bytes. Whatever they are, a sound study is
// evaluated without a panic, foots, joins, pays nothing out of its time, and
// agrees with the kernel; an unsound one is an error.
func FuzzChain(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte("restore, recoat twice, then tear off"))
	f.Add([]byte{1, 0, 4, 1, 1, 0, 255, 3, 2, 7, 9, 31, 8, 2, 0, 0, 1, 1, 4, 200, 100, 50, 25, 12, 6, 3, 1})
	f.Add([]byte{0, 6, 0, 0, 2, 1, 255, 255, 255, 255, 255, 255, 255, 255, 0, 0, 0, 0, 7, 7, 7, 7, 7, 7, 7, 7, 7})
	for seed := range 8 {
		long := &tape{state: uint64(seed), endless: true}
		bytes := make([]byte, 200+100*seed)
		for i := range bytes {
			bytes[i] = byte(long.next())
		}
		f.Add(bytes)
	}
	f.Fuzz(func(t *testing.T, bytes []byte) {
		d := &tape{bytes: bytes}
		spoil := d.upTo(7) == 7
		s := randomStudy(d)
		if spoil && breakStudy(d, s) {
			evaluateUnsound(t, s)
			return
		}
		r := evaluated(t, s)
		for i := range r.Alternatives {
			o := &r.Alternatives[i]
			foots(t, s, o)
			inTime(t, s, o.Ledger)
			joined(t, s, i, o.Spells, waitOf(s, i))
		}
		vouchesFor(t, r)
	})
}

// The corners of unsoundness, each of which the fuzzer meets now and then.
func TestAnUnsoundStudyIsAnErrorAndNoPanic(t *testing.T) {
	broken := 0
	for seed := range 300 {
		d := &tape{state: uint64(seed), endless: true}
		s := randomStudy(d)
		if breakStudy(d, s) {
			broken++
			evaluateUnsound(t, s)
		}
	}
	if broken < 200 {
		t.Errorf("only %d studies were unsound", broken)
	}
}
