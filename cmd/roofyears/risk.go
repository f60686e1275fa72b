package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/urfave/cli/v2"

	"roofyears/lcc/risk"
	"roofyears/report"
	"roofyears/report/text"
	"roofyears/scenarios"
)

// defaultTrials is how many futures are drawn unless said otherwise.
const defaultTrials = 100_000

func trialFlags(trials int) []cli.Flag {
	return []cli.Flag{
		&cli.IntFlag{Name: "trials", Usage: "draw `N` futures", Value: trials},
		&cli.Uint64Flag{Name: "seed", Usage: "start the draws at seed `N`; the same seed gives the same result", Value: 1},
	}
}

// riskCommand simulates a study.
func (c commands) riskCommand() *cli.Command {
	return &cli.Command{
		Name:      "risk",
		Usage:     "draw every uncertain input many times: how sure is the answer, and what is it worth to know more",
		UsageText: name + " risk [--trials N] [--seed N] [--until SHARE] [--json] [-o OUT] FILE",
		Description: "Example: " + name + " risk --trials 100000 --seed 7 example:school\n" +
			"With --until 0.5%, the draws go on until every chance of being the cheapest is known to that standard\n" +
			"error, or --trials are done. Results do not depend on the number of processors.",
		Flags: append(trialFlags(defaultTrials),
			&cli.StringFlag{Name: "until", Usage: "stop when every chance is known to a standard error of `SHARE`"},
			&cli.BoolFlag{Name: "json", Usage: "write the result for programs"},
			outputFlag(),
		),
		Action: c.onStudy(func(ctx *cli.Context, study report.Study, out output) error {
			options, err := riskOptions(ctx)
			if err != nil {
				return err
			}
			result, err := risk.Run(study.Result.Study, options)
			if err != nil {
				return err
			}
			return out(func(w io.Writer) error {
				if ctx.Bool("json") {
					return report.WriteRisk(w, study, result)
				}
				return text.Write(w, report.RiskDocument(study, result), c.layout(ctx))
			})
		}),
	}
}

// largestError is the largest standard error that a chance can have.
var largestError = decimal.New(5, -1)

// riskOptions reads the flags of a simulation.
func riskOptions(ctx *cli.Context) (risk.Options, error) {
	o := risk.Options{Trials: ctx.Int("trials"), Seed: ctx.Uint64("seed")}
	if o.Trials < 1 || o.Trials > risk.MaxTrials {
		return o, usageError{ctx.Command.Name, fmt.Sprintf("--trials is %d, expected 1 to %d", o.Trials, risk.MaxTrials)}
	}
	if until := ctx.String("until"); until != "" {
		share, err := scenarios.ParseRate(until)
		if err != nil || !strings.HasSuffix(until, "%") || !share.IsPositive() || share.GreaterThan(largestError) {
			return o, usageError{ctx.Command.Name, fmt.Sprintf("--until: found %q, expected a share over 0%% and at most 50%%, such as 0.5%%", until)}
		}
		o.Until = share.InexactFloat64()
		if !ctx.IsSet("trials") {
			o.Trials = risk.MaxTrials
		}
	}
	return o, nil
}
