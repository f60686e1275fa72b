package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"github.com/shopspring/decimal"

	"roofyears/lcc"
	"roofyears/report"
	"roofyears/report/html"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// roofFiles gives each roof a file name of its own after its id, the first of
// those that would be alike without a number. A name has letters, digits,
// points, hyphens and low lines only, begins with a letter, a digit or a low
// line, and is no name that an operating system keeps for itself: whatever an
// id is, the file lies in its folder.
func roofFiles(ids []string) []string {
	taken := map[string]bool{}
	out := make([]string, len(ids))
	for i, id := range ids {
		base := fileName(id)
		name := base
		for n := 2; taken[strings.ToLower(name)]; n++ {
			name = fmt.Sprintf("%s-%d", base, n)
		}
		taken[strings.ToLower(name)] = true
		out[i] = name
	}
	return out
}

// longestName is how long the name of a file may grow, without its ending.
const longestName = 80

func fileName(id string) string {
	name := strings.Map(func(c rune) rune {
		if c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.ContainsRune("._-", c) {
			return c
		}
		return '-'
	}, id)
	name = strings.Trim(name[:min(len(name), longestName)], ".-")
	before, _, _ := strings.Cut(strings.ToUpper(name), ".")
	switch {
	case name == "":
		return "roof"
	case before == "CON", before == "PRN", before == "AUX", before == "NUL",
		len(before) == 4 && (strings.HasPrefix(before, "COM") || strings.HasPrefix(before, "LPT")):
		return "_" + name // Windows keeps these
	}
	return name
}

// title is what the page of a roof is called.
func (r *doneRoof) title(template *lcc.Study) string {
	if r.Name == "" {
		return template.About.Title + ", " + r.ID
	}
	return fmt.Sprintf("%s (%s)", r.Name, r.ID)
}

// ownStudy is the study of one roof, from a study file of its own.
func (r *doneRoof) ownStudy(l *portfolio.Lay, name string) (report.Study, error) {
	values, findings := map[lcc.Ref]decimal.Decimal{}, map[string]string{}
	for i, in := range l.Refs {
		if r.row.Given[i] {
			values[in] = r.row.Values[i]
		}
	}
	for i, path := range l.Texts {
		if text := r.row.Texts[i]; text != "" {
			findings[path] = text
		}
	}
	text, err := l.File.Own(r.title(l.File.Study), values, findings)
	if err != nil {
		return report.Study{}, err
	}
	file, diagnostics := scenarios.Read(scenarios.Source{Name: name + ".yaml", Text: text, Open: l.File.Source.Open})
	if file == nil { // the roof was done, so this is a defect
		return report.Study{}, fmt.Errorf("the study of the roof %q: %s", r.ID, diagnostics[0])
	}
	return studyOf(file)
}

// ownPage is where the page of a roof lies.
func ownPage(folder, name string) string { return filepath.Join(folder, name+".html") }

// apart refuses the page of a roof in the place of a file that is read, or
// written besides.
func (w *roofWriting) apart(folder string, names []string) error {
	for i, name := range names {
		page := ownPage(folder, name)
		if err := w.took.refuse("portfolio", page); err != nil {
			return err
		}
		for _, other := range w.others {
			if samePlace(page, other.path) {
				return usageError{"portfolio", fmt.Sprintf("--%s and the page of the roof %q name the same file, %s; name another one, or another folder with --pages", other.flag, w.roofs[i].ID, page)}
			}
		}
	}
	return nil
}

// writePages writes the page of each roof into a folder, on all processors. A
// page is there whole or not at all; what was there before stays until then. The
// first page that cannot be written ends it: the disk that is full for one is
// full for all.
func (w *roofWriting) writePages(ctx context.Context, folder string, names []string) error {
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return err
	}
	going, fail := context.WithCancelCause(ctx)
	defer fail(nil)
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	var all sync.WaitGroup
	for i, r := range w.roofs {
		free <- struct{}{}
		if going.Err() != nil {
			break
		}
		all.Go(func() {
			if err := w.writeOwn(r, folder, names[i]); err != nil {
				fail(err)
			}
			<-free
		})
	}
	all.Wait()
	if ctx.Err() != nil {
		return errInterrupted
	}
	return context.Cause(going)
}

// errInterrupted ends a run that was interrupted.
var errInterrupted = errors.New("interrupted")

func (w *roofWriting) writeOwn(r *doneRoof, folder, name string) error {
	study, err := r.ownStudy(&w.run.columns.Lays[r.Template], name)
	if err != nil {
		return err
	}
	doc, err := document(study, report.Options{Trials: pageTrials, Seed: 1, Paper: usualPaper(study.Result.Study.About.AreaUnit)})
	if err != nil {
		return err
	}
	var page bytes.Buffer
	if err := html.Write(&page, doc); err != nil {
		return err
	}
	return replaceFile(ownPage(folder, name), page.Bytes())
}
