package workbook

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"roofyears/report"
	"roofyears/scenarios"
)

// example is the plain study of an embedded example.
func example(t *testing.T, name string) report.Study {
	src, ok := scenarios.Example(name)
	require.True(t, ok)
	return read(t, src)
}

func read(t *testing.T, src scenarios.Source) report.Study {
	src.Open = nil
	file, diagnostics := scenarios.Read(src)
	require.NotNil(t, file, "%v", diagnostics)
	r, err := file.Study.Evaluate()
	require.NoError(t, err)
	study := report.Study{Result: r, Warnings: file.Warnings, File: report.NamedStudy(src.Name, src.Text)}
	for _, s := range file.Structure {
		study.Settings = append(study.Settings, report.Setting{Path: s.Path, Label: s.Label, Value: s.Value})
	}
	return study
}

// plainly is the trial of a workbook as it is written.
func plainly(t *testing.T, name string, study report.Study) trial {
	var file bytes.Buffer
	require.NoError(t, Write(&file, study), name)
	curve, err := study.Result.RateCurve(report.WordsOf(study).CurveStep())
	require.NoError(t, err)
	return trial{name: name, file: file.Bytes(), want: lay(study, curve)}
}

func TestExamplesRecalculate(t *testing.T) {
	var trials []trial
	for _, name := range []string{"cold-store", "school"} {
		study := example(t, name)
		tr := plainly(t, name, study)
		trials = append(trials, tr)
		for seed := range uint64(3) {
			trials = append(trials, otherInputs(t, tr, study, rand.New(rand.NewPCG(seed, 3))))
		}
	}
	for _, e := range engines {
		t.Run(e.name, func(t *testing.T) { t.Logf("%d formulas compared", recalculated(t, e, trials)) })
	}
}

// The study files of the reader's tests: surveys, films, packs, reflective
// surfaces, findings, waits, both systems of units.
func TestStudyFilesRecalculate(t *testing.T) {
	files, err := filepath.Glob("../../testdata/scenarios/*/*.yaml")
	require.NoError(t, err)
	var trials []trial
	for _, file := range files {
		if filepath.Base(filepath.Dir(file)) == "bad" {
			continue
		}
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		trials = append(trials, plainly(t, file, read(t, scenarios.Source{Name: file, Text: text})))
	}
	require.Greater(t, len(trials), 20)
	for _, e := range engines {
		t.Run(e.name, func(t *testing.T) {
			t.Logf("%d formulas of %d workbooks compared", recalculated(t, e, trials), len(trials))
		})
	}
}
