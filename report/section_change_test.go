package report

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/vary"
)

func num(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// The inputs of asked, by place.
const (
	rateIn lcc.Ref = iota
	areaIn
	keepLife
	keepYearly
	restoreLife
	restoreFirst
	tearOffLife
	tearOffFirst
)

// The alternatives of asked.
const (
	keepIt = iota
	restoreIt
	tearItOff
)

// asked is a study of three alternatives at 3 %: restoring, at 40,000 with a life of 10 years, is the
// answer, keeping costs 85,302 and tearing off 150,000.
func asked(t *testing.T) *teller {
	in := studyOf(t, 3, choice{name: "Keep", work: lcc.WorkExisting, yearly: 10_000},
		choice{name: "Restore", work: lcc.WorkRestore, first: 40_000}, choice{name: "Tear off", work: lcc.WorkTearOff, first: 150_000})
	inputs := in.Result.Study.Inputs
	for ref, words := range map[lcc.Ref][2]string{
		rateIn: {"", "Discount rate"}, areaIn: {"", "Plan area of the roof"},
		keepLife: {"Old roof", "Years left"}, keepYearly: {"Old roof", "Patching, amount"},
		restoreLife: {"Coating", "Service life"}, restoreFirst: {"Coating", "Base and finish coat, unit price"},
		tearOffLife: {"New roof", "Service life"}, tearOffFirst: {"New roof", "Panels, amount"},
	} {
		inputs[ref].Of, inputs[ref].Label = words[0], words[1]
	}
	inputs[areaIn].UnitText = "ft2"
	inputs[restoreFirst].Unit, inputs[restoreFirst].UnitText = lcc.Price, "per ft2"
	require.Equal(t, restoreIt, in.Result.Answer.Lowest)
	return tell(in)
}

// tie is one of restoring and a rival.
func tie(rival int, at string) *lcc.Tie {
	return &lcc.Tie{A: min(restoreIt, rival), B: max(restoreIt, rival), At: num(at)}
}

// step is a tie in a jump, by what A costs more than B on either side.
func step(rival int, at, gap, next string) *lcc.Tie {
	s := tie(rival, at)
	s.Step, s.GapAt, s.GapNext = true, num(gap), num(next)
	return s
}

// held is a hold of some stretches, each from a tie, nil or a number, to another.
func held(in lcc.Ref, low, high string, ends ...*lcc.Tie) *lcc.Hold {
	h := &lcc.Hold{In: in, Low: num(low), High: num(high)}
	for i := 0; i+1 < len(ends); i += 2 {
		s := lcc.Interval{From: h.Low, To: h.High, FromTie: ends[i], ToTie: ends[i+1]}
		if ends[i] != nil {
			s.From = ends[i].At
			h.Ties = append(h.Ties, *ends[i])
		}
		if ends[i+1] != nil {
			s.To = ends[i+1].At
			h.Ties = append(h.Ties, *ends[i+1])
		}
		h.Within = append(h.Within, s)
	}
	return h
}

// Each of these was read aloud.
func TestHoldSentences(t *testing.T) {
	for _, c := range []struct {
		name string
		hold *lcc.Hold
		want string
	}{
		{"at most", held(rateIn, "0", "0.12", nil, tie(keepIt, "0.0841234")),
			"“Restore” stays the lowest as long as the discount rate is at most 8.41% (it is 3%). Above that, “Keep” is cheaper."},
		{"at least", held(rateIn, "0", "0.12", tie(tearItOff, "0.0125"), nil),
			"“Restore” stays the lowest as long as the discount rate is at least 1.25% (it is 3%). Below that, “Tear off” is cheaper."},
		{"between two rivals", held(rateIn, "0", "0.12", tie(tearItOff, "0.01"), tie(keepIt, "0.09")),
			"“Restore” stays the lowest as long as the discount rate is between 1% and 9% (it is 3%). Below that, “Tear off” is cheaper. Above that, “Keep” is cheaper."},
		{"two stretches", held(rateIn, "0", "0.12", nil, tie(keepIt, "0.05"), tie(keepIt, "0.09"), nil),
			"“Restore” stays the lowest as long as the discount rate is at most 5%, or at least 9% (it is 3%). Above that, “Keep” is cheaper."},
		{"three stretches", held(rateIn, "0", "0.12", nil, tie(keepIt, "0.01"), tie(tearItOff, "0.02"), tie(keepIt, "0.05"), tie(keepIt, "0.09"), nil),
			"“Restore” stays the lowest as long as the discount rate is at most 1%, or between 2% and 5%, or at least 9% (it is 3%). Below that, “Tear off” is cheaper. Above that, “Keep” is cheaper."},
		{"a price", held(restoreFirst, "0", "400000", nil, tie(keepIt, "85302.037")),
			"“Restore” stays the lowest as long as “Coating”, base and finish coat, unit price, is at most $85,302.04 per ft² (it is $40,000.00 per ft²). Above that, “Keep” is cheaper."},
		{"an amount", held(keepYearly, "0", "100000", tie(keepIt, "4689.2"), nil),
			"“Restore” stays the lowest as long as “Old roof”, patching, amount, is at least $4,689.20 (it is $10,000.00). Below that, “Keep” is cheaper."},
		{"an area", held(areaIn, "1", "10000", nil, tie(keepIt, "2132.551")),
			"“Restore” stays the lowest as long as the plan area of the roof is at most 2,133 ft² (it is 1,000 ft²). Above that, “Keep” is cheaper."},
		{"next to nothing", held(areaIn, "0", "10000", tie(keepIt, "0.00421"), nil),
			"“Restore” stays the lowest as long as the plan area of the roof is at least 0.0042 ft² (it is 1,000 ft²). Below that, “Keep” is cheaper."},
		{"a life that meets", held(restoreLife, "1", "20", tie(keepIt, "7.4321"), nil),
			"“Restore” stays the lowest as long as “Coating”, service life, is at least 7.4 years (it is 10 years). Below that, “Keep” is cheaper."},
		{"a life of one year", held(restoreLife, "0.5", "20", tie(keepIt, "1"), nil),
			"“Restore” stays the lowest as long as “Coating”, service life, is at least 1 year (it is 10 years). Below that, “Keep” is cheaper."},
		{"a step from below", held(restoreLife, "1", "20", step(keepIt, "4", "-4000.5", "1500"), nil),
			"“Restore” stays the lowest as long as “Coating”, service life, is more than 4 years (it is 10 years). Work falls at whole years, so this is a step: at 4 years “Keep” is cheaper by $4,000.50 than “Restore”, at 5 years “Restore” is cheaper by $1,500.00."},
		{"a step to above", held(tearOffLife, "1", "30", nil, step(tearItOff, "14", "-300", "0.01")),
			"“Restore” stays the lowest as long as “New roof”, service life, is at most 14 years (it is 10 years). Work falls at whole years, so this is a step: at 14 years “Restore” is cheaper by $300.00 than “Tear off”, at 15 years “Tear off” is cheaper by $0.01."},
		{"never the lowest", held(rateIn, "0", "0.12"),
			"“Restore” is not the lowest for any value of the discount rate from 0% to 12%."},
		{"never the lowest, of a system", held(restoreLife, "1", "20"),
			"“Restore” is not the lowest for any value of “Coating”, service life from 1 year to 20 years."},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, asked(t).holdSentence(c.hold, restoreIt))
		})
	}
}

