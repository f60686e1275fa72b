package main

import (
	"io"

	"github.com/urfave/cli/v2"

	"roofyears/scenarios"
)

// schemaCommand writes the schema of the study file, for editors.
func (c commands) schemaCommand() *cli.Command {
	return &cli.Command{
		Name:      "schema",
		Usage:     "write the JSON Schema of the study file, by which an editor completes and checks it",
		UsageText: name + " schema [-o OUT]",
		Description: "Example: " + name + " schema -o roofyears.schema.json\n" +
			"An editor that knows JSON Schema (2020-12) offers keys, shows what each is and marks what cannot stand. Many\n" +
			"find the schema by a comment at the top of the study:\n" +
			"  " + scenarios.SchemaComment("roofyears.schema.json") + "\n" +
			"What concerns several places of a file, \"" + name + " check\" tells alone.",
		Flags: []cli.Flag{outputFlag()},
		Action: func(ctx *cli.Context) error {
			if err := noFile(ctx); err != nil {
				return err
			}
			return c.write(ctx.String("output"), func(w io.Writer) error {
				_, err := w.Write(scenarios.Schema())
				return err
			})
		},
	}
}
