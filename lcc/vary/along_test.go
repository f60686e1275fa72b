package vary

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
)

func pointsOf(points []Point) []string {
	var out []string
	for _, p := range points {
		out = append(out, p.Value.String())
	}
	return out
}

// Every point of a sweep has the ledger's life-cycle costs, for every input.
func TestAlongIsTheLedgerAtEachPoint(t *testing.T) {
	b := roof()
	b.Alternatives[1].RuledOut = &lcc.Ruling{Rule: "a rule", Finding: "a finding"}
	r := b.evaluate(t)
	for i := range b.Inputs {
		from, to := span(r, lcc.Ref(i))
		s, err := Along(r, Range{lcc.Ref(i), from, to, to.Sub(from).Div(decimal.NewFromInt(8))})
		require.NoError(t, err)
		assert.Len(t, s.Points, 9, "%s from %s to %s: %v", b.Inputs[i].Path, from, to, pointsOf(s.Points))
		for _, p := range s.Points {
			samePoint(t, b, p, map[lcc.Ref]decimal.Decimal{lcc.Ref(i): p.Value})
		}
	}
}

func TestAlongIncludesItsEnds(t *testing.T) {
	b := roof()
	r := b.evaluate(t)
	for _, c := range []struct {
		from, to, step string
		want           []string
	}{
		{"0", "0.03", "0.01", []string{"0", "0.01", "0.02", "0.03"}},
		{"0", "0.03", "0.02", []string{"0", "0.02", "0.03"}},
		{"0", "0.03", "1", []string{"0", "0.03"}},
		{"-0.02", "0.01", "0.015", []string{"-0.02", "-0.005", "0.01"}},
	} {
		s, err := Along(r, Range{b.Rate, dec(c.from), dec(c.to), dec(c.step)})
		require.NoError(t, err)
		assert.Equal(t, c.want, pointsOf(s.Points))
		assert.True(t, s.From.Equal(dec(c.from)) && s.To.Equal(dec(c.to)) && s.Step.Equal(dec(c.step)))
	}
}

// A twelfth of a range, as the commands step, is no finite decimal; there are
// thirteen points all the same, and none next to the end.
func TestAlongInTwelfths(t *testing.T) {
	b := roof()
	r := b.evaluate(t)
	for _, ends := range [][2]string{{"0", "0.12"}, {"0", "0.13"}, {"0.01", "0.07"}, {"-0.02", "0.12"}, {"0", "0.2"}} {
		from, to := dec(ends[0]), dec(ends[1])
		s, err := Along(r, Range{b.Rate, from, to, to.Sub(from).Div(decimal.NewFromInt(12))})
		require.NoError(t, err)
		assert.Len(t, s.Points, 13, "%v: %v", ends, pointsOf(s.Points))
	}
}

func TestAlongRefusesWhatIsNoRange(t *testing.T) {
	b := roof()
	r := b.evaluate(t)
	for _, c := range [][3]string{{"0.05", "0.05", "0.01"}, {"0.05", "0.01", "0.01"}, {"0", "0.1", "0"}, {"0", "0.1", "-0.01"}} {
		_, err := Along(r, Range{b.Rate, dec(c[0]), dec(c[1]), dec(c[2])})
		assert.ErrorContains(t, err, "from a lower to a higher value, in steps greater than 0", "%v", c)
	}
	_, err := Along(r, Range{b.Rate, dec("0"), dec("10.5"), dec("1")})
	assert.ErrorContains(t, err, "outside the range", "rates up to 1050 %")
}

// A range has at most MaxPoints points, its two ends among them.
func TestAlongHasAtMostMaxPoints(t *testing.T) {
	b := newBuilder(1)
	b.Rate, b.Area = b.fixed("rate", lcc.Rate, "0"), b.fixed("area", lcc.Area, "1")
	price := b.fixed("price", lcc.Money, "1")
	b.Systems = []lcc.System{{Key: "roof", Life: b.fixed("life", lcc.Years, "1"), First: cost(price, lcc.NoRef, lcc.Fees)}}
	b.Alternatives = []lcc.Alternative{{Name: "roof"}}
	r := b.evaluate(t)
	most := decimal.NewFromInt(MaxPoints)
	s, err := Along(r, Range{price, decimal.Zero, most.Sub(decimal.NewFromInt(1)), decimal.NewFromInt(1)})
	require.NoError(t, err)
	assert.Len(t, s.Points, MaxPoints)
	for _, beyond := range []decimal.Decimal{most, most.Add(dec("0.5")), most.Shift(9)} {
		s, err := Along(r, Range{price, decimal.Zero, beyond, decimal.NewFromInt(1)})
		if assert.Error(t, err, "to %s", beyond) {
			assert.ErrorContains(t, err, "10000")
		} else {
			assert.LessOrEqual(t, len(s.Points), MaxPoints, "to %s", beyond)
		}
	}
}

