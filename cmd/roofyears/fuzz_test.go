package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"

	"roofyears/lcc/risk"
	"roofyears/report"
	writer "roofyears/report/html"
	"roofyears/scenarios"
	"roofyears/scenarios/portfolio"
)

// checkPolicy parses a page and tells what in it its own policy would block, or
// a browser might run or fetch.
func checkPolicy(t *testing.T, page []byte) {
	t.Helper()
	doc, err := html.Parse(bytes.NewReader(page))
	require.NoError(t, err)
	policy := ""
	for n := range doc.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		for _, a := range n.Attr {
			key := strings.ToLower(a.Key)
			switch {
			case strings.HasPrefix(key, "on"), key == "style", key == "srcdoc", key == "formaction":
				t.Fatalf("<%s %s=%q>", n.Data, a.Key, a.Val)
			case key == "src" && !strings.HasPrefix(a.Val, "data:image/"):
				t.Fatalf("<%s src=%q>", n.Data, a.Val)
			case key == "href" && !strings.HasPrefix(a.Val, "#"), key == "http-equiv" && a.Val != "Content-Security-Policy":
				t.Fatalf("<%s %s=%q>", n.Data, a.Key, a.Val)
			case key == "content" && policy == "" && strings.HasPrefix(a.Val, "default-src"):
				policy = a.Val
				require.Regexp(t, strictPolicy, policy)
			}
		}
		switch n.Data {
		case "iframe", "object", "embed", "base", "link", "form", "foreignobject", "frame", "applet":
			t.Fatalf("<%s>", n.Data)
		case "script", "style":
			checkProgram(t, n, policy)
		}
	}
	require.NotEmpty(t, policy, "a page has its policy")
}

// checkProgram tells a script or a style sheet that the policy has no hash of;
// data runs nowhere.
func checkProgram(t *testing.T, n *html.Node, policy string) {
	t.Helper()
	for _, a := range n.Attr {
		if a.Key == "type" && a.Val == "application/json" {
			return
		}
	}
	var text strings.Builder
	for c := range n.ChildNodes() {
		text.WriteString(c.Data)
	}
	sum := sha256.Sum256([]byte(text.String()))
	if hash := "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"; !strings.Contains(policy, hash) {
		t.Fatalf("a <%s> beside the policy: %.200q", n.Data, text.String())
	}
}

// goodStudies adds study files that can be read.
func goodStudies(f *testing.F, add func(text []byte)) {
	f.Helper()
	for _, folder := range []string{"../../testdata/scenarios/good", "../../testdata/scenarios/odd", "../../scenarios/examples"} {
		files, err := filepath.Glob(filepath.Join(folder, "*.yaml"))
		require.NoError(f, err)
		require.NotEmpty(f, files, folder)
		for _, file := range files {
			text, err := os.ReadFile(file)
			require.NoError(f, err)
			add(text)
		}
	}
}

// largestFuzzed is how long a text may be whose page is written: larger ones
// only take longer.
const largestFuzzed = 16 << 10

// FuzzPage writes the page of whatever study can be read: it parses, keeps to
// its policy, and verifies.
func FuzzPage(f *testing.F) {
	goodStudies(f, func(text []byte) { f.Add(text) })
	picture, err := os.ReadFile("../../scenarios/examples/cold-store-logo.png")
	require.NoError(f, err)
	logo := func(string) ([]byte, error) { return picture, nil } // whatever it is called
	f.Fuzz(func(t *testing.T, text []byte) {
		file, _ := scenarios.Read(scenarios.Source{Name: "fuzz.yaml", Text: text, Open: logo})
		if file == nil || len(text) > largestFuzzed {
			return
		}
		study, err := studyOf(file)
		require.NoError(t, err)
		doc, err := document(study, report.Options{Trials: 20, Seed: 1, Paper: usualPaper(study.Result.Study.About.AreaUnit)})
		require.NoError(t, err)
		var page bytes.Buffer
		require.NoError(t, writer.Write(&page, doc))
		checkPolicy(t, page.Bytes())
		var out, told bytes.Buffer
		c := commands{std: stream{nil, &out, &told}}
		require.NoError(t, c.verify("fuzz.html", page.Bytes()), told.String())
	})
}

