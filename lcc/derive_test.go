package lcc

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// coated is a study of a coating whose paint follows from area, film, solids
// and loss, bought in pails of five gallons, and whose life follows from its
// film; and of a new roof.
func coated(t testing.TB) (*Study, map[string]Ref) {
	t.Helper()
	s := &Study{Period: 20, Inflation: NoRef, About: About{Digits: 2, BaseDate: "2026-01-01"}}
	at := map[string]Ref{}
	add := func(name string, unit Unit, value string) Ref {
		at[name] = s.Add(Input{Path: name, Unit: unit, Likely: decimal.RequireFromString(value)})
		return at[name]
	}
	s.Rate, s.Area = add("rate", Rate, "0.03"), add("area", Area, "10000")
	add("film", Count, "20")
	add("least", Count, "8")
	add("wear", Count, "1")
	add("solids", Count, "0.5")
	add("loss", Count, "0.1")
	add("factor", Count, "1.1")
	add("gallons", Count, "0")
	add("life", Years, "0")
	s.Derived = []Derivation{
		{In: at["gallons"], Pack: decimal.NewFromInt(5), Terms: []Term{{Coefficient: decimal.RequireFromString("0.000623376623376623"), Factors: []Factor{
			{at["area"], Times}, {at["factor"], Times}, {at["film"], Times}, {at["solids"], Over}, {at["loss"], OverRest}}}}},
		{In: at["life"], Terms: []Term{
			{Coefficient: one, Factors: []Factor{{at["film"], Times}, {at["wear"], Over}}},
			{Coefficient: one.Neg(), Factors: []Factor{{at["least"], Times}, {at["wear"], Over}}}}},
	}
	price := func(name, value string) Ref { return add(name, Price, value) }
	item := func(name string, p, q Ref) Item {
		return Item{Name: name, Price: p, Quantity: q, Growth: NoRef}
	}
	s.Systems = []System{
		{Key: "coating", Name: "Coating", Life: at["life"], First: []Item{item("paint", price("paint", "40"), at["gallons"]), item("labour", price("labour", "1.2"), s.Area)}},
		{Key: "new", Name: "New roof", Life: add("new life", Years, "20"), Then: 1, First: []Item{item("roof", price("roof", "5"), s.Area)}},
	}
	s.Alternatives = []Alternative{{Name: "Coat"}, {Name: "New", Start: 1}}
	return s, at
}

func TestDerivedInputs(t *testing.T) {
	s, at := coated(t)
	require.NoError(t, s.Check())
	r, err := s.Evaluate()
	require.NoError(t, err)
	// 10,000 × 1.1 × 20 / (1604.17 × 0.5 × 0.9) = 304.76 gallons: 61 pails.
	assert.Equal(t, "305", r.Inputs[at["gallons"]].String())
	assert.Equal(t, "12", r.Inputs[at["life"]].String())
	assert.Equal(t, "24200", r.Alternatives[0].First.String())

	k := s.NewKernel()
	require.NoError(t, k.LoadExact(s.Likely()))
	for _, change := range []struct{ name, value string }{{"area", "10007"}, {"film", "23.4"}, {"loss", "0.25"}, {"wear", "0.7"}, {"solids", "0.95"}, {"area", "10000"}} {
		v := decimal.RequireFromString(change.value)
		k.Set(at[change.name], v.InexactFloat64())
		w := append(Vector(nil), r.Inputs...)
		w[at[change.name]] = v
		exact, err := s.EvaluateAt(w)
		require.NoError(t, err)
		r = exact
		for a := range s.Alternatives {
			assert.InDelta(t, exact.Alternatives[a].LCC.InexactFloat64(), k.LCC(a), 0.3, change.name)
		}
	}
}

func TestASweepKeepsWhatIsDerivedInStep(t *testing.T) {
	s, at := coated(t)
	r, err := s.Evaluate()
	require.NoError(t, err)
	w, err := r.Sweeper()
	require.NoError(t, err)
	for area := int64(9000); area < 9100; area += 7 {
		require.NoError(t, w.Set(at["area"], decimal.NewFromInt(area)))
		costs, err := w.Costs()
		require.NoError(t, err)
		v := append(Vector(nil), r.Inputs...)
		v[at["area"]] = decimal.NewFromInt(area)
		exact, err := s.EvaluateAt(v)
		require.NoError(t, err)
		for a, cost := range costs {
			assert.True(t, cost.Equal(exact.Alternatives[a].LCC), "%d: %s, %s", area, cost, exact.Alternatives[a].LCC)
		}
	}
	require.Error(t, w.Set(at["solids"], decimal.Zero))
	require.Error(t, w.Set(at["film"], decimal.NewFromInt(8)), "a film that is worn out when new gives no life")
}

// Of money, less than nothing is a credit: a cost that follows from others has
// no kink at nothing, in the ledger and in the kernel.
func TestDerivedCredit(t *testing.T) {
	s, at := coated(t)
	saved := s.Add(Input{Path: "saved", Unit: Money})
	s.Derived = append(s.Derived, Derivation{In: saved, Terms: []Term{
		{Coefficient: decimal.NewFromInt(100), Factors: []Factor{{Of: at["film"]}}}, {Coefficient: decimal.NewFromInt(-2500)}}})
	s.Systems[0].Annual = []Item{{Name: "saved", Price: saved, Quantity: NoRef, Growth: NoRef}}
	require.NoError(t, s.Check())
	r, err := s.Evaluate()
	require.NoError(t, err)
	assert.Equal(t, "-500", r.Inputs[saved].String())
	k := s.NewKernel()
	require.NoError(t, k.LoadExact(s.Likely()))
	for _, film := range []string{"20", "24", "25", "26", "31"} {
		v := s.Likely()
		v[at["film"]] = decimal.RequireFromString(film)
		exact, err := s.EvaluateAt(v)
		require.NoError(t, err)
		k.Set(at["film"], v[at["film"]].InexactFloat64())
		assert.InEpsilon(t, exact.Alternatives[0].LCC.InexactFloat64(), k.LCC(0), 1e-6, film)
	}
}

