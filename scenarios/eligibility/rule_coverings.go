package eligibility

var tooManyCoverings = Rule{
	ID:     "coverings",
	Title:  "a roof with two or more coverings is not roofed over",
	Source: "International Building Code 2012, 1510.3 and its exception 1 for a separate system", // [IBC2012]
	Mark:   Published,
	Works:  []Work{Recover},
	Judge:  judgeCoverings,
}

// mostCoverings is how many a roof may have and still be roofed over [IBC2012].
const mostCoverings = 1

func judgeCoverings(f Findings, o Option) Outcome {
	n, known := f.Coverings.Get()
	switch {
	case yes(o.SeparateSystem):
		return pass("the new roof is a separate system that carries its load to the structure, for which the number of old coverings does not count", o.SeparateSystem)
	case !known && no(o.SeparateSystem):
		return open("", needCoverings)
	case !known:
		return open("", needCoverings, needSeparate)
	}
	there := "there " + are(n) + " " + counted(n, "covering") + " on this roof"
	switch {
	case n <= mostCoverings:
		return pass(there+", and one more may go on", f.Coverings)
	case no(o.SeparateSystem):
		return fail(there+", and what is planned is no separate system", f.Coverings, o.SeparateSystem)
	}
	return open(there+", so only a separate system may go over them", needSeparate)
}
