package eligibility

var moistureSurvey = Rule{
	ID:     "moisture-survey",
	Title:  "wet insulation is found by an instrument and verified by cores",
	Source: "ASTM C1153, scope; Professional Roofing, Oct 2023; Roofing Contractor, “moisture content”", // [C1153, PR2023]
	Mark:   Published,
	Works:  []Work{Restore, Recover},
	Judge:  judgeMoistureSurvey,
}

// judgeMoistureSurvey never fails an option: another survey settles it.
func judgeMoistureSurvey(f Findings, _ Option) Outcome {
	method, known := f.WetFoundBy.Get()
	if !known {
		return open("", needWetMethod)
	}
	says := "moisture was surveyed " + methodNames[method]
	switch method {
	case InstrumentAndCores:
		return pass(says, f.WetFoundBy)
	case InstrumentOnly:
		return open(says+", which shows where to look and not how wet it is", needCores)
	}
	return open(says+", which does not cover the whole roof", needInstrument)
}