// carriedTrials is how many trials a page carries.
var carriedTrials = regexp.MustCompile(`"trials":\s*\d+`)

// fewTrials makes so many trials that they only take long a few; what verify
// refuses stays as it is.
func fewTrials(carried []byte) []byte {
	_, number, _ := bytes.Cut(carried, []byte(":"))
	if n, err := strconv.Atoi(string(bytes.TrimSpace(number))); err == nil && n > 1 && n <= risk.MaxTrials {
		return []byte(`"trials":1`)
	}
	return carried
}

// FuzzVerify gives verify any bytes: it ends, with a proof or with what is
// wrong. The seeds are pages with less text in them than a whole one has.
func FuzzVerify(f *testing.F) {
	src, _ := scenarios.Example("school")
	var page bytes.Buffer
	code := run([]string{name, "report", "--trials", "1", "-o", "-", "-"}, stream{bytes.NewReader(src.Text), &page, &bytes.Buffer{}})
	require.Equal(f, exitDone, code)
	f.Add(page.Bytes())
	f.Add(program.ReplaceAll(page.Bytes(), []byte("<script>1</script>")))
	f.Add(carriedIn.Find(page.Bytes()))
	f.Add([]byte(`<!DOCTYPE html><script type="application/json" id="carried-study">{"file":{"name":"x","text":"roofyears: 1"},"options":{"trials":5000001}}</script>`))
	f.Add([]byte("<p>no page"))
	f.Fuzz(func(t *testing.T, text []byte) {
		text = carriedTrials.ReplaceAllFunc(text, fewTrials)
		var out, said bytes.Buffer
		code := told(&said, commands{std: stream{nil, &out, &said}}.verify("fuzz.html", text))
		switch proof := strings.HasPrefix(out.String(), proved); {
		case code == exitDone && proof:
		case code == exitInput && !proof && said.Len() > 0:
		default:
			t.Fatalf("code %d, out %q, told %q", code, out.String(), said.String())
		}
	})
}

// FuzzRoofs lays any table on a template and writes the page about all roofs.
func FuzzRoofs(f *testing.F) {
	table, _ := scenarios.ExampleTable(scenarios.PortfolioExample)
	lines := bytes.SplitAfter(table.Text, []byte("\n"))
	f.Add(bytes.Join(lines[:4], nil))
	f.Add([]byte("id,name,roof.area\n</script><script>alert(1)</script>,\"<b onclick=x>\",5000\n=1+1,@x,1e3\n"))
	f.Add([]byte("id,note,study.discount_rate\na,\u202e,3%\na,,\nb,x,-40%\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		if len(text) > largestFuzzed {
			return
		}
		src, _ := scenarios.Example(scenarios.PortfolioExample)
		file, _ := scenarios.Read(src)
		r, err := newRoofRun([]portfolio.Template{{File: file}}, "fuzz.csv", bytes.NewReader(text), portfolio.Options{Format: portfolio.CSV}, portfolio.Meaning{}, wanted{})
		if err != nil {
			return
		}
		r.gather, r.page = true, &roofsPage{"page.html", report.A4, "fuzz.csv"}
		w := &roofWriting{run: r, out: &bytes.Buffer{}, told: &bytes.Buffer{}, empty: make([]int, len(r.columns.Inputs()))}
		if err := w.write(t.Context()); err != nil && len(w.roofs) == 0 {
			return
		}
		var page bytes.Buffer
		require.NoError(t, writer.Write(&page, report.BuildRoofs(w.pageOf())))
		checkPolicy(t, page.Bytes())
	})
}
