package report

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
)

// job is a study that is built by hand, with names for its inputs.
type job struct {
	study *lcc.Study
	off   takeoff.TakeOff
	at    map[string]lcc.Ref
}

func (j *job) add(name string, unit lcc.Unit, unitText, value string) lcc.Ref {
	j.at[name] = j.study.Add(lcc.Input{Path: name, Label: name, Unit: unit, UnitText: unitText, Likely: num(value)})
	return j.at[name]
}

func (j *job) charge(name string, price, quantity lcc.Ref) {
	first := &j.study.Systems[0].First
	*first = append(*first, lcc.Item{Name: name, Price: price, Quantity: quantity, Growth: lcc.NoRef})
}

// coatedRoof is a metal roof of 10,000 ft² that is washed, coated from pails of
// five gallons, and inspected for a lump sum. Of fees no step knows.
func coatedRoof() *job {
	j := &job{study: &lcc.Study{Period: 20, Inflation: lcc.NoRef}, at: map[string]lcc.Ref{}}
	s := j.study
	s.About = lcc.About{Title: "A roof", BaseDate: "2026-01-01", Currency: "USD", Digits: 2, AreaUnit: "ft2"}
	s.Systems = make([]lcc.System, 2)
	s.Rate, s.Area = j.add("rate", lcc.Rate, "", "0.03"), j.add("plan", lcc.Area, "ft2", "10000")
	ribs, surface := j.add("ribs", lcc.Count, "", "1.13"), j.add("surface", lcc.Count, "ft2", "0")
	film, solids, loss := j.add("film", lcc.Count, "mil", "20"), j.add("solids", lcc.Count, "", "0.52"), j.add("loss", lcc.Count, "", "0.1")
	wet, needed, bought := j.add("wet", lcc.Count, "mil", "0"), j.add("needed", lcc.Count, "gal", "0"), j.add("bought", lcc.Count, "gal", "0")
	life, wear := j.add("life", lcc.Years, "", "0"), j.add("wear", lcc.Count, "mil", "1.25")
	screws := j.add("screws", lcc.Count, "", "4200")
	paint := []lcc.Factor{{Of: surface}, {Of: film}, {Of: solids, How: lcc.Over}, {Of: loss, How: lcc.OverRest}}
	s.Derived = []lcc.Derivation{
		{In: surface, Terms: []lcc.Term{{Coefficient: one, Factors: []lcc.Factor{{Of: s.Area}, {Of: ribs}}}}},
		{In: wet, Terms: []lcc.Term{{Coefficient: one, Factors: []lcc.Factor{{Of: film}, {Of: solids, How: lcc.Over}}}}},
		{In: needed, Terms: []lcc.Term{{Coefficient: num("0.000623376623376623"), Factors: paint}}},
		{In: bought, Pack: num("5"), Terms: []lcc.Term{{Coefficient: one, Factors: []lcc.Factor{{Of: needed}}}}},
		{In: life, Terms: []lcc.Term{{Coefficient: one, Factors: []lcc.Factor{{Of: film}, {Of: wear, How: lcc.Over}}}}},
	}
	wash, roll, pail := j.add("washing", lcc.Price, "per ft2", "0.185"), j.add("rolling", lcc.Price, "per ft2", "0.6137"), j.add("pail", lcc.Price, "per gal", "41.37")
	look, fee := j.add("inspection", lcc.Money, "", "750"), j.add("fee", lcc.Money, "", "412.33")
	s.Systems[0] = lcc.System{Key: "coating", Name: "Coating", Work: lcc.WorkRestore, Life: life}
	s.Systems[1] = lcc.System{Key: "new", Name: "New roof", Life: j.add("new life", lcc.Years, "", "25"), Then: 1,
		First: []lcc.Item{{Name: "roof", Price: j.add("roof", lcc.Price, "per ft2", "9"), Quantity: s.Area, Growth: lcc.NoRef}}}
	j.charge("Washing", wash, surface)
	j.charge("Coat: labour", roll, surface)
	j.charge("Coat: paint", pail, bought)
	j.charge("Inspection", look, lcc.NoRef)
	j.charge("Permit", fee, lcc.NoRef)
	s.Alternatives = []lcc.Alternative{{Name: "Coat", BaseCase: true}, {Name: "New", Start: 1}}
	j.off = takeoff.TakeOff{
		Measured: []takeoff.Measure{
			{Group: takeoff.Counts, Key: "screws", Label: "Screws", In: screws},
			{Group: takeoff.Areas, Key: "area", Label: "Plan area", In: s.Area, Source: "drawing A1"},
			{Group: takeoff.Areas, Key: "surface", Label: "Surface", In: surface, How: "10,000 ft² × 1.13"},
		},
		Steps: []takeoff.Step{
			{Name: "Wash", Over: surface, Labour: wash, Wait: num("24"), Note: "rinse downhill"},
			{Name: "Coat", Over: surface, Labour: roll, Wait: num("12.5"), Material: &takeoff.Material{
				Name: "Acrylic", Colour: "white", Needed: needed, Bought: bought, Pack: num("5"), Price: pail,
				Coat: &takeoff.Coat{Dry: film, Solids: solids, Loss: loss, Extra: lcc.NoRef, Wet: wet},
			}},
			{Name: "Inspect", Over: lcc.NoRef, Labour: look, Wait: num("2")},
		},
	}
	return j
}

// told evaluates the job.
func (j *job) told(t *testing.T) Study {
	t.Helper()
	r, err := j.study.Evaluate()
	require.NoError(t, err)
	return Study{Result: r, TakeOff: &TakeOff{TakeOff: j.off, Notches: make([]decimal.Decimal, len(j.off.Steps))}}
}

func (j *job) work(t *testing.T) *worker { return tell(j.told(t)).work() }

// shown are the cells of a table as they are read.
func shown(t Table) [][]string {
	var out [][]string
	for _, row := range t.Rows {
		cells := []string{}
		for _, c := range row.Cells {
			cells = append(cells, c.Show(Currency{"USD", 2}))
		}
		out = append(out, cells)
	}
	return out
}
