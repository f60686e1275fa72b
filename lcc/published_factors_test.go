package lcc

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"
)

// A factor reader needs no inputs: its keys say everything. A key is a rate,
//
//	real(8%,6%)    nominal(4%,27%)
//
// or a product of an amount and factors,
//
//	P/A,3%,25    60000 A/P,18%,10    1200000 F/P,real(8%,6%),55
//
// P being a present, F a future and A a yearly amount, G a yearly step.
func factorReader(inputs json.RawMessage) (publishedReader, error) {
	if len(inputs) > 0 {
		return nil, fmt.Errorf("factors have none")
	}
	return func(key string) (any, error) {
		if !isFactor(key) {
			return nil, fmt.Errorf("this is neither a rate nor a product of factors")
		}
		return readFactor(key)
	}, nil
}

var (
	factorForm = regexp.MustCompile(`^([FPA]/[FPAG]),(.+),(\d+)$`)
	rateForm   = regexp.MustCompile(`^(real|nominal)\((.+),(.+)\)$`)
)

// isFactor tells a key of a factor reader from other keys.
func isFactor(key string) bool {
	words := strings.Fields(key)
	return rateForm.MatchString(key) || len(words) > 0 && factorForm.MatchString(words[len(words)-1])
}

func readFactor(key string) (any, error) {
	if rateForm.MatchString(key) {
		return readRate(key)
	}
	product := one
	for i, word := range strings.Fields(key) {
		x, err := decimal.NewFromString(word)
		if i > 0 || err != nil {
			if x, err = factorOf(word); err != nil {
				return nil, err
			}
		}
		product = product.Mul(x)
	}
	return product, nil
}

// readRate reads 3%, real(8%,6%) or nominal(4%,27%).
func readRate(text string) (decimal.Decimal, error) {
	if m := rateForm.FindStringSubmatch(text); m != nil {
		a, err := readRate(m[2])
		if err != nil {
			return a, err
		}
		b, err := readRate(m[3])
		if err != nil {
			return b, err
		}
		if m[1] == "real" {
			return RealRate(a, b), nil
		}
		return NominalRate(a, b), nil
	}
	percent, ok := strings.CutSuffix(text, "%")
	if !ok {
		return decimal.Zero, fmt.Errorf("%q is no rate: a percent sign is missing", text)
	}
	rate, err := decimal.NewFromString(percent)
	return rate.Shift(-2), err
}

// factorOf gives a factor from the closed forms and from the ledger, and
// fails when the two differ. The gradient factors come from the ledger only.
func factorOf(word string) (decimal.Decimal, error) {
	m := factorForm.FindStringSubmatch(word)
	if m == nil {
		return decimal.Zero, fmt.Errorf("%q is no factor", word)
	}
	d, err := readRate(m[2])
	if err != nil {
		return d, err
	}
	n, err := strconv.Atoi(m[3])
	if err != nil || n < 1 {
		return d, fmt.Errorf("%q: there are no %s years", word, m[3])
	}
	booked, err := bookedFactor(m[1], m[2], n)
	if err != nil {
		return booked, err
	}
	if closed, ok := closedFactors[m[1]]; ok {
		if f := closed(d, n); f.Sub(booked).Abs().GreaterThan(f.Abs().Mul(dec("1e-9"))) {
			return f, fmt.Errorf("%s: the closed form gives %s, the ledger %s", word, f.Round(12), booked.Round(12))
		}
		return closed(d, n), nil
	}
	return booked, nil
}

// closedFactors are the factor functions of the engine and their quotients.
var closedFactors = map[string]func(d decimal.Decimal, n int) decimal.Decimal{
	"P/F": SinglePresentValue,
	"P/A": UniformPresentValue,
	"A/P": CapitalRecovery,
	"F/P": func(d decimal.Decimal, n int) decimal.Decimal { return quo(one, SinglePresentValue(d, n)) },
	"F/A": func(d decimal.Decimal, n int) decimal.Decimal {
		return quo(UniformPresentValue(d, n), SinglePresentValue(d, n))
	},
	"A/F": func(d decimal.Decimal, n int) decimal.Decimal {
		return SinglePresentValue(d, n).Mul(CapitalRecovery(d, n))
	},
}

// bookedFactor gives a factor as what one unit, or a step of one unit a year,
// is worth in the ledger of a study.
func bookedFactor(name, rate string, n int) (decimal.Decimal, error) {
	a := publishedAlternative{Name: "unit"}
	switch name[2:] {
	case "P":
		a.First = publishedCosts{{Price: one}}
	case "F":
		a.At = map[int]decimal.Decimal{n: one}
	case "A":
		a.Annual = publishedCosts{{Price: one}}
	case "G":
		for k := range n {
			a.Yearly = append(a.Yearly, decimal.NewFromInt(int64(k)))
		}
	}
	measure := map[string]string{"P": "lcc", "A": "annual_worth", "F": "future_worth"}[name[:1]]
	p := publishedStudy{Period: n, Rate: rate, Digits: 20, Alternatives: []publishedAlternative{a}}
	s, err := p.build()
	if err != nil {
		return decimal.Zero, err
	}
	r, err := s.Evaluate()
	if err != nil {
		return decimal.Zero, err
	}
	x, err := publishedMeasures[measure](r, 0)
	if err != nil {
		return decimal.Zero, err
	}
	return x.(decimal.Decimal), nil
}
