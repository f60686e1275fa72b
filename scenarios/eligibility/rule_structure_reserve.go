package eligibility

import "github.com/shopspring/decimal"

var structureReserve = Rule{
	ID:     "structure-reserve",
	Title:  "no more load is added than an engineer found the structure can still take",
	Source: "statics; the usual caution to have a structure checked before it is roofed over or ballasted",
	Mark:   CommonPractice,
	Works:  []Work{Restore, Recover, TearOff},
	Judge:  judgeStructureReserve,
}

func judgeStructureReserve(f Findings, o Option) Outcome {
	added, known := o.AddedLoad.Get()
	switch {
	case !known:
		return open("", needLoad)
	case !added.IsPositive():
		return pass("the work adds no load", o.AddedLoad)
	case o.Work == Restore && light(f, added):
		return judgeFilm(f, o)
	}
	return judgeReserve(added, f, o)
}

// judgeFilm leaves out a light coating over a single covering: nobody would
// send for an engineer for some tenths of a pound (20 to 40 dry mils weigh
// 0.13 to 0.29 psf at a specific gravity of 1.2 to 1.4).
func judgeFilm(f Findings, o Option) Outcome {
	added, _ := o.AddedLoad.Get()
	n, known := f.Coverings.Get()
	switch {
	case !known:
		return open("", needCoverings)
	case n == 1:
		return unconcerned("the coating adds "+f.Units.load(added)+" over a single covering", o.AddedLoad, f.Coverings)
	}
	return judgeReserve(added, f, o)
}

func judgeReserve(added decimal.Decimal, f Findings, o Option) Outcome {
	reserve, known := f.Reserve.Get()
	if !known {
		return open("the work adds "+f.Units.load(added)+", and no engineer has stated what the structure can still take", needReserve)
	}
	says := "the work adds " + beside(added, reserve, f.Units.load) + ", and the structure can still take " + f.Units.load(reserve)
	if added.GreaterThan(reserve) {
		return fail(says, o.AddedLoad, f.Reserve)
	}
	return pass(says, o.AddedLoad, f.Reserve)
}
