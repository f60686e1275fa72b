package main

import "github.com/urfave/cli/v2"

// helpCommand shows the help of the program or of one command.
func (c commands) helpCommand() *cli.Command {
	return &cli.Command{
		Name:        "help",
		Aliases:     []string{"h"},
		Usage:       "show the commands, or the help of one",
		UsageText:   name + " help [COMMAND]",
		Description: "Example: " + name + " help report",
		HideHelp:    true,
		Action: func(ctx *cli.Context) error {
			if ctx.Args().Present() {
				return cli.ShowCommandHelp(ctx, ctx.Args().First())
			}
			return cli.ShowAppHelp(ctx)
		},
	}
}
