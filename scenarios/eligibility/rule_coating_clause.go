package eligibility

import "slices"

var coatingClause = Rule{
	ID:     "coating-clause",
	Title:  "a coating needs no tear-off where the adopted code lists the covering under it, and counts as one more covering elsewhere",
	Source: "International Building Code 2012, 1510.3 exception 3; International Existing Building Code, 705.3.1 item 4; on sprayed foam also Professional Roofing, Feb 2004", // [IBC2012, IEBC, PR2004]
	Mark:   Published,
	Works:  []Work{Restore},
	Judge:  judgeCoatingClause,
}

// listClause are the coverings that the later clause lists [IEBC].
var listClause = []Covering{Coated, MetalPanel, MetalShingle, MineralRoll, BuiltUp, ModBit, SinglePly, SprayFoam}

// coatable are the coverings that an adopted code lets be coated without
// tear-off; false for a code whose clause was not read.
func coatable(c Code) ([]Covering, bool) {
	switch c {
	case IBC2012, SprayFoamClause:
		return []Covering{SprayFoam}, true
	case ListClause:
		return listClause, true
	}
	return nil, false
}

func judgeCoatingClause(f Findings, o Option) Outcome {
	code, codeKnown := f.Code.Get()
	covering, coveringKnown := f.Covering.Get()
	switch {
	case !codeKnown && !coveringKnown:
		return open("", needCode, needCovering)
	case !codeKnown:
		return open("", needCode)
	}
	list, read := coatable(code)
	switch {
	case !read:
		return open("the code is "+codeNames[code]+", whose clause on coatings is not stated", needClause)
	case !coveringKnown:
		return open("", needCovering)
	case slices.Contains(list, covering):
		return pass(codeNames[code]+" lets "+coveringNames[covering]+" be coated without tear-off", f.Code, f.Covering)
	}
	return asCovering(f, o, codeNames[code]+" does not list "+coveringNames[covering]+" among what is coated without tear-off, so the coating counts as one more covering")
}

// asCovering judges a coating that is no exception, by the three rules to
// which the clause is the exception: that is our reading of what is left where
// an exception does not reach. A coating is never a separate system.
func asCovering(f Findings, o Option, why string) Outcome {
	o.SeparateSystem = Found(false, "")
	out := all(judgeCoverings(f, o), notABase.Judge(f, o), judgeNotOver(f, o))
	out.Says = joined([]string{why, out.Says})
	if out.Verdict != Open {
		out.From = appendNew(appendNew(out.From, f.Code.Source()), f.Covering.Source())
	}
	return out
}