// What is not the answer now does not stay it: “Keep” at 3 % is dearer, and
// would be the lowest from 9 % on.
func TestHoldSentenceOfAnAlternativeThatIsNotTheAnswer(t *testing.T) {
	told := asked(t).holdSentence(held(rateIn, "0", "0.12", tie(keepIt, "0.09"), nil), keepIt)
	assert.Contains(t, told, "at least 9%")
	assert.NotContains(t, told, "stays", "it is not the lowest at 3%%: %s", told)
}

// With a step at either end the lower end is left out: a life of just 12 years
// belongs to the side below.
func TestHoldSentenceBetweenTwoSteps(t *testing.T) {
	told := asked(t).holdSentence(held(restoreLife, "1", "20", step(keepIt, "8", "-4000", "1500"), step(keepIt, "14", "2000", "-10")), restoreIt)
	assert.Contains(t, told, "more than 8 years")
	assert.Contains(t, told, "at most 14 years")
	assert.NotContains(t, told, "between 8 years and 14 years", "at 8 years “Keep” is cheaper: %s", told)
}

// Just past the step the rival is cheaper; a year on, after the costs have met
// again within the year, no longer. Both sides of the step must be told.
func TestHoldSentenceOfAStepThatIsTakenBackWithinTheYear(t *testing.T) {
	told := asked(t).holdSentence(held(restoreLife, "1", "30", nil, step(keepIt, "26", "70861.24", "282.39"), tie(keepIt, "26.7"), nil), restoreIt)
	assert.Contains(t, told, "at 26 years “Restore” is cheaper by $70,861.24")
	_, after, _ := strings.Cut(told, "at 26 years")
	assert.Contains(t, after, "“Keep” is cheaper", "nothing says who is cheaper past the step: %s", told)
}

