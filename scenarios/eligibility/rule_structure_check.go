package eligibility

import "github.com/shopspring/decimal"

var structureCheck = Rule{
	ID:     "structure-check",
	Title:  "the structure is checked for what the work adds, except for a second covering of at most 3 psf over a single one",
	Source: "International Existing Building Code, 706.2, exception; the edition is not shown in the text read", // [IEBC]
	Mark:   Published,
	Works:  []Work{Restore, Recover, TearOff},
	Judge:  judgeStructureCheck,
}

// lightCovering is the load that is exempt over a single covering, as the code
// prints it: 3 psf, 0.1437 kN/m2 [IEBC].
var lightCovering = limit{us: decimal.NewFromInt(3), metric: decimal.New(1437, -4)}

// judgeStructureCheck asks whether somebody has looked, not what he found: that
// is the next rule's.
func judgeStructureCheck(f Findings, o Option) Outcome {
	added, known := o.AddedLoad.Get()
	if known && !added.IsPositive() {
		return pass("the work adds no load", o.AddedLoad)
	}
	if reserve, checked := f.Reserve.Get(); checked {
		return pass("the structure was checked and can still take "+f.Units.load(reserve), f.Reserve)
	}
	if !known {
		return open("", needLoad, needReserve)
	}
	return judgeLight(f, o)
}

// light tells whether a load is one that the code lets go unchecked over a
// single covering.
func light(f Findings, added decimal.Decimal) bool {
	return added.LessThanOrEqual(lightCovering.in(f.Units))
}

// judgeLight looks for the exception. After a tear-off nothing is a second
// covering.
func judgeLight(f Findings, o Option) Outcome {
	added, _ := o.AddedLoad.Get()
	n, known := f.Coverings.Get()
	most := lightCovering.in(f.Units)
	adds := "the work adds " + beside(added, most, f.Units.load)
	switch {
	case o.Work == TearOff || !light(f, added):
		return open(adds, needReserve)
	case !known:
		return open(adds, needCoverings)
	case n != 1:
		return open(adds+", and the old covering is not a single one", needReserve)
	}
	return pass(adds+" over a single covering, not over the "+f.Units.load(most)+" that go unchecked", o.AddedLoad, f.Coverings)
}
