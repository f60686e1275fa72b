package eligibility

import "github.com/shopspring/decimal"

var parapetBracing = Rule{
	ID:     "parapets",
	Title:  "when over 25% of a roof is renewed in seismic design category D, E or F, parapets of unreinforced masonry are braced",
	Source: "International Existing Building Code, 706.3.1; the edition is not shown in the text read", // [IEBC]
	Mark:   Published,
	Works:  []Work{Recover, TearOff},
	Judge:  judgeParapets,
}

// unbraced is the share of a roof that may be renewed without bracing [IEBC].
var unbraced = decimal.New(25, -2)

func judgeParapets(f Findings, o Option) Outcome {
	category, categoryKnown := f.Seismic.Get()
	share, shareKnown := o.Share.Get()
	switch {
	case no(f.Parapets):
		return pass("there are no parapets of unreinforced masonry", f.Parapets)
	case categoryKnown && !category.severe():
		return pass("the seismic design category is "+seismicNames[category]+", which asks for no bracing", f.Seismic)
	case shareKnown && share.LessThanOrEqual(unbraced):
		return pass(beside(share, unbraced, percent)+" of the roof area is worked on, not over the "+percent(unbraced)+" that set off bracing", o.Share)
	}
	var needs []Need
	if !f.Parapets.IsKnown() {
		needs = append(needs, needParapets)
	}
	if !categoryKnown {
		needs = append(needs, needSeismic)
	}
	if !shareKnown {
		needs = append(needs, needShare)
	}
	if len(needs) > 0 {
		return open("", needs...)
	}
	return judgeBracing(beside(share, unbraced, percent)+" of the roof area is worked on in seismic design category "+seismicNames[category], f, o)
}

func judgeBracing(work string, f Findings, o Option) Outcome {
	says := work + ", under parapets of unreinforced masonry"
	switch {
	case yes(o.ParapetsBraced):
		return pass(says+", and a cost line braces them", f.Parapets, f.Seismic, o.Share, o.ParapetsBraced)
	case no(o.ParapetsBraced):
		return fail(says+", and no cost line braces them", f.Parapets, f.Seismic, o.Share, o.ParapetsBraced)
	}
	return open(says, needBracing)
}
