package scenarios

import (
	"roofyears/lcc"
	"roofyears/scenarios/eligibility"
)

// judge puts the rules to every alternative, by the system that it starts
// with. What the file rules out by hand keeps its own ruling.
func (r *reader) judge() {
	if !r.judging {
		return
	}
	r.study.Deference = eligibility.Deference
	for i := range r.study.Alternatives {
		a := &r.study.Alternatives[i]
		a.Checks = checksOf(r.found, r.options[a.Start])
		if a.RuledOut == nil {
			a.RuledOut = lcc.Against(a.Checks)
		}
	}
}

// verdicts are those of a rule that speaks of the work.
var verdicts = map[eligibility.Verdict]lcc.Verdict{
	eligibility.Open: lcc.RuleOpen, eligibility.Pass: lcc.RulePasses,
	eligibility.Fail: lcc.RuleFails, eligibility.Advice: lcc.RuleAdvises,
}

// checksOf are the verdicts of all rules that speak of an option. Of a work
// that is not stated none can say more than that.
func checksOf(f eligibility.Findings, o eligibility.Option) []lcc.Check {
	var out []lcc.Check
	for _, j := range eligibility.Judge(f, o) {
		verdict, concerned := verdicts[j.Verdict]
		if !concerned {
			continue
		}
		c := lcc.Check{
			Rule: j.Rule.ID, Title: j.Rule.Title, Verdict: verdict, Text: j.Says,
			Source: j.Rule.Source, Mark: j.Rule.Mark.String(), From: j.From,
		}
		for _, n := range j.Needs {
			c.Missing = append(c.Missing, lcc.Need{What: n.What, Next: n.Next, By: n.Who})
		}
		if o.Work == "" {
			c.Rule, c.Title, c.Source, c.Mark = "work", workDecides, "", ""
			return []lcc.Check{c}
		}
		out = append(out, c)
	}
	return out
}
