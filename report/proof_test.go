package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestStudyIsNamedWithoutItsFolder(t *testing.T) {
	assert.Equal(t, "roof.yaml", NamedStudy("/home/someone/bids/roof.yaml", nil).Name)
	assert.Equal(t, "standard input", NamedStudy("standard input", nil).Name)
	assert.Equal(t, "a\ufffd.yaml", NamedStudy("a\xff.yaml", nil).Name, "a name is text")
}

func TestReportWithoutAFileCarriesNoStudy(t *testing.T) {
	assert.Nil(t, Study{}.proof())
	in := Study{File: StudyFile{"a.yaml", []byte("x")}, Options: Options{Trials: 1, Seed: 2}, Version: "v"}
	assert.Equal(t, &Proof{in.File, in.Options, "v"}, in.proof())
}
