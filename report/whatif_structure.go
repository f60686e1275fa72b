package report

import (
	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// Structure is a study as data: what lcc.Study holds of the method, and the
// vector it is evaluated at. Numbers that name an input are places in Values;
// those that name a system are places in Systems. What a study does not have
// is left out.
type Structure struct {
	Period       int                    `json:"period"`
	Timing       string                 `json:"timing"`
	Basis        string                 `json:"basis"`
	Digits       int32                  `json:"digits"` // of the currency's minor unit
	Rate         lcc.Ref                `json:"rate"`
	Inflation    *lcc.Ref               `json:"inflation,omitempty"`
	Escalation   map[string][]lcc.Ref   `json:"escalation"` // by category; no entry, one, or one a year
	Values       []decimal.Decimal      `json:"values"`
	Derived      []structureDerivation  `json:"derived,omitempty"` // what follows from other values, in order
	Systems      []structureSystem      `json:"systems"`
	Alternatives []structureAlternative `json:"alternatives"`
}

type structureDerivation struct {
	In    lcc.Ref          `json:"in"`
	Terms []structureTerm  `json:"terms"`
	Pack  *decimal.Decimal `json:"pack,omitempty"`
	// Signed: less than nothing is not nothing, as of money.
	Signed bool `json:"signed,omitempty"`
}

type structureTerm struct {
	Coefficient decimal.Decimal   `json:"coefficient"`
	Factors     []structureFactor `json:"factors"`
}

type structureFactor struct {
	Of  lcc.Ref `json:"of"`
	How string  `json:"how"` // times, over, rest (to one) or over_rest
}

type structureSystem struct {
	Name     string            `json:"name"`
	InPlace  bool              `json:"in_place,omitempty"`
	Life     lcc.Ref           `json:"life"`
	First    []structureItem   `json:"first"`
	Annual   []structureItem   `json:"annual"`
	Periodic []structureItem   `json:"periodic"`
	Removal  []structureItem   `json:"removal"`
	Recoat   *structureRecoat  `json:"recoat,omitempty"`
	Residual structureResidual `json:"residual"`
	Then     int               `json:"then"`
}

type structureItem struct {
	Category string   `json:"category"`
	Price    lcc.Ref  `json:"price"`
	Quantity *lcc.Ref `json:"quantity,omitempty"`
	Growth   *lcc.Ref `json:"growth,omitempty"`
	Every    int      `json:"every,omitempty"`
	KeepsAge bool     `json:"keeps_age,omitempty"`
}

type structureRecoat struct {
	AtMost int             `json:"at_most"`
	Life   lcc.Ref         `json:"life"`
	Costs  []structureItem `json:"costs"`
}

type structureResidual struct {
	Mode   string   `json:"mode"` // prorated, none or amount
	Amount *lcc.Ref `json:"amount,omitempty"`
}

type structureAlternative struct {
	Name     string         `json:"name"`
	Start    int            `json:"start"`
	Wait     *structureWait `json:"wait,omitempty"`
	BaseCase bool           `json:"base_case,omitempty"`
	Eligible bool           `json:"eligible"`
}

type structureWait struct {
	On    int `json:"on"`
	Years int `json:"years"`
}

// StructureOf writes a study down as data, at its likely values.
func StructureOf(s *lcc.Study) Structure { return structureOf(s, s.Likely()) }

func structureOf(s *lcc.Study, v lcc.Vector) Structure {
	out := Structure{
		Period: s.Period, Timing: s.Timing.String(), Basis: s.Basis.String(), Digits: s.About.Digits,
		Rate: s.Rate, Inflation: optional(s.Inflation), Escalation: map[string][]lcc.Ref{}, Values: v,
	}
	for c, series := range s.Escalation {
		if len(series) > 0 {
			out.Escalation[lcc.Category(c).String()] = series
		}
	}
	for i := range s.Derived {
		out.Derived = append(out.Derived, derivationData(s, &s.Derived[i]))
	}
	for i := range s.Systems {
		out.Systems = append(out.Systems, systemData(&s.Systems[i]))
	}
	for _, a := range s.Alternatives {
		data := structureAlternative{Name: a.Name, Start: a.Start, BaseCase: a.BaseCase, Eligible: a.Eligible()}
		if a.Wait != nil {
			data.Wait = &structureWait{a.Wait.On, a.Wait.Years}
		}
		out.Alternatives = append(out.Alternatives, data)
	}
	return out
}

func derivationData(s *lcc.Study, d *lcc.Derivation) structureDerivation {
	unit := s.Inputs[d.In].Unit
	out := structureDerivation{In: d.In, Signed: unit == lcc.Money || unit == lcc.Price}
	if d.Pack.IsPositive() {
		out.Pack = &d.Pack
	}
	for _, term := range d.Terms {
		data := structureTerm{Coefficient: term.Coefficient, Factors: []structureFactor{}}
		for _, f := range term.Factors {
			how := [...]string{lcc.Times: "times", lcc.Over: "over", lcc.Rest: "rest", lcc.OverRest: "over_rest"}[f.How]
			data.Factors = append(data.Factors, structureFactor{f.Of, how})
		}
		out.Terms = append(out.Terms, data)
	}
	return out
}

func systemData(y *lcc.System) structureSystem {
	out := structureSystem{
		Name: y.Name, InPlace: y.InPlace, Life: y.Life, Then: y.Then,
		First: itemData(y.First), Annual: itemData(y.Annual), Periodic: itemData(y.Periodic), Removal: itemData(y.Removal),
		Residual: structureResidual{Mode: [...]string{lcc.Prorated: "prorated", lcc.NoResidual: "none", lcc.FixedAmount: "amount"}[y.Residual.Mode]},
	}
	if y.Residual.Mode == lcc.FixedAmount {
		out.Residual.Amount = optional(y.Residual.Amount)
	}
	if y.Recoat != nil {
		out.Recoat = &structureRecoat{y.Recoat.AtMost, y.Recoat.Life, itemData(y.Recoat.Costs)}
	}
	return out
}

func itemData(items []lcc.Item) []structureItem {
	out := []structureItem{}
	for _, it := range items {
		out = append(out, structureItem{it.Category.String(), it.Price, optional(it.Quantity), optional(it.Growth), it.Every, it.KeepsAge})
	}
	return out
}

// optional is a place of an input; nil for none.
func optional(r lcc.Ref) *lcc.Ref {
	if r == lcc.NoRef {
		return nil
	}
	return &r
}
