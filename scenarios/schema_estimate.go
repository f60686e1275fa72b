package scenarios

import (
	"slices"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
)

// estimate is a number of a measure in any of the forms of an estimate. The
// name is that of the measure in the schema.
func (b *schemas) estimate(says, name string, k measure) *schema {
	forms := "estimated_" + name
	b.define(name, k, k.schema)
	b.define(forms, k, func() *schema { return &schema{OneOf: b.forms(name, k)} })
	return b.refer(says, forms, k)
}

// forms are the forms of an estimate: a number, a number with its source, low,
// likely and high, and the distributions by mean that the measure has.
func (b *schemas) forms(name string, k measure) []*schema {
	one := &schema{Ref: "#/$defs/" + name}
	moves := map[string][]string{"moves_with": {"rank_correlation"}, "rank_correlation": {"moves_with"}}
	form := func(needs []string, keys ...string) *schema {
		is := keyed{}
		for _, key := range keys {
			is[key] = b.estimateKey(key, one, k)
		}
		s := b.form(inEstimate, keys, is, needs...)
		if slices.Contains(keys, "moves_with") {
			s.DependentRequired = moves
		}
		return s
	}
	drawn := []string{"moves_with", "rank_correlation", "source"}
	out := []*schema{
		one,
		form([]string{"value"}, "value", "source"),
		form(pointKeys, slices.Concat(pointKeys, []string{"distribution"}, drawn)...),
	}
	for _, shape := range []string{"weibull", "normal", "lognormal"} {
		if slices.Contains(k.shapes, byMean[shape]) {
			out = append(out, form([]string{shape}, slices.Concat([]string{shape}, drawn)...))
		}
	}
	return out
}

// estimateKey says what may stand at a key of an estimate; nil for a key that
// is not known here.
func (b *schemas) estimateKey(key string, one *schema, k measure) *schema {
	switch key {
	case "value":
		return says("the number itself", one)
	case "low":
		return says("the lowest value that is thought possible", one)
	case "likely":
		return says("the likeliest value, with which the plain study is done", one)
	case "high":
		return says("the highest value that is thought possible", one)
	case "distribution":
		return word("how values are spread between low and high; triangular unless said otherwise", rangeShapes)
	case "weibull":
		return b.byMean(key, "a Weibull distribution, as lives often have", k)
	case "normal":
		return b.byMean(key, "a normal distribution", k)
	case "lognormal":
		return b.byMean(key, "a lognormal distribution, which is never below 0", k)
	case "moves_with":
		return line("path of the input that this one moves with, as study.escalation.construction")
	case "rank_correlation":
		return b.number("how closely it moves with the other", "correlation", correlation)
	case "source":
		return sourced
	}
	return nil
}

// byMean is a distribution given by its mean. The mean of one that draws
// nothing below 0 is over 0.
func (b *schemas) byMean(name, about string, k measure) *schema {
	shape := byMean[name]
	mean := k
	if shape != lcc.Normal {
		mean.low = decimal.Max(mean.low, decimal.Zero)
		mean.lowOpen = mean.lowOpen || mean.low.IsZero()
	}
	second := spreadKey(shape)
	spread := k.spreadSchema()
	if second == "shape" {
		spread = says("how peaked it is: "+weibullShape.expected, weibullShape.schema())
	}
	s := b.form(inDistribution, []string{"mean", second}, keyed{
		"mean": says("the mean", mean.schema()), second: spread,
	}, "mean", second)
	s.Description = about
	return s
}

// life is a life as an estimate, or one that follows from a film. films says
// what else than an estimate may stand for the film.
func (b *schemas) life(about string, films ...*schema) *schema {
	b.define("years", years, years.schema)
	film := b.estimate("the dry film when new", "film", film)
	if len(films) > 0 {
		film = &schema{Description: film.Description + "; or takeoff for the coats of the take-off", OneOf: append(films, &schema{Ref: film.Ref})}
	}
	from := b.section(inFromFilm, fromFilmKeys, keyed{
		"film":    film,
		"worn_at": b.estimate("the dry film at which it is worn", "worn_film", wornFilm),
		"wear":    b.estimate("the film that goes in a year", "wear", wear),
	}, fromFilmKeys...)
	outer := b.section(inLife, []string{"from_film"}, keyed{
		"from_film": says("the life follows from a film: what is on the roof less what is worn, over the wear a year", from),
	}, "from_film")
	return &schema{Description: about + ": " + years.expected, OneOf: append(b.forms("years", years), outer)}
}
