package browsertest

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

func TestMain(m *testing.M) { os.Exit(Main(m)) }

// write puts a page into a file of its own.
func write(t *testing.T, html string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(path, []byte("<!doctype html><title>t</title>"+html), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func wantOne(t *testing.T, what string, got []string, part string) {
	t.Helper()
	if len(got) == 0 || !strings.Contains(strings.Join(got, "\n"), part) {
		t.Errorf("%s: got %q, want one with %q", what, got, part)
	}
}

func TestQuietPageIsQuiet(t *testing.T) {
	p := Open(t, write(t, `<p>text</p><img alt="" src="data:image/gif;base64,R0lGODlhAQABAAAAACw=">
		<script>console.log('fine')</script>`), Options{})
	for what, got := range map[string][]string{
		"requests": p.Requests(), "console errors": p.ConsoleErrors(), "violations": p.Violations(),
	} {
		if len(got) != 0 {
			t.Errorf("%s of a quiet page: %q", what, got)
		}
	}
}

func TestRequestsAreSeen(t *testing.T) {
	for name, html := range map[string]string{
		"image":      `<img src="https://images.example/a.png">`,
		"style":      `<style>body { background: url(https://images.example/a.png) }</style>text`,
		"script":     `<script src="https://images.example/a.js"></script>`,
		"fetch":      `<script>fetch('https://images.example/a').catch(() => {})</script>`,
		"web socket": `<script>new WebSocket('wss://images.example/a')</script>`,
		"later":      `<script>onload = () => setTimeout(() => { new Image().src = 'https://images.example/a' }, 0)</script>`,
	} {
		t.Run(name, func(t *testing.T) {
			wantOne(t, "requests", Open(t, write(t, html), Options{}).Requests(), "//images.example/a")
		})
	}
	t.Run("other file", func(t *testing.T) {
		wantOne(t, "requests", Open(t, write(t, `<link rel="stylesheet" href="other.css">`), Options{}).Requests(), "other.css")
	})
}

func TestConsoleErrorsAreSeen(t *testing.T) {
	for name, script := range map[string]string{
		"console":   `console.error('roof', {a: 1}, 'seam 7')`,
		"exception": `throw new Error('seam 7')`,
		"dialog":    `alert('seam 7')`,
		"rejection": `Promise.reject(new Error('seam 7'))`,
	} {
		t.Run(name, func(t *testing.T) {
			p := Open(t, write(t, `<script>`+script+`</script>`), Options{})
			wantOne(t, "console errors", p.ConsoleErrors(), "seam 7")
		})
	}
}

func TestViolationsAreSeen(t *testing.T) {
	const policy = `<meta http-equiv="Content-Security-Policy" content="default-src 'none'">`
	for directive, html := range map[string]string{
		"script-src-elem": `<script>document.title = 'ran'</script>`,
		"style-src-elem":  `<style>p { color: red }</style>`,
		"style-src-attr":  `<p style="color: red">text</p>`,
		"img-src":         `<img alt="" src="https://images.example/a.png">`,
		"script-src-attr": `<p onclick="alert(1)">text</p>`,
	} {
		t.Run(directive, func(t *testing.T) {
			path := write(t, policy+html)
			p := Open(t, path, Options{})
			wantOne(t, "violations", p.Violations(), directive+": ")
			if title := Eval[string](p, `document.title`); title != "t" {
				t.Error("the policy did not hold")
			}
			if strings.HasPrefix(directive, "script") {
				return // with JavaScript off there is nothing for the policy to forbid
			}
			p = Open(t, path, Options{NoScript: true})
			wantOne(t, "console errors without script", p.ConsoleErrors(), "Content Security Policy")
		})
	}
}

func TestOptionsReachThePage(t *testing.T) {
	path := write(t, `<p id="p">still</p><script>document.getElementById('p').textContent = 'moved'</script>`)
	const state = `[innerWidth, matchMedia('(prefers-color-scheme: dark)').matches, matchMedia('print').matches,
		document.getElementById('p').textContent].join()`
	for want, opts := range map[string]Options{
		"1280,false,false,moved": {},
		"360,true,false,moved":   {Width: 360, Dark: true},
		"1280,false,true,moved":  {Print: true},
		"1280,false,false,still": {NoScript: true},
	} {
		if got := Eval[string](Open(t, path, opts), state); got != want {
			t.Errorf("%+v: got %s, want %s", opts, got, want)
		}
	}
}

func TestPrintAndPicture(t *testing.T) {
	p := Open(t, write(t, `<p>text</p><script>
		window.printed = 0; addEventListener('beforeprint', () => window.printed++)</script>`), Options{})
	for _, paper := range []string{"A4", "Letter"} {
		if b := p.PDF(paper); !bytes.HasPrefix(b, []byte("%PDF-")) {
			t.Errorf("%s: not a PDF", paper)
		}
	}
	if n := Eval[int](p, `window.printed`); n != 2 {
		t.Errorf("the page heard of %d printings, want 2", n)
	}
	if b := p.Screenshot(); !bytes.HasPrefix(b, []byte("\x89PNG")) {
		t.Error("not a PNG")
	}
}

// failing stands in for a test that is expected to fail.
type failing struct {
	testing.TB
	said string
}

func (f *failing) Helper() {}
func (f *failing) Fatal(args ...any) {
	f.said = fmt.Sprint(args...)
	runtime.Goexit()
}

func TestMissingBrowserFails(t *testing.T) {
	t.Setenv("PATH", "")
	defer func(was func()) { was() }(withoutShared())
	f := &failing{TB: t}
	done := make(chan struct{})
	go func() {
		defer close(done)
		Open(f, "page.html", Options{})
	}()
	<-done
	if !strings.Contains(f.said, "install the Debian package chromium") {
		t.Errorf("without a browser the test said %q", f.said)
	}
}

// withoutShared hides the browser of Main and returns how to bring it back.
func withoutShared() (restore func()) {
	was := shared
	shared = nil
	return func() { shared = was }
}