// The costs of a step whose one side is a tie to the cent.
func TestHoldSentenceOfAStepFromATie(t *testing.T) {
	told := asked(t).holdSentence(held(restoreLife, "1", "30", step(keepIt, "9", "0", "500"), nil), restoreIt)
	assert.NotContains(t, told, "cheaper by $0.00", told)
}

func TestHoldSentenceNamesTheStatedRange(t *testing.T) {
	const within = "This lies within the range that the study states."
	teller := asked(t)
	in := &teller.study.Inputs[rateIn]
	sentence := func(h *lcc.Hold) string { return teller.holdSentence(h, restoreIt) }
	upTo := func(at string) *lcc.Hold { return held(rateIn, "0", "0.12", nil, tie(keepIt, at)) }
	assert.NotContains(t, sentence(upTo("0.05")), within, "no range is stated")
	in.Shape, in.Low, in.High = lcc.Triangular, num("0.02"), num("0.06")
	assert.True(t, strings.HasSuffix(sentence(upTo("0.05")), "“Keep” is cheaper. "+within), sentence(upTo("0.05")))
	assert.Contains(t, sentence(upTo("0.02")), within)
	assert.NotContains(t, sentence(upTo("0.0601")), within)
	assert.NotContains(t, sentence(upTo("0.0199")), within)
}

// A rival that passes the alternative where another is cheaper anyway changes
// nothing, so it is no matter of the stated range.
func TestHoldSentenceDoesNotSpeakOfTiesThatChangeNothing(t *testing.T) {
	teller := asked(t)
	in := &teller.study.Inputs[rateIn]
	in.Shape, in.Low, in.High = lcc.Triangular, num("0.02"), num("0.06")
	h := held(rateIn, "0", "0.12", nil, tie(keepIt, "0.08"))
	require.NotContains(t, teller.holdSentence(h, restoreIt), "within the range")
	h = held(rateIn, "0", "0.12", tie(tearItOff, "0.01"), nil)
	h.Within[0].From, h.Within[0].FromTie.At = num("0.01"), num("0.01")
	h.Ties = []lcc.Tie{*tie(keepIt, "0.005"), *h.Within[0].FromTie}
	in.Low, in.High = num("0.004"), num("0.006")
	assert.NotContains(t, teller.holdSentence(h, restoreIt), "within the range", "at 0.5%% “Tear off” is cheaper than both")
}

// A list of rates a year is called by its year, set off on both sides.
func TestHoldSentenceOfARateOfOneYear(t *testing.T) {
	teller := asked(t)
	teller.study.Inputs[rateIn].Label = "Escalation of construction, year 12"
	told := teller.holdSentence(held(rateIn, "0", "0.12", nil, tie(keepIt, "0.05")), restoreIt)
	assert.Contains(t, told, "the escalation of construction, year 12, is at most 5%")
}