// A point at which the study cannot be evaluated says why, and the next one
// is as if it had not been tried.
func TestAlongTellsWhereAWaitIsLongerThanALife(t *testing.T) {
	b := roof()
	r := b.evaluate(t)
	in := b.Find("existing.life")
	s, err := Along(r, Range{in, dec("3"), dec("6"), dec("0.5")})
	require.NoError(t, err)
	require.Len(t, s.Points, 7)
	for i, p := range s.Points {
		samePoint(t, b, p, map[lcc.Ref]decimal.Decimal{in: p.Value})
		if i < 2 {
			assert.Contains(t, p.Problem, `alternative "Wait" waits 4 years on "existing"`)
		}
	}
}

// The ties of a sweep are those of every two alternatives, in order of value.
func TestAlongTellsTheTiesOfEveryPair(t *testing.T) {
	b := roof()
	r := b.evaluate(t)
	price := b.Find("restoration.price")
	s, err := Along(r, Range{price, dec("0"), dec("30"), dec("1")})
	require.NoError(t, err)
	require.Len(t, s.Ties, 3, "restoring against each of the others, %+v", s.Ties)
	met := map[int]bool{}
	for i, tie := range s.Ties {
		met[tie.A], met[tie.B] = true, true
		assert.Equal(t, 1, tie.Below, "the cheaper the restoration, the better")
		assert.True(t, i == 0 || tie.At.GreaterThanOrEqual(s.Ties[i-1].At))
	}
	assert.Len(t, met, 4)
	// The lowest changes between the points on either side of the first tie.
	for _, p := range s.Points {
		assert.Equal(t, p.Value.LessThan(s.Ties[0].At), p.Lowest == 1, "at %s", p.Value)
	}
}

// No alternative is eligible: the costs are told, and none is the lowest.
func TestAlongOfAStudyWithoutAnAnswer(t *testing.T) {
	b := roof()
	for i := range b.Alternatives {
		b.Alternatives[i].RuledOut = &lcc.Ruling{Rule: "a rule", Finding: "a finding"}
	}
	s, err := Along(b.evaluate(t), Range{b.Rate, dec("0"), dec("0.1"), dec("0.05")})
	require.NoError(t, err)
	for _, p := range s.Points {
		assert.Equal(t, -1, p.Lowest)
		assert.Len(t, p.LCC, 4)
	}
}

// A map is a sweep in every row.
func TestAcrossIsAlongInEachRow(t *testing.T) {
	b := roof()
	r := b.evaluate(t)
	life := b.Find("existing.life")
	for _, c := range []struct{ x, y Range }{
		{Range{b.Rate, dec("0"), dec("0.1"), dec("0.03")}, Range{life, dec("2"), dec("9"), dec("1.5")}},
		{Range{life, dec("2"), dec("9"), dec("1.5")}, Range{b.Rate, dec("0"), dec("0.1"), dec("0.03")}},
		{Range{b.Find("restoration.price"), dec("2"), dec("12"), dec("2.5")}, Range{b.Area, dec("1"), dec("50000"), dec("20000")}},
	} {
		m, err := Across(r, c.x, c.y)
		require.NoError(t, err)
		require.Len(t, m.Points, len(m.Ys))
		assert.True(t, m.Ys[len(m.Ys)-1].Equal(c.y.To))
		for i, row := range m.Points {
			moved, err := b.at(map[lcc.Ref]decimal.Decimal{c.y.In: m.Ys[i]})
			for _, p := range row {
				samePoint(t, b, p, map[lcc.Ref]decimal.Decimal{c.y.In: m.Ys[i], c.x.In: p.Value})
			}
			if err != nil {
				continue
			}
			along, err := Along(moved, c.x)
			require.NoError(t, err)
			assert.Equal(t, pointsOf(along.Points), pointsOf(row))
		}
	}
}

func TestAcrossRefuses(t *testing.T) {
	b := roof()
	r := b.evaluate(t)
	rates, lives := Range{b.Rate, dec("0"), dec("0.1"), dec("0.01")}, Range{b.Find("existing.life"), dec("2"), dec("9"), dec("1")}
	_, err := Across(r, rates, rates)
	assert.ErrorContains(t, err, "two different inputs")
	for _, bad := range []Range{{b.Rate, dec("0.1"), dec("0"), dec("0.01")}, {b.Rate, dec("0"), dec("0.1"), dec("0")}} {
		_, err = Across(r, bad, lives)
		assert.ErrorContains(t, err, "from a lower to a higher value")
		_, err = Across(r, lives, bad)
		assert.ErrorContains(t, err, "from a lower to a higher value")
	}
	_, err = Across(r, Range{b.Rate, dec("0"), dec("0.1"), dec("0.0005")}, Range{lives.In, dec("1"), dec("9"), dec("0.04")})
	assert.ErrorContains(t, err, "the map has 40401 points, more than 40000")
}

// A step that is refused in one row does not linger in the next.
func TestAcrossWhereAWaitIsLongerThanALife(t *testing.T) {
	b := roof()
	m, err := Across(b.evaluate(t), Range{b.Rate, dec("0"), dec("0.1"), dec("0.05")}, Range{b.Find("existing.life"), dec("3"), dec("5"), dec("1")})
	require.NoError(t, err)
	for i, problem := range []bool{true, false, false} {
		for _, p := range m.Points[i] {
			assert.Equal(t, problem, p.Problem != "", "row %d at %s", i, p.Value)
		}
	}
}
