package lcc

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWhatRulesComeTo(t *testing.T) {
	deck, load := Need{What: "deck"}, Need{What: "load"}
	a := Alternative{Checks: []Check{
		{Rule: "a", Missing: []Need{deck, load}},
		{Rule: "b", Verdict: RulePasses},
		{Rule: "c", Missing: []Need{load}},
		{Rule: "d", Verdict: RuleFails, Title: "a rule", Text: "a finding", Source: "a code"},
		{Rule: "e", Verdict: RuleAdvises},
		{Rule: "f", Verdict: RuleFails, Title: "another", Text: "worse"},
	}}
	assert.Len(t, a.Open(), 2)
	assert.Equal(t, []Need{deck, load}, a.Missing(), "each once")
	assert.True(t, a.Eligible(), "checks alone rule nothing out")
	a.RuledOut = Against(a.Checks)
	assert.False(t, a.Eligible())
	assert.Equal(t, &Ruling{Rule: "a rule", Finding: "a finding", Source: "a code", Further: []Ruling{{Rule: "another", Finding: "worse"}}}, a.RuledOut)
	assert.Nil(t, Against(a.Open()), "what is open rules nothing out")
	assert.Equal(t, RuleOpen, Check{}.Verdict, "a verdict that nobody gave is no pass")
}
