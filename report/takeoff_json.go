package report

import (
	"encoding/json"
	"io"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
)

// The types below are the take-off for programs, keys in its order. Numbers
// have all their digits; amounts have the currency's. What the study does not
// state is null. Units are written as in a study file: ft2, um; "" is pieces.
// A step is named by its number, from 1.
type (
	takeOffDoc struct {
		Version   int               `json:"roofyears"`
		Title     string            `json:"title"`
		BaseDate  string            `json:"base_date"`
		Currency  string            `json:"currency"`
		System    string            `json:"system"`
		Measured  []takeOffMeasure  `json:"measured"`
		Materials []takeOffMaterial `json:"materials"`
		Steps     []takeOffStep     `json:"steps"`
		Costs     []takeOffCost     `json:"costs"`
		Total     json.Number       `json:"first_cost"`
	}
	takeOffMeasure struct {
		Group    string      `json:"group"`
		Key      string      `json:"key"`
		Label    string      `json:"label"`
		Quantity json.Number `json:"quantity"`
		Unit     string      `json:"unit"`
		How      string      `json:"how"`
		Source   string      `json:"source"`
	}
	takeOffMaterial struct {
		Step      int          `json:"step"`
		Name      string       `json:"name"`
		Colour    string       `json:"colour"`
		Needed    json.Number  `json:"needed"`
		Unit      string       `json:"unit"` // of needed, bought, left over and pack
		Rate      *json.Number `json:"needed_per"`
		RateOf    string       `json:"needed_per_unit"` // 100 ft2, 100 ft, m2, m or piece
		Pack      *json.Number `json:"pack"`
		Packs     *json.Number `json:"packs"`
		Bought    json.Number  `json:"bought"`
		LeftOver  json.Number  `json:"left_over"`
		UnitPrice *json.Number `json:"unit_price"`
		Cost      *json.Number `json:"cost"`
		Coat      *takeOffCoat `json:"coat"`
	}
	takeOffCoat struct {
		Dry    *json.Number `json:"dry_film"`
		Wet    *json.Number `json:"wet_film"`
		Notch  *json.Number `json:"gauge_notch"`
		Unit   string       `json:"film_unit"`
		Solids *json.Number `json:"volume_solids"` // a fraction
		Loss   *json.Number `json:"loss"`          // a fraction of the paint
		Extra  *json.Number `json:"extra_paint"`   // a fraction of the paint of a smooth surface
	}
	takeOffStep struct {
		Number   int          `json:"number"`
		Name     string       `json:"name"`
		Quantity *json.Number `json:"quantity"` // null: done once
		Unit     string       `json:"unit"`
		Wait     *json.Number `json:"then_wait_hours"`
		Note     string       `json:"note"`
	}
	takeOffCost struct {
		Item     string       `json:"item"`
		Kind     string       `json:"kind"` // labour, material, lump sum or other
		Step     *int         `json:"step"` // null: of no step
		Quantity *json.Number `json:"quantity"`
		Unit     string       `json:"unit"`
		Price    json.Number  `json:"price"` // per unit; the whole amount where there is no quantity
		Amount   json.Number  `json:"amount"`
	}
)

// WriteTakeOff writes the take-off as indented JSON. The study has one.
func WriteTakeOff(out io.Writer, in Study) error { return writeJSON(out, tell(in).work().json()) }

func (w *worker) json() *takeOffDoc {
	about := w.study.About
	doc := &takeOffDoc{
		Version: formatVersion, Title: about.Title, BaseDate: about.BaseDate, Currency: about.Currency, System: w.study.Systems[w.off.System].Key,
		Measured: []takeOffMeasure{}, Materials: []takeOffMaterial{}, Steps: []takeOffStep{}, Costs: []takeOffCost{}, Total: w.money(w.sum("")),
	}
	for i := range w.off.Measured {
		doc.Measured = append(doc.Measured, w.measureJSON(&w.off.Measured[i]))
	}
	for _, g := range w.goods() {
		doc.Materials = append(doc.Materials, w.materialJSON(&g))
	}
	for i := range w.off.Steps {
		doc.Steps = append(doc.Steps, w.stepJSON(i, &w.off.Steps[i]))
	}
	for i := range w.costs {
		doc.Costs = append(doc.Costs, w.costJSON(&w.costs[i]))
	}
	return doc
}

// groupKeys are the groups of measures for programs.
var groupKeys = map[takeoff.Group]string{
	takeoff.Areas: "area", takeoff.Lengths: "length", takeoff.Counts: "count", takeoff.Condition: "condition",
}

func (w *worker) measureJSON(m *takeoff.Measure) takeOffMeasure {
	return takeOffMeasure{groupKeys[m.Group], m.Key, m.Label, plainNumber(w.Inputs[m.In]), w.unitOf(m.In), m.How, m.Source}
}

func (w *worker) materialJSON(g *goods) takeOffMaterial {
	out := takeOffMaterial{
		Step: g.Step + 1, Name: g.Name, Colour: g.Colour, Needed: plainNumber(g.Needed), Unit: g.Unit, RateOf: g.Rate.Per,
		Bought: plainNumber(g.Bought), LeftOver: plainNumber(g.Over()), UnitPrice: w.given(g.Price),
		Rate: numberIf(g.Rate.Quantity, g.Rate.Per != ""), Pack: numberIf(g.Pack, g.Pack.IsPositive()), Packs: numberIf(g.Packs(), g.Pack.IsPositive()),
	}
	if amount, ok := w.cost(g.Step, materialCost); ok {
		cost := w.money(amount)
		out.Cost = &cost
	}
	if c := g.Coat; c != nil {
		out.Coat = &takeOffCoat{Dry: w.given(c.Dry), Wet: w.given(c.Wet), Notch: numberIf(w.notch(g.Step)), Solids: w.given(c.Solids), Loss: w.given(c.Loss), Extra: w.given(c.Extra)}
		if c.Wet != lcc.NoRef {
			out.Coat.Unit = w.study.Inputs[c.Wet].UnitText
		}
	}
	return out
}

func (w *worker) stepJSON(i int, s *takeoff.Step) takeOffStep {
	return takeOffStep{i + 1, s.Name, w.given(s.Over), w.unitOf(s.Over), numberIf(s.Wait, s.Wait.IsPositive()), s.Note}
}

func (w *worker) costJSON(c *workCost) takeOffCost {
	out := takeOffCost{Item: c.Name, Kind: string(c.Kind), Quantity: w.given(c.Quantity), Unit: w.unitOf(c.Quantity),
		Price: plainNumber(w.Inputs[c.Price]), Amount: w.money(c.Amount)}
	if step := c.Step + 1; step > 0 {
		out.Step = &step
	}
	return out
}

// given is the value of an input; nil where the study has none.
func (w *worker) given(r lcc.Ref) *json.Number { return numberIf(w.film(r)) }

// unitOf is the unit of an input that may not be there.
func (w *worker) unitOf(r lcc.Ref) string {
	if r == lcc.NoRef {
		return ""
	}
	if unit := w.study.Inputs[r].UnitText; unit != percentUnit {
		return unit
	}
	return "fraction"
}

func numberIf(v decimal.Decimal, ok bool) *json.Number {
	if !ok {
		return nil
	}
	n := plainNumber(v)
	return &n
}
