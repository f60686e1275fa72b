package main

import (
	"fmt"

	"github.com/urfave/cli/v2"

	"roofyears/lcc/risk"
	"roofyears/scenarios"
)

// wanted is what the command line asks for beside the rows.
type wanted struct {
	plan         bool   // with the limits that the template states
	money, crews yearly // of a plan; where empty, those that the template states
	trials       int    // of a simulation; 0 for none
	seed         uint64
}

func wantedFlags(ctx *cli.Context) (w wanted, err error) {
	if w.trials, w.seed = ctx.Int("trials"), ctx.Uint64("seed"); w.trials < 0 || w.trials > risk.MaxRoofsTrials {
		return w, usageError{"portfolio", fmt.Sprintf("--trials is %d, expected 1 to %d", w.trials, risk.MaxRoofsTrials)}
	}
	if w.money, err = yearlyFlag(ctx, "budget"); err != nil {
		return w, err
	}
	w.crews, err = yearlyFlag(ctx, "crew")
	w.plan = ctx.Bool("plan")
	return w, err
}

// stated takes what the command line does not say from the template.
func (w wanted) stated(by scenarios.Portfolio) (wanted, error) {
	if len(w.money.years) == 0 && by.Budget != nil {
		w.money.years = by.Budget
	}
	if len(w.crews.years) == 0 && by.Crew != nil {
		w.crews.years = by.Crew
	}
	if len(w.money.years)+len(w.crews.years) == 0 {
		return w, usageError{"portfolio", "--plan needs a budget: the template states none, so say --budget YEAR=AMOUNT"}
	}
	return w, nil
}

// plans tells whether a plan is asked for.
func (w wanted) plans() bool { return w.plan || len(w.money.years)+len(w.crews.years) > 0 }
