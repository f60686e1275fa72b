package lcc

import "testing"

// BenchmarkEvaluate is the plain study: exact ledgers of two alternatives over
// 40 years, measures, crossovers and answer.
func BenchmarkEvaluate(b *testing.B) {
	s := restoreOrTearOff().s
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Evaluate(); err != nil {
			b.Fatal(err)
		}
	}
}

func loaded(b *testing.B) *Kernel {
	return kernelAt(b, restoreOrTearOff().s, restoreOrTearOff().s.Likely())
}

// BenchmarkKernelLCC is one alternative, restored and recoated over 40 years.
func BenchmarkKernelLCC(b *testing.B) {
	k := loaded(b)
	b.ReportAllocs()
	for b.Loop() {
		k.LCC(1)
	}
}

// BenchmarkKernelCents is the same, rounded by line, and tells the share of
// studies like it that float64 can vouch for.
func BenchmarkKernelCents(b *testing.B) {
	k := loaded(b)
	certified, all := certifiedShare(b, 200)
	b.ReportAllocs()
	for b.Loop() {
		k.Cents(1)
	}
	b.ReportMetric(100*float64(certified)/float64(all), "%certified")
}

// BenchmarkKernelLoad is a new vector, as each draw of a simulation needs it.
func BenchmarkKernelLoad(b *testing.B) {
	k := loaded(b)
	v := append([]float64(nil), k.v...)
	b.ReportAllocs()
	for b.Loop() {
		if err := k.Load(v); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkRateSweep1000 is the curve of two alternatives over 1,000 rates.
func BenchmarkRateSweep1000(b *testing.B) {
	k := loaded(b)
	b.ReportAllocs()
	for b.Loop() {
		for i := range 1000 {
			if err := k.SetRate(float64(i) * 0.00012); err != nil {
				b.Fatal(err)
			}
			k.LCC(0)
			k.LCC(1)
		}
	}
}

// BenchmarkCrossovers finds three ties of known rates.
func BenchmarkCrossovers(b *testing.B) {
	r := tiesAt("0.03", 5, polynomial("1000000", "1.1", "1.3", "1.5")).evaluate()
	b.ReportAllocs()
	for b.Loop() {
		if found := r.crossovers(); len(found) != 3 {
			b.Fatalf("%d crossovers", len(found))
		}
	}
}

// BenchmarkCrossoversOfTheStudy is the search in a study as people write it.
func BenchmarkCrossoversOfTheStudy(b *testing.B) {
	r := restoreOrTearOff().evaluate()
	b.ReportAllocs()
	for b.Loop() {
		r.crossovers()
	}
}