// A label begins small in a sentence, but its letters stay letters, and what
// is written in capitals stays so.
func TestNamesOfInputsInASentence(t *testing.T) {
	teller := asked(t)
	in := &teller.study.Inputs[restoreFirst]
	for label, want := range map[string]string{
		"Base coat, amount":       "“Coating”, base coat, amount,",
		"Étanchéité, amount":      "“Coating”, étanchéité, amount,",
		"HVAC curbs, unit price":  "“Coating”, HVAC curbs, unit price,",
		"3-ply membrane, amount":  "“Coating”, 3-ply membrane, amount,",
		"防水層, amount":             "“Coating”, 防水層, amount,",
		"R-value upgrade, amount": "“Coating”, R-value upgrade, amount,",
	} {
		in.Label = label
		assert.Equal(t, want, teller.inputName(restoreFirst))
	}
}

// A unit price of a few cents keeps the digits that tell it from what the
// study has.
func TestHoldSentenceOfASmallUnitPrice(t *testing.T) {
	teller := asked(t)
	teller.Inputs[restoreFirst] = num("0.052")
	told := teller.holdSentence(held(restoreFirst, "0", "1", nil, tie(keepIt, "0.0541234")), restoreIt)
	assert.Contains(t, told, "is at most $0.054", told)
	assert.Contains(t, told, "(it is $0.052 per ft²)", told)
}

// paragraphs are the paragraphs and list items of blocks.
func paragraphs(blocks []Block) []string {
	var out []string
	for _, b := range blocks {
		switch b := b.(type) {
		case Paragraph:
			out = append(out, b.Text)
		case List:
			out = append(out, b.Items...)
		}
	}
	return out
}

func TestHoldBlocksPutTheNearestFirstAndCountTheRest(t *testing.T) {
	always := *held(tearOffLife, "1", "30", nil, nil)
	far := *held(restoreFirst, "0", "400000", nil, tie(keepIt, "85302"))
	near := *held(keepYearly, "0", "100000", tie(keepIt, "9000"), nil)
	rate := *held(rateIn, "0", "0.12", nil, tie(keepIt, "0.05")) // two percentage points
	told := paragraphs(asked(t).holdBlocks([]lcc.Hold{far, always, near, rate, always}, restoreIt, 10))
	require.Len(t, told, 5)
	assert.Equal(t, "One input is moved at a time, the others held: how far could it go before another alternative is cheaper? The nearest come first.", told[0])
	for i, about := range []string{"the discount rate", "patching", "base and finish coat"} {
		assert.Contains(t, told[i+1], about)
	}
	assert.True(t, strings.HasPrefix(told[4], "None of the other inputs (2) changes the answer anywhere between the limits looked at: amounts"), told[4])
}

func TestHoldBlocksWhereNothingChangesTheAnswer(t *testing.T) {
	always := *held(tearOffLife, "1", "30", nil, nil)
	told := paragraphs(asked(t).holdBlocks([]lcc.Hold{always, always, always}, restoreIt, 10))
	require.Len(t, told, 2)
	assert.True(t, strings.HasPrefix(told[1], "None of the inputs (3) changes the answer anywhere"), told[1])
}

// The limits that are told are those that are looked at: the discount rate's
// are those of the rate curve.
func TestHoldBlocksTellTheLimitsOfTheDiscountRate(t *testing.T) {
	always := *held(rateIn, "0", "0.12", nil, nil)
	told := paragraphs(asked(t).holdBlocks([]lcc.Hold{always}, restoreIt, 10))
	require.Len(t, told, 2)
	assert.Contains(t, told[1], "12%", "the discount rate is looked at from 0%% to 12%%: %s", told[1])
}

// A break-even against one rival does not tell who is the lowest of all.
func TestHoldsDocumentAgainstOneRival(t *testing.T) {
	teller := asked(t)
	h, err := teller.Result.Hold(restoreFirst, tearItOff, []int{restoreIt}, num("0"), num("400000"))
	require.NoError(t, err)
	require.Len(t, h.Within, 1, "tearing off is cheaper than restoring from 150,000 on, but keeping is cheaper still")
	doc := HoldsDocument(teller.Study, tearItOff, []lcc.Hold{h})
	for _, told := range paragraphs(doc.Sections[0].Blocks)[1:] {
		assert.NotContains(t, told, "the lowest", "“Keep” is, at any price of restoring over 85,302")
	}
}

