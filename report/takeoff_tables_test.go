package report

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

// 11,300 ft² × 20 mil ÷ (1604.1666… × 0.52 × 0.9) = 301.03 gal: 61 pails of 5 gal at 41.37 a gallon are 12,617.85.
func TestCostsFootToTheLedger(t *testing.T) {
	w := coatedRoof().work(t)
	ledger, shownSum := decimal.Zero, decimal.Zero
	for _, line := range w.Alternatives[0].Ledger {
		if line.Time == 0 {
			ledger = ledger.Add(line.Amount)
		}
	}
	for _, row := range w.costsTable().Rows[:len(w.costs)] {
		shownSum = shownSum.Add(row.Cells[5].Number)
	}
	assert.True(t, shownSum.Equal(ledger) && w.sum("").Equal(ledger), "%s, %s, %s", shownSum, w.sum(""), ledger)
	assert.True(t, ledger.Equal(w.Alternatives[0].First))
	assert.Equal(t, "The work costs $22,805.49", w.costsHeading())
	assert.Equal(t, "That is $9,025.31 for labour, $12,617.85 for material, $750.00 in lump sums and $412.33 for the rest. Each line is a first cost of “Coating” as the ledger has it at base-date prices, and the lines add up to the cent.", w.costsLead())
	assert.Equal(t, [][]string{
		{"Washing", "1. Wash", "labour", "11,300 ft²", "$0.185 per ft²", "2,090.50"},
		{"Coat: labour", "2. Coat", "labour", "11,300 ft²", "$0.6137 per ft²", "6,934.81"},
		{"Coat: paint", "2. Coat", "material", "305 gal", "$41.37 per gal", "12,617.85"},
		{"Inspection", "3. Inspect", "lump sum", "lump sum", "$750.00", "750.00"},
		{"Permit", "no step", "other", "lump sum", "$412.33", "412.33"},
		{"Labour", "", "", "", "", "9,025.31"},
		{"Material", "", "", "", "", "12,617.85"},
		{"Lump sums", "", "", "", "", "750.00"},
		{"Other", "", "", "", "", "412.33"},
		{"All first costs", "", "", "", "", "22,805.49"},
	}, shown(w.costsTable()))
}

func TestTheTablesOfATakeOff(t *testing.T) {
	w := coatedRoof().work(t)
	w.off.Notches[1] = num("40")
	assert.Equal(t, [][]string{
		{"Acrylic, white", "2. Coat", "301.03 gal", "2.664 gal per 100 ft²", "61 × 5 gal", "305 gal", "3.97 gal", "$41.37 per gal", "12,617.85"},
		{"All materials", "", "", "", "", "", "", "", "12,617.85"},
	}, shown(w.boughtTable()))
	assert.Equal(t, [][]string{{"2. Coat", "20 mil", "52%", "10%", "38.5 mil", "40 mil"}}, shown(w.coatsTable()))
	assert.Equal(t, [][]string{
		{"Areas", "", "", ""},
		{"Plan area", "10,000 ft²", "as measured", "drawing A1"},
		{"Surface", "11,300 ft²", "10,000 ft² × 1.13", "–"},
		{"Counts", "", "", ""},
		{"Screws", "4,200", "as counted", "no source given"},
	}, shown(w.measuredTable()))
	assert.Equal(t, [][]string{
		{"1. Wash", "rinse downhill", "11,300 ft²", "24 hours"},
		{"2. Coat", "–", "11,300 ft²", "12.5 hours"},
		{"3. Inspect", "–", "done once", "2 hours"},
	}, shown(w.stepsTable()))
}

// Each of these was read aloud.
func TestSentencesOfATakeOff(t *testing.T) {
	w := coatedRoof().work(t)
	assert.Equal(t, "The survey gives three measures of this roof", w.measuredSection().Heading)
	assert.Equal(t, "One material has to be bought, for $12,617.85", w.boughtHeading())
	assert.Equal(t, "The work is done in three steps, with at least 36.5 hours of waiting between them", w.stepsHeading())
	assert.Equal(t, "“Coating” takes three steps of work, and 305 gallons of coating are bought for it", w.workHeading())
	life := "The service life of “Coating” (16 years) follows from the film and how fast it wears. Rates of wear are weakly sourced: no standard states one, and what is published is a single trade text. "
	assert.Equal(t, life+"The study names no source for its own rate. Have the film measured over the years.", w.filmLife())
	j := coatedRoof()
	j.study.Inputs[j.at["wear"]].Source = "own measurements"
	j.study.Systems[0].Recoat = &lcc.Recoating{AtMost: 1, Life: j.at["life"], Costs: []lcc.Item{{Name: "recoat", Price: j.at["fee"], Quantity: lcc.NoRef, Growth: lcc.NoRef}}}
	assert.Contains(t, j.work(t).filmLife(), "The service life of “Coating” (16 years) and the life that a recoat of “Coating” gives (16 years) follow from the film")
	assert.Contains(t, j.work(t).filmLife(), "The study names for its own rate: own measurements. Have")
	j.study.Systems[0].Life, j.study.Systems[0].Recoat = j.at["new life"], nil
	assert.Empty(t, j.work(t).filmLife())
	for volume, want := range map[string]string{"1": "1 gallon", "0.5": "0.5 gallons", "1240": "1,240 gallons", "301.03": "about 301 gallons"} {
		assert.Equal(t, want, amountOf(num(volume), "gal"))
	}
	assert.Equal(t, "4,700 litres", amountOf(num("4700"), "L"))
	assert.Equal(t, "12 m²", amountOf(num("12"), "m2"))
}

