package report

import "roofyears/lcc/risk"

// RiskDocument shows a simulation.
func RiskDocument(in Study, r *risk.Result) *Document {
	t := tell(in)
	return t.document(t.riskSection(r))
}
