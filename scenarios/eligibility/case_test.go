package eligibility

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
)

const survey = "roof survey 2026-06-18"

// found is a finding of the roof survey that all cases share.
func found[T any](v T) Known[T] { return Found(v, survey) }

func number(text string) Known[decimal.Decimal] { return found(dec(text)) }

func dec(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// known is a roof, and an option, as a case finds them.
type known struct {
	Findings
	Option
}

// given is one case of a rule.
type given struct {
	name string
	k    known
	want Verdict
	says string // the whole sentence, as read aloud
	asks []Need
}

// check puts one rule to its cases, all of one work.
func check(t *testing.T, r Rule, w Work, cases []given) {
	t.Helper()
	for _, c := range cases {
		t.Run(r.ID+"/"+string(w)+"/"+c.name, func(t *testing.T) {
			c.k.Work = w
			got := r.judge(c.k.Findings, c.k.Option)
			assert.Equal(t, c.want, got.Verdict)
			assert.Equal(t, c.says, got.Says)
			assert.Equal(t, c.asks, got.Needs)
			if got.Verdict == Pass || got.Verdict == Fail {
				assert.Contains(t, got.From, survey)
			}
		})
	}
}
