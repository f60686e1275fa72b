package scenarios

import (
	"errors"
	"fmt"
	"io/fs"
	"math"

	"roofyears/scenarios/contrast"
)

// The wording on the letterhead; see voice.go.

const (
	expectColour = `a colour of six hexadecimal digits in quotes, such as "#1b4d7e"`
	expectLogo   = "a PNG or JPEG file in the folder of the study or below, such as logo.png"
	expectNote   = "a paragraph of text, or a list of paragraphs"
	noFolder     = "standard input has no folder"
	notOrdinary  = "no ordinary file"
)

func notColour(text string) message {
	return message{what: quote(text) + " is not a colour", expected: expectColour}
}

// tooPale never shows a ratio as high as the limit that it is below.
func tooPale(text string, ratio float64) message {
	return message{
		what:     fmt.Sprintf("%s is too pale to read: its contrast with white paper is %.2f:1", quote(text), math.Floor(ratio*100)/100),
		expected: fmt.Sprintf("a contrast of at least %g:1", contrast.Least), hint: "take a darker shade",
	}
}

func logoElsewhere(name string) message {
	return message{what: "the path " + quote(name) + " leaves the folder of the study", expected: expectLogo}
}

func logoUnread(name string, err error) message {
	m := message{what: fmt.Sprintf("the file %s cannot be read: %v", quote(name), reason(err)), expected: expectLogo}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		m.what = "there is no file " + quote(name) + " beside the study"
	case errors.Is(err, errNoFolder):
		m.expected, m.hint = "", "name the study file, or give the logo with --logo FILE"
	}
	return m
}

func logoEmpty() message {
	return message{what: "the logo is an empty file", expected: expectPicture()}
}

func logoTooLarge() message {
	return message{what: fmt.Sprintf("the logo is larger than %d KiB, the most that is read", MaxLogo>>10), hint: "save it with fewer pixels or colours"}
}

func notPicture() message {
	return message{what: "the logo is not a PNG or JPEG picture", expected: expectPicture()}
}

func logoDamaged(err error) message {
	return message{what: fmt.Sprintf("the logo is damaged: %v", err), expected: expectPicture()}
}

func logoSize(width, height int) message {
	return message{what: fmt.Sprintf("the logo has %d x %d pixels", width, height), expected: expectPicture()}
}

func expectPicture() string {
	return fmt.Sprintf("a PNG or JPEG picture of %d to %d pixels each way", LeastPixel, MostPixel)
}
