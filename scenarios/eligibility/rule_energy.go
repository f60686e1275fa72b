package eligibility

var energyInsulation = Rule{
	ID:     "energy-insulation",
	Title:  "when a roof with all its insulation above the deck is torn off, the insulation is brought up to the energy code, or a reason for leaving it is stated",
	Source: "International Energy Conservation Code 2015, C503.3.1, as reported in the trade press", // [IECC2015]
	Mark:   Published,
	Works:  []Work{TearOff},
	Judge:  judgeEnergy,
}

func judgeEnergy(f Findings, o Option) Outcome {
	planned, known := o.Insulation.Get()
	switch {
	case planned.Priced:
		return pass("a cost line brings the insulation up to the energy code", o.Insulation)
	case planned.Waived != "":
		return pass("the insulation is left as it is, and the reason stated is “"+planned.Waived+"”", o.Insulation)
	}
	trigger := judgeTrigger(f)
	switch {
	case trigger.Verdict != Fail:
		return trigger
	case !known:
		return open(trigger.Says, needInsulation)
	}
	return fail(trigger.Says+", and no cost line does it", f.EnergyCode, f.AboveDeck, f.InEnvelope, o.Insulation)
}

// judgeTrigger tells whether the energy code asks for anything: it fails when
// it does.
func judgeTrigger(f Findings) Outcome {
	code, known := f.EnergyCode.Get()
	switch {
	case !known:
		return open("", needEnergyCode)
	case code == NoEnergyCode:
		return pass("no energy code is adopted here", f.EnergyCode)
	case code != IECC2015:
		return open("the energy code adopted here is "+energyCodeNames[code]+", whose words on roof replacement are not stated", needEnergyClause)
	case no(f.AboveDeck):
		return pass("not all of the roof's insulation lies above the deck, which asks for nothing", f.EnergyCode, f.AboveDeck)
	case no(f.InEnvelope):
		return pass("the roof is no part of the heated or cooled envelope, which asks for nothing", f.EnergyCode, f.InEnvelope)
	case !f.AboveDeck.IsKnown() && !f.InEnvelope.IsKnown():
		return open("", needAboveDeck, needEnvelope)
	case !f.AboveDeck.IsKnown():
		return open("", needAboveDeck)
	case !f.InEnvelope.IsKnown():
		return open("", needEnvelope)
	}
	return fail("the insulation lies above the deck and bounds the heated or cooled space, so the energy code asks to bring it up")
}
