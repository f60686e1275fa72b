package eligibility

var windUplift = Rule{
	ID:     "wind-uplift",
	Title:  "a new covering holds against the wind loads asked for, down to the old attachment under it",
	Source: "from memory: International Building Code, 1504 and 1609",
	Mark:   Recall,
	Works:  []Work{Recover, TearOff},
	Judge:  judgeWind,
}

func judgeWind(_ Findings, o Option) Outcome {
	switch {
	case yes(o.WindShown):
		return advise("the new covering is shown to hold against the wind loads asked for; keep the calculation with the contract", o.WindShown)
	case o.Work == Recover:
		return advise("ask for the wind calculation: under a roof that is roofed over, the old attachment is the weak link")
	}
	return advise("ask for the wind calculation of the new covering and its attachment")
}
