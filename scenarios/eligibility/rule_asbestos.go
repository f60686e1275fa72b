package eligibility

var asbestosSurvey = Rule{
	ID:     "asbestos",
	Title:  "a roof is surveyed for asbestos before it is cut, washed or torn off",
	Source: "40 CFR 61 subpart M, appendix A", // [61M]
	Mark:   Published,
	Works:  []Work{Restore, Recover, TearOff},
	Judge:  judgeAsbestos,
}

// judgeAsbestos never fails an option. Asbestos that was found may be worked
// on by those who are licensed to: it is a matter of method, notice and cost.
// That a young roof needs no survey is not in the text read, so it is advice.
func judgeAsbestos(f Findings, o Option) Outcome {
	state, known := f.Asbestos.Get()
	switch {
	case !known || state == AsbestosNotSurveyed:
		return open("", needAsbestos)
	case state == AsbestosNone:
		return pass("a survey found no asbestos", f.Asbestos)
	case state == AsbestosByAge:
		return advise("a survey is held needless by the age of the roof; the text read names no age, so have the authority confirm it in writing", f.Asbestos)
	case yes(o.AsbestosPriced):
		return pass("a survey found asbestos, and a cost line covers its handling; notice and methods are prescribed", f.Asbestos, o.AsbestosPriced)
	}
	return open("a survey found asbestos, which no cost line is known to cover; notice and methods are prescribed", needAsbestosCost)
}
