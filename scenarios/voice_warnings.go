package scenarios

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// The wording of warnings; see voice.go.

func textWithComma(text string) message {
	return message{what: "text in braces with a comma, read as " + quote(text), hint: "put it in quotes: other readers of YAML end it at the comma"}
}

func discountHigh(d, limit decimal.Decimal) message {
	return message{what: fmt.Sprintf("a discount rate of %s is over %s: costs after a few years hardly count", percent(d), percent(limit))}
}

func discountNegative(d decimal.Decimal) message {
	return message{what: fmt.Sprintf("a discount rate of %s is negative: later costs weigh more than those of today", percent(d))}
}

func discountAboveReal(d decimal.Decimal) message {
	return message{what: fmt.Sprintf("a real discount rate of %s: 10 CFR 436.14 caps the real rate at 10%%; does it include inflation?", percent(d))}
}

func escalationWithInflation(e, inflation decimal.Decimal) message {
	return message{what: fmt.Sprintf("a real rate of %s is not below general inflation, %s: it may include general inflation", percent(e), percent(inflation))}
}

func escalationHigh(e, limit decimal.Decimal) message {
	return message{what: fmt.Sprintf("a real rate of %s is over %s: it may include general inflation", percent(e), percent(limit))}
}

func mixedUnits(unit, area string) message {
	return message{what: fmt.Sprintf("%s in a study whose area is in %s: metric and foot units are mixed", unit, area)}
}

func lifeLong(life, limit decimal.Decimal) message {
	return message{what: fmt.Sprintf("a life of %s years is longer than %s years", life, limit)}
}

func keptForEver() message {
	return message{what: "no system follows the one in place: it is replaced by itself for ever, at no cost"}
}

func restoredForEver(key string) message {
	return message{what: fmt.Sprintf("no system follows %s: it is replaced by itself for ever", clip(key))}
}

func firstCostsInPlace() message {
	return message{what: "first costs of a system in place are paid only when it is installed again"}
}

func noFirstCosts() message {
	return message{what: "no first costs: it is installed for nothing"}
}

func oneAlternative() message {
	return message{what: "only one alternative: there is nothing to compare it with"}
}

func noBaseCase() message {
	return message{what: "no alternative is the base case: savings and payback against it stay undefined"}
}

func waitNotInPlace(key string) message {
	return message{what: fmt.Sprintf("the wait keeps %s, which is not in place at time 0", clip(key))}
}

func waitOverLow(years int, key string, low decimal.Decimal) message {
	return message{what: fmt.Sprintf("a wait of %d years is longer than the low life of %s, %s years", years, clip(key), low)}
}

func unusedSystem() message {
	return message{what: "no alternative comes to this system"}
}

func foundUnpriced(keys []string) message {
	return message{what: "no cost is priced by what the survey found: " + strings.Join(keys, ", "), hint: "see that another cost covers it"}
}

func unusedQuantity() message {
	return message{what: "no cost item is priced by this quantity"}
}
