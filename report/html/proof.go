package html

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"io"
	"strings"

	"roofyears/report"
)

//go:embed assets/save.js
var saveScript string

// The ids of the element that holds the study a page carries, and of the
// button that gives it back.
const (
	CarriedID = "carried-study"
	SaveID    = "save-study"
)

// carriedFormat is the version of what that element holds.
const carriedFormat = 1

// carried is what a page carries to be made again, as JSON. base64 keeps every
// byte of the file, and none of it can end the element.
type carried struct {
	Format  int    `json:"roofyears"`
	Version string `json:"version"`
	Name    string `json:"name"`
	report.Options
	SHA256 string `json:"sha256"`
	Text   string `json:"text_base64"`
}

// carriedStudy is a carried study as the template sees it.
type carriedStudy struct {
	JSON               template.JS
	Name, Size, SHA256 string
}

// carry writes what a page carries; nil when that is nothing.
func carry(p *report.Proof) (*carriedStudy, error) {
	if p == nil {
		return nil, nil
	}
	sum := SHA256(p.File.Text)
	text, err := json.Marshal(carried{
		carriedFormat, p.Version, p.File.Name, p.Options, sum, base64.StdEncoding.EncodeToString(p.File.Text),
	})
	if err != nil {
		return nil, fmt.Errorf("the carried study: %w", err)
	}
	return &carriedStudy{template.JS(text), p.File.Name, report.Plural(len(p.File.Text), "byte"), sum}, nil
}

// SHA256 is the digest of a file as people compare it: 64 hexadecimal digits.
func SHA256(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// ReadCarried reads what a page carries, and the digest that the page says
// its study has. It does not compare the two.
func ReadCarried(text string) (p report.Proof, sum string, err error) {
	var c carried
	dec := json.NewDecoder(strings.NewReader(text))
	dec.DisallowUnknownFields()
	if err := dec.Decode(&c); err != nil {
		return p, "", fmt.Errorf("not the data this program writes: %w", err)
	}
	if _, err := dec.Token(); !errors.Is(err, io.EOF) {
		return p, "", errors.New("something follows its data")
	}
	if c.Format != carriedFormat {
		return p, "", fmt.Errorf("its format is %d, and this program reads %d", c.Format, carriedFormat)
	}
	b, err := base64.StdEncoding.DecodeString(c.Text)
	if err != nil {
		return p, c.SHA256, fmt.Errorf("its text is damaged: %w", err)
	}
	return report.Proof{File: report.StudyFile{Name: c.Name, Text: b}, Options: c.Options, Version: c.Version}, c.SHA256, nil
}
