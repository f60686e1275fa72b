package main

import (
	"fmt"
	"os"

	"github.com/urfave/cli/v2"

	"roofyears/report"
	"roofyears/report/html"
	"roofyears/scenarios"
)

// letterheadFlags are what the preparer adds to a page in place of what the
// study file says.
func letterheadFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "logo", Usage: "show the picture of `FILE`, PNG or JPEG, at the head of the page"},
		&cli.StringFlag{Name: "accent", Usage: "give links and rules the `COLOUR`, such as \"#1b4d7e\""},
		&cli.StringFlag{Name: "heading-colour", Usage: "give headings the `COLOUR`"},
		&cli.StringSliceFlag{Name: "contact", Usage: "a `LINE` of your contact; again for each line"},
		&cli.StringSliceFlag{Name: "note", Usage: "a `PARAGRAPH` of your own under the answer; again for each paragraph"},
	}
}

// letterheadOf reads the flags of a letterhead.
func letterheadOf(ctx *cli.Context) (report.Letterhead, error) {
	l, part, err := checkedLetterhead(report.Letterhead{
		Accent: ctx.String("accent"), Heading: ctx.String("heading-colour"),
		Contact: ctx.StringSlice("contact"), Note: ctx.StringSlice("note"),
	})
	if err != nil {
		return l, usageError{"report", fmt.Sprintf("--%s: %v", part, err)}
	}
	return l, nil
}

// checkedLetterhead holds a letterhead to the rules of study files. Of a
// mistake it tells the part, by its flag.
func checkedLetterhead(l report.Letterhead) (out report.Letterhead, part string, err error) {
	if l.Accent != "" {
		if l.Accent, err = scenarios.ParseColour(l.Accent); err != nil {
			return l, "accent", err
		}
	}
	if l.Heading != "" {
		if l.Heading, err = scenarios.ParseColour(l.Heading); err != nil {
			return l, "heading-colour", err
		}
	}
	if err := scenarios.CheckContact(l.Contact); err != nil {
		return l, "contact", err
	}
	return l, "note", scenarios.CheckNote(l.Note)
}

// logoFlag reads the logo that a flag names; nil without the flag.
func (c commands) logoFlag(ctx *cli.Context) (*report.Logo, error) {
	path := ctx.String("logo")
	if path == "" {
		return nil, nil
	}
	c.took.add(os.Stat(path))
	data, err := scenarios.LoadLogo(path)
	if err != nil {
		return nil, err
	}
	logo, err := scenarios.ParseLogo(data)
	if err != nil {
		return nil, usageError{"report", fmt.Sprintf("--logo: %v", err)}
	}
	return logoOf(logo), nil
}

// logoOf is a logo that was read, for a page.
func logoOf(logo *scenarios.Logo) *report.Logo {
	if logo == nil {
		return nil
	}
	return &report.Logo{Type: logo.Type, Bytes: logo.Bytes}
}

// logoSum is the digest of a logo; "" without one.
func logoSum(logo *report.Logo) string {
	if logo == nil {
		return ""
	}
	return html.SHA256(logo.Bytes)
}

// flagsOf names the parts that a letterhead has.
func flagsOf(l report.Letterhead) []string {
	var out []string
	for _, part := range []struct {
		name string
		has  bool
	}{
		{"accent", l.Accent != ""}, {"heading colour", l.Heading != ""}, {"contact", len(l.Contact) > 0}, {"note", len(l.Note) > 0},
	} {
		if part.has {
			out = append(out, part.name)
		}
	}
	return out
}
