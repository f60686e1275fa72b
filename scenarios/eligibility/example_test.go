package eligibility_test

import (
	"fmt"

	"github.com/shopspring/decimal"

	"roofyears/scenarios/eligibility"
)

// A roof of two coverings, of which a third is wet, is to be roofed over.
func ExampleJudge() {
	const survey = "roof survey 2026-06-18"
	f := eligibility.Findings{
		Coverings: eligibility.Found(2, survey),
		Covering:  eligibility.Found(eligibility.SinglePly, survey),
		WetShare:  eligibility.Found(decimal.RequireFromString("0.34"), survey),
	}
	o := eligibility.Option{
		Work:            eligibility.Recover,
		SeparateSystem:  eligibility.Found(false, "contractor's proposal"),
		WetPartReplaced: eligibility.Found(true, "cost line in the study"),
	}
	for _, j := range eligibility.Judge(f, o) {
		switch j.Verdict {
		case eligibility.Fail:
			fmt.Printf("rule: %s (%s; %s)\n", j.Rule.Title, j.Rule.Source, j.Rule.Mark)
			fmt.Printf("finding: %s, from %q\n", j.Says, j.From)
		case eligibility.Pass:
			fmt.Println("kept:", j.Says)
		}
	}
	// Output:
	// rule: a roof with two or more coverings is not roofed over (International Building Code 2012, 1510.3 and its exception 1 for a separate system; published)
	// finding: there are 2 coverings on this roof, and what is planned is no separate system, from ["roof survey 2026-06-18" "contractor's proposal"]
	// kept: the existing covering is a single-ply membrane, which may be roofed over
	// kept: 34% of the roof area is wet, over the customary threshold of 25%, and a cost line replaces the wet part
}
