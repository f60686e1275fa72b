package main

import (
	"fmt"
	"io"

	"github.com/shopspring/decimal"
	"github.com/urfave/cli/v2"

	"roofyears/lcc"
	"roofyears/report"
	"roofyears/report/text"
	"roofyears/scenarios"
)

// factorsCommand prints present-value factors to check with a handbook.
func (c commands) factorsCommand() *cli.Command {
	return &cli.Command{
		Name:      "factors",
		Usage:     "print the present-value factors of a rate, to check figures with a handbook",
		UsageText: name + " factors --rate RATE --years N [--escalation RATE]",
		Description: "Example: " + name + " factors --rate 3% --years 30 --escalation 1%\n" +
			"Rates are written 3% or 0.03.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "rate", Usage: "discount `RATE` a year"},
			&cli.IntFlag{Name: "years", Usage: "number of `YEARS`, 1 to 200"},
			&cli.StringFlag{Name: "escalation", Usage: "escalation `RATE` of the escalated factor", Value: "0%"},
		},
		Action: func(ctx *cli.Context) error {
			if err := noFile(ctx); err != nil {
				return err
			}
			if !ctx.IsSet("rate") || !ctx.IsSet("years") {
				return usageError{"factors", "factors needs --rate and --years"}
			}
			d, err := flagRate(ctx, "rate")
			if err != nil {
				return err
			}
			e, err := flagRate(ctx, "escalation")
			if err != nil {
				return err
			}
			years := ctx.Int("years")
			if years < 1 || years > lcc.MaxPeriod {
				return usageError{"factors", fmt.Sprintf("--years is %d, expected 1 to %d", years, lcc.MaxPeriod)}
			}
			return c.write("", func(w io.Writer) error {
				return text.Write(w, report.Factors(d, e, years), c.terminal())
			})
		},
	}
}

func flagRate(ctx *cli.Context, flag string) (decimal.Decimal, error) {
	r, err := scenarios.ParseRate(ctx.String(flag))
	if err != nil {
		return r, usageError{ctx.Command.Name, fmt.Sprintf("--%s: %s", flag, err)}
	}
	return r, nil
}
