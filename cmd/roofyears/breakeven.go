package main

import (
	"io"

	"github.com/urfave/cli/v2"

	"roofyears/lcc/vary"
	"roofyears/report"
	"roofyears/report/text"
)

// breakEvenCommand finds how far each input may move.
func (c commands) breakEvenCommand() *cli.Command {
	return &cli.Command{
		Name:      "break-even",
		Usage:     "tell how far each input may move before another alternative is cheaper",
		UsageText: name + " break-even [--alternative A] [--against B] [--json] [-o OUT] FILE",
		Description: "Example: " + name + " break-even --alternative Restore --against \"Tear off and replace\" example:cold-store\n" +
			"Without flags: the answer against every other alternative that nothing rules out.",
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "alternative", Usage: "the alternative `A` in question, by its name"},
			&cli.StringFlag{Name: "against", Usage: "the rival `B`, by its name"},
			&cli.BoolFlag{Name: "json", Usage: "write the result for programs"},
			outputFlag(),
		},
		Action: c.onStudy(func(ctx *cli.Context, study report.Study, out output) error {
			alternative, rivals, err := contest(ctx, study)
			if err != nil {
				return err
			}
			holds, err := vary.Holds(study.Result, alternative, rivals)
			if err != nil {
				return err
			}
			return out(func(w io.Writer) error {
				if ctx.Bool("json") {
					return report.WriteHolds(w, study, alternative, holds)
				}
				return text.Write(w, report.HoldsDocument(study, alternative, holds), c.layout(ctx))
			})
		}),
	}
}

// contest finds who is asked about and against whom.
func contest(ctx *cli.Context, study report.Study) (alternative int, rivals []int, err error) {
	r := study.Result
	alternative = r.Answer.Lowest
	if wanted := ctx.String("alternative"); wanted != "" {
		if alternative, err = alternativeNamed(r.Study, "break-even", "alternative", wanted); err != nil {
			return 0, nil, err
		}
	}
	if alternative < 0 {
		return 0, nil, usageError{"break-even", "no alternative is eligible, so there is no answer; name one with --alternative"}
	}
	rivals = vary.Rivals(r, alternative)
	if wanted := ctx.String("against"); wanted != "" {
		rival, err := alternativeNamed(r.Study, "break-even", "against", wanted)
		if err != nil {
			return 0, nil, err
		}
		rivals = []int{rival}
	}
	if len(rivals) == 0 || rivals[0] == alternative {
		return 0, nil, usageError{"break-even", "a break-even needs another alternative to compare with"}
	}
	return alternative, rivals, nil
}