func TestChangeSectionWithoutARunnerUp(t *testing.T) {
	one := tell(studyOf(t, 3, choice{name: "Keep", yearly: 10}))
	assert.Equal(t, []string{"There is no second alternative to choose, so nothing can change the answer."},
		paragraphs(one.changeSection(&Change{}).Blocks))
	none := tell(studyOf(t, 3, choice{name: "Keep", yearly: 10, ruledOut: "deck unsound"}, choice{name: "Restore", first: 5, ruledOut: "wet"}))
	told := strings.Join(paragraphs(none.changeSection(&Change{}).Blocks), " ")
	assert.NotContains(t, told, "second alternative", "there is not even a first one")
	assert.NotContains(t, told, "nothing can change the answer", "there is no answer")
}

func TestSwingLeadCountsTheInputsThatChangeTheAnswer(t *testing.T) {
	teller := asked(t)
	margin := teller.Answer.Margin
	swing := func(flips bool) vary.Swing {
		s := vary.Swing{In: restoreFirst, Low: vary.End{Value: num("1"), Margin: margin, Lowest: restoreIt},
			High: vary.End{Value: num("9"), Margin: margin, Lowest: restoreIt}, Flips: flips}
		if flips {
			s.High.Lowest, s.High.Margin = keepIt, num("-10")
		}
		return s
	}
	lead := func(swings ...vary.Swing) string { return paragraphs(teller.swingBlocks(swings))[0] }
	const start = "Each input that has a range is moved to its low and its high value, one at a time. The plain margin is $45,302.04: what “Restore” costs less than “Keep”. "
	assert.Equal(t, start+"At none of these ends does the answer change.", lead(swing(false)))
	assert.Equal(t, start+"One of them changes the answer at an end.", lead(swing(true), swing(false)))
	assert.Equal(t, start+"2 of them change the answer at an end.", lead(swing(true), swing(true)))
	assert.Equal(t, "No input of the study has a range, so none can be moved over it: give low and high values to what is not certain.", lead())
	assert.Equal(t, "changes; at high: “Keep”", teller.flipped(swing(true)))
	assert.Equal(t, "Restore", teller.flipped(swing(false)))
	both := swing(true)
	both.Low.Lowest = tearItOff
	assert.Equal(t, "changes; at low: “Tear off” and at high: “Keep”", teller.flipped(both))
}

// A swing over quantiles says so: the ends are no low and high of the file.
func TestSwingsOfQuantilesAreToldAsSuch(t *testing.T) {
	teller := asked(t)
	s := vary.Swing{In: restoreLife, Quantiles: true, Low: vary.End{Value: num("6.2"), Lowest: restoreIt}, High: vary.End{Value: num("13.1"), Lowest: restoreIt}}
	told := ""
	for _, b := range teller.swingBlocks([]vary.Swing{s}) {
		switch b := b.(type) {
		case Paragraph:
			told += b.Text
		case Table:
			told += b.Caption
			for _, row := range b.Rows {
				for _, c := range row.Cells {
					told += c.Text + c.Note
				}
			}
		}
	}
	assert.Regexp(t, `5 ?%|quantile`, told, "the study states no low of 6.2 years")
}

