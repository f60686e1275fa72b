package risk

import "testing"

// BenchmarkTrials draws the case of three alternatives over 40 years on one
// worker: lives Weibull, rates and prices triangular. A trial draws three
// rates, six prices and as many lives as the study period leaves room for
// (about six), and evaluates three chains.
func BenchmarkTrials(b *testing.B) {
	s := threeAlternatives()
	ks, err := kernels(s, 1)
	if err != nil {
		b.Fatal(err)
	}
	w := newWorker(newSampler(s, 1), ks[0])
	trial, sum := 0, 0.0
	b.ReportAllocs()
	for b.Loop() {
		w.trial(trial)
		for a := range s.Alternatives {
			sum += ks[0].LCCWith(a, w)
		}
		trial++
	}
	if sum == 0 {
		b.Fatal("nothing was computed")
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds()/1e6, "Mtrials/s")
}

// BenchmarkRun is a whole simulation of 100,000 trials on all processors,
// what is summed up included.
func BenchmarkRun(b *testing.B) {
	s := threeAlternatives()
	for b.Loop() {
		if _, err := Run(s, Options{Trials: 100_000, Seed: 1}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSimulate is the drawing and evaluating of the same trials alone.
func BenchmarkSimulate(b *testing.B) {
	s := threeAlternatives()
	for b.Loop() {
		if _, err := simulate(s, Options{Trials: 100_000, Seed: 1}); err != nil {
			b.Fatal(err)
		}
	}
}
