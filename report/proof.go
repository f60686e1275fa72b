package report

import (
	"path/filepath"
	"strings"
)

// StudyFile is the file of a study as it was given.
type StudyFile struct {
	Name string // without a folder; "" when there was no file
	Text []byte // every byte of it
}

// NamedStudy is a study file under its name alone: the folder it was read from
// is nobody's business.
func NamedStudy(path string, text []byte) StudyFile {
	return StudyFile{Name: strings.ToValidUTF8(filepath.Base(path), "�"), Text: text}
}

// Options say what a report was made with besides the file. Whatever changes a
// figure or a word of the page, and is no part of the file, belongs here.
type Options struct {
	Trials int    `json:"trials"` // of the simulation; 0 when there was none
	Seed   uint64 `json:"seed"`   // of its draws
	Paper  Paper  `json:"paper"`  // that the page is laid out for

	Letterhead Letterhead `json:"letterhead,omitzero"`   // what stands in place of the file's
	Logo       string     `json:"logo_sha256,omitempty"` // SHA-256 of the logo on the page; "" when it has none
}

// Paper is a format of paper.
type Paper string

// The papers that a page can be laid out for.
const (
	A4     Paper = "a4"
	Letter Paper = "letter"
)

// Known tells whether it is one of the papers.
func (p Paper) Known() bool { return p == A4 || p == Letter }

// Proof is what a report carries so that anyone can make it again.
type Proof struct {
	File    StudyFile
	Options Options
	Version string // of the program that made the report; "" when unknown
}

// proof is what the report of a study carries; nil when it has no file.
func (in Study) proof() *Proof {
	if in.File.Name == "" {
		return nil
	}
	return &Proof{File: in.File, Options: in.Options, Version: in.Version}
}