func TestMapThatShowsOneLetterIsASentence(t *testing.T) {
	teller := asked(t)
	m := &vary.Map{X: vary.Range{In: rateIn, From: num("0"), To: num("0.12")}, Y: vary.Range{In: restoreLife, From: num("8"), To: num("12")},
		Points: [][]vary.Point{{{Lowest: restoreIt}, {Lowest: restoreIt}}, {{Lowest: restoreIt}, {Lowest: restoreIt}}}, Ys: []decimal.Decimal{num("8"), num("12")}}
	assert.Equal(t, []string{"Moved together, the discount rate from 0% to 12% and “Coating”, service life from 8 years to 12 years, “Restore” is the lowest throughout."},
		paragraphs(teller.mapBlocks(m)))
	m.Points[1][1] = vary.Point{Lowest: -1, Problem: "a wait"}
	blocks := teller.mapBlocks(m)
	require.Len(t, blocks, 2)
	cells := blocks[0].(Table).Rows[1].Cells
	assert.Equal(t, []string{"12 years", "B", ""}, []string{cells[0].Text, cells[1].Text, cells[2].Text})
	assert.Equal(t, "a wait", cells[2].Note)
	assert.Equal(t, "Key: A “Keep”, B “Restore”, C “Tear off”.", paragraphs(blocks)[0])
}

func TestLettersOfAMap(t *testing.T) {
	assert.Equal(t, []string{"A", "Z", "A1", "B1", "A2"}, []string{letter(0), letter(25), letter(26), letter(27), letter(52)})
}

func TestTiesOfASweepInWords(t *testing.T) {
	teller := asked(t)
	assert.Equal(t, "No two alternatives pass each other in this range.", teller.tiesText(&vary.Sweep{}))
	assert.Equal(t, "In this range there is one value at which two alternatives cost the same or pass each other:", teller.tiesText(&vary.Sweep{Ties: make([]lcc.Tie, 1)}))
	assert.Equal(t, "In this range there are 2 values at which two alternatives cost the same or pass each other:", teller.tiesText(&vary.Sweep{Ties: make([]lcc.Tie, 2)}))
	meet, jump, touch := *tie(keepIt, "0.0512345678"), *step(keepIt, "4", "1", "-1"), *tie(keepIt, "0.05")
	meet.Below, meet.Above = restoreIt, keepIt
	jump.Below, jump.Above = keepIt, restoreIt
	touch.Below, touch.Above = keepIt, keepIt
	var rows []string
	for _, row := range teller.tieTable(&vary.Sweep{Range: vary.Range{In: rateIn}, Ties: []lcc.Tie{meet, jump, touch}}).Rows {
		var cells []string
		for _, c := range row.Cells {
			cells = append(cells, c.Text)
		}
		rows = append(rows, strings.Join(cells, " | "))
	}
	assert.Equal(t, []string{
		"5.1235% | Restore | Keep | they meet",
		"400% | Keep | Restore | in a step: work falls at whole years",
		"5% | Keep | Keep | “Restore” ties there only",
	}, rows)
}

func TestFarHoldsAreCounted(t *testing.T) {
	x := asked(t)
	holds := []lcc.Hold{}
	for i := range 4 {
		tie := &lcc.Tie{A: 0, B: restoreIt, At: decimal.NewFromInt(int64(2 + i)), Below: restoreIt, Above: 0}
		holds = append(holds, lcc.Hold{In: x.study.Area, High: decimal.NewFromInt(9), Within: []lcc.Interval{{To: tie.At, ToTie: tie}}})
	}
	assert.Contains(t, paragraphs(x.holdBlocks(holds, restoreIt, 2)), "Two further inputs could change the answer too, but would have to move further still; the command “roofyears break-even” tells how far.")
	assert.NotContains(t, strings.Join(paragraphs(x.holdBlocks(holds, restoreIt, 4)), " "), "further")
}

// A step of packs is told with both sides.
func TestStepOfPacksInWords(t *testing.T) {
	x := asked(t)
	tie := &lcc.Tie{A: 0, B: restoreIt, At: decimal.NewFromInt(2), Below: restoreIt, Above: 0, Step: true, Near: true,
		GapAt: decimal.NewFromInt(5), GapNext: decimal.NewFromInt(-3)}
	text := x.beyond(x.study.Area, &lcc.Interval{ToTie: tie}, restoreIt)
	assert.Equal(t, " Material is bought in whole packs and work falls at whole years, so this is a step: just below it “"+x.name(restoreIt)+"” is cheaper by $5.00 than “"+x.name(0)+"”, just above it “"+x.name(0)+"” is cheaper by $3.00.", text)
}