// The edges of what a take-off may hold.
func TestEdgesOfATakeOff(t *testing.T) {
	for _, c := range []struct {
		name                      string
		change                    func(*job)
		bought, steps, work, cost string
	}{
		{"no step and no cost", func(j *job) { j.off.Steps, j.study.Systems[0].First = nil, nil },
			"Nothing has to be bought for the work", "No step of work is planned", "“Coating” takes no steps of work", "No cost of the work is stated"},
		{"one step without material", func(j *job) { j.off.Steps = j.off.Steps[2:] },
			"Nothing has to be bought for the work", "The work is done in one step", "“Coating” takes one step of work", "The work costs $22,805.49"},
		{"nothing to coat", func(j *job) { j.study.Inputs[j.at["ribs"]].Likely = decimal.Zero },
			"Nothing has to be bought for the work", "The work is done in three steps, with at least 36.5 hours of waiting between them", "“Coating” takes three steps of work, and no coating is bought for it", "The work costs $1,162.33"},
		{"without a price", func(j *job) {
			j.off.Steps[1].Material.Price, j.off.Steps[0].Wait, j.off.Steps[1].Wait = lcc.NoRef, decimal.Zero, one
		},
			"One material has to be bought, without a stated price", "The work is done in three steps, with at least 1 hour of waiting between them", "“Coating” takes three steps of work, and 305 gallons of coating are bought for it", "The work costs $22,805.49"},
		{"in no alternative", func(j *job) { j.study.Alternatives[0].Start = 1 },
			"One material has to be bought", "The work is done in three steps, with at least 36.5 hours of waiting between them", "“Coating” takes three steps of work, and 305 gallons of coating are bought for it", "No alternative installs “Coating” within the study period, so the ledgers hold no cost of it"},
		{"two materials, one priced", func(j *job) {
			m := *j.off.Steps[1].Material
			m.Price, m.Pack, m.Coat, m.Bought = lcc.NoRef, decimal.Zero, nil, m.Needed
			j.off.Steps[0].Material = &m
		},
			"Two materials have to be bought, one of them without a stated price", "The work is done in three steps, with at least 36.5 hours of waiting between them", "“Coating” takes three steps of work, and 305 gallons of coating are bought for it", "The work costs $22,805.49"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := coatedRoof()
			c.change(j)
			w := j.work(t)
			assert.Equal(t, []string{c.bought, c.steps, c.work, c.cost}, []string{w.boughtHeading(), w.stepsHeading(), w.workHeading(), w.costsHeading()})
			assert.NotEmpty(t, TakeOffDocument(w.Study).Sections)
		})
	}
}

// A system that is installed later is charged at base-date prices.
func TestTheWorkOfALaterSystem(t *testing.T) {
	j := coatedRoof()
	j.study.Alternatives[0].Wait = &lcc.Wait{On: 1, Years: 3}
	j.study.Systems[1].InPlace, j.study.Systems[1].First = true, nil
	w := j.work(t)
	assert.Equal(t, "The work costs $22,805.49", w.costsHeading())
	assert.True(t, w.Alternatives[0].First.IsZero())
}

// What makes no film is a loss, or paint over that of a smooth surface.
func TestTheLossOfACoat(t *testing.T) {
	w := coatedRoof().work(t)
	c := w.off.Steps[1].Material.Coat
	c.Loss, c.Extra = lcc.NoRef, c.Loss
	assert.Equal(t, "10% more paint", shown(w.coatsTable())[0][3])
	c.Extra = lcc.NoRef
	assert.Equal(t, "none stated", shown(w.coatsTable())[0][3])
}

// Two steps at one price over one area each have a cost of their own.
func TestStepsThatShareAPrice(t *testing.T) {
	j := coatedRoof()
	j.off.Steps[1].Labour = j.off.Steps[0].Labour
	first := j.study.Systems[0].First
	first[1].Price = first[0].Price
	w := j.work(t)
	assert.Equal(t, []int{0, 1, 1, 2, -1}, []int{w.costs[0].Step, w.costs[1].Step, w.costs[2].Step, w.costs[3].Step, w.costs[4].Step})
}

// A quantity is shown with as many decimals as its amount needs.
func TestAQuantityTimesItsPriceIsTheAmount(t *testing.T) {
	j := coatedRoof()
	j.study.Inputs[j.at["ribs"]].Likely = num("1.130033337")
	w := j.work(t)
	assert.Equal(t, []string{"11,300.3 ft²", "$0.185 per ft²", "2,090.56"}, shown(w.costsTable())[0][3:])
	assert.Equal(t, []string{"11,300.33 ft²", "$0.6137 per ft²", "6,935.01"}, shown(w.costsTable())[1][3:])
}

func TestThePageHasATakeOffOnlyWhereTheStudyHas(t *testing.T) {
	in := coatedRoof().told(t)
	sections := func(in Study) (ids []string) {
		doc, err := Build(in)
		require.NoError(t, err)
		for _, s := range doc.Sections {
			ids = append(ids, s.ID)
		}
		return ids
	}
	assert.Contains(t, sections(in), "take-off")
	in.TakeOff = nil
	assert.NotContains(t, sections(in), "take-off")
}