// wholeLives are films in mils, what is left of them when they are worn, and
// wear in tenths of a mil a year, that give a life of whole years.
func wholeLives(use func(film, least, tenths, years int64)) {
	for film := int64(8); film <= 40; film++ {
		for least := int64(2); least <= 12 && least < film; least++ {
			for tenths := int64(5); tenths <= 30; tenths++ {
				if worn := 10 * (film - least); worn%tenths == 0 {
					use(film, least, tenths, worn/tenths)
				}
			}
		}
	}
}

// A life that follows from a film ends with a whole year where it is one: the
// quotients of film and wear, each of which is rounded, leave no hair over it.
func TestDerivedLifeOfWholeYears(t *testing.T) {
	s, at := coated(t)
	k, seen := s.NewKernel(), 0
	require.NoError(t, k.LoadExact(s.Likely()))
	wholeLives(func(film, least, tenths, years int64) {
		v := s.Likely()
		v[at["film"]], v[at["least"]], v[at["wear"]] = decimal.NewFromInt(film), decimal.NewFromInt(least), decimal.New(tenths, -1)
		filled, err := s.filled(v)
		require.NoError(t, err)
		if !assert.Equal(t, years, filled[at["life"]].IntPart(), "(%d - %d)/0.%d", film, least, tenths) || !assert.True(t, filled[at["life"]].IsInteger()) {
			return
		}
		for _, name := range []string{"film", "least", "wear"} {
			k.Set(at[name], v[at[name]].InexactFloat64())
		}
		assert.Equal(t, float64(years), k.v[at["life"]], "(%d - %d)/0.%d in float64", film, least, tenths)
		seen++
	})
	assert.Greater(t, seen, 1400)
}

// By hand: (14 − 2)/1.2 is ten years, so within eleven the coating is renewed
// once, at 1.03^-10: 100,000 + 100,000 × 0.7440939 = 174,409.39. A wait of eight
// years on a film of (20 − 8)/1.5 = 8 years is not too long.
func TestWholeLifeFromAFilmByHand(t *testing.T) {
	s, at := coated(t)
	s.Period = 11
	all := s.Add(Input{Path: "all", Unit: Money, Likely: decimal.NewFromInt(100_000)})
	s.Systems[0].First, s.Systems[0].Residual.Mode = []Item{{Name: "all", Price: all, Quantity: NoRef, Growth: NoRef}}, NoResidual
	v := s.Likely()
	v[at["film"]], v[at["least"]], v[at["wear"]] = decimal.NewFromInt(14), decimal.NewFromInt(2), decimal.RequireFromString("1.2")
	r, err := s.EvaluateAt(v)
	require.NoError(t, err)
	assert.Equal(t, "174409.39", r.Alternatives[0].LCC.String())

	s.Alternatives[1].Wait = &Wait{On: 0, Years: 8}
	v[at["film"]], v[at["least"]], v[at["wear"]] = decimal.NewFromInt(20), decimal.NewFromInt(8), decimal.RequireFromString("1.5")
	_, err = s.EvaluateAt(v)
	assert.NoError(t, err)
}

func TestWholePacks(t *testing.T) {
	pack := decimal.NewFromInt(5)
	for in, want := range map[string]string{"0": "0", "0.01": "5", "5": "5", "5.000000000000000000000000000001": "5", "5.0001": "10", "14.99": "15"} {
		assert.Equal(t, want, roundUp(decimal.RequireFromString(in), pack).String(), in)
	}
	d := derivation{pack: 5, rounded: true}
	assert.Equal(t, []float64{0, 5, 5, 10}, []float64{d.packed(0), d.packed(0.01), d.packed(5), d.packed(5.0001)})
}

func TestUnsoundDerivations(t *testing.T) {
	for name, spoil := range map[string]func(*Study, map[string]Ref){
		"in two ways": func(s *Study, at map[string]Ref) {
			s.Derived[1].Terms[0].Factors[1] = Factor{at["solids"], Times}
		},
		"not yet": func(s *Study, at map[string]Ref) {
			s.Derived[0].Terms[0].Factors[1] = Factor{at["life"], Times}
		},
		"twice in one product": func(s *Study, at map[string]Ref) {
			s.Derived[0].Terms[0].Factors[1] = Factor{at["area"], Times}
		},
		"divides": func(s *Study, at map[string]Ref) {
			s.Derived[0], s.Derived[1] = s.Derived[1], s.Derived[0]
			s.Derived[1].Terms[0].Factors[2] = Factor{at["life"], Over}
		},
		"derived twice":      func(s *Study, at map[string]Ref) { s.Derived[1].In = at["gallons"] },
		"a range of its own": func(s *Study, at map[string]Ref) { s.Inputs[at["life"]].Shape = Normal },
	} {
		s, at := coated(t)
		spoil(s, at)
		assert.Error(t, s.Check(), name)
	}
}
