package eligibility

import "github.com/shopspring/decimal"

var adhesion = Rule{
	ID:     "adhesion",
	Title:  "a coating is tested on the roof and holds with at least 2 lb per inch in at least 3 places",
	Source: "three coating bulletins, which agree; the method rests on ASTM D903", // [D903]
	Mark:   CommonPractice,
	Works:  []Work{Restore},
	Judge:  judgeAdhesion,
}

// leastPeel is what a strip must hold: 2 lb per inch, which is 0.3503 N/mm and
// is taken as 0.35.
var leastPeel = limit{us: decimal.NewFromInt(2), metric: decimal.New(35, -2)}

// leastPlaces is how many places a test needs on each surface.
const leastPlaces = 3

func judgeAdhesion(f Findings, o Option) Outcome {
	coating, stated := o.Coating.Get()
	if !stated {
		return open("", needCoating)
	}
	tests, _ := f.Adhesion.Get()
	var parts []Outcome
	for _, t := range tests {
		if t.Coating == coating {
			parts = append(parts, judgeTest(t, f, o))
		}
	}
	if len(parts) == 0 {
		return open("", needAdhesion)
	}
	return all(parts...)
}

// judgeTest judges the test on one surface. A strip that came off is a finding
// even if too few were pulled.
func judgeTest(t AdhesionTest, f Findings, o Option) Outcome {
	least := leastPeel.in(f.Units)
	held := "the planned coating held with " + beside(t.Least, least, f.Units.peel) + " at the least, "
	where := "in " + counted(t.Places, "place")
	asked := f.Units.peel(least)
	switch {
	case t.Least.LessThan(least):
		return fail(held+"under the usual "+asked+", "+where, f.Adhesion, o.Coating)
	case t.Places < leastPlaces:
		return open(held+where+" only", needAdhesion)
	}
	return pass(held+"not under the usual "+asked+", "+where, f.Adhesion, o.Coating)
}
