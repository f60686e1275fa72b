package scenarios

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/scenarios/eligibility"
	"roofyears/scenarios/units"
)

// surveyFindings are what a survey tells the rules: its rust, and which part
// of the plan area is wet or ponds, all at their likely values.
func (r *reader) surveyFindings() eligibility.Findings {
	var f eligibility.Findings
	if r.failed() {
		return f // places may be missing; the errors are told
	}
	v := r.study.Likely()
	value := func(path string) (decimal.Decimal, string, bool) {
		in := r.study.Find(path)
		if in == lcc.NoRef {
			return decimal.Zero, "", false
		}
		return v[in], r.study.Inputs[in].Source, true
	}
	var rust eligibility.Rust
	known, from := false, ""
	for i, grade := range []*decimal.Decimal{&rust.Light, &rust.Scaled, &rust.Perforated} {
		if x, source, found := value("survey.rust." + rustKeys[i]); found {
			*grade, known = x, rustKeys[i] == perforatedRust // the last one
			if from == "" {
				from = source
			}
		}
	}
	if known {
		f.Rust = eligibility.Found(rust, from)
	}
	area := v[r.study.Area]
	if !area.IsPositive() {
		return f
	}
	for path, part := range map[string]*eligibility.Known[decimal.Decimal]{"survey.wet.area": &f.WetShare, "survey.ponding.area": &f.Ponding} {
		if x, source, found := value(path); found {
			*part = eligibility.Found(decimal.Min(units.Quotient(x, area), decimal.NewFromInt(1)), source)
		}
	}
	return f
}
