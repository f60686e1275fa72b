package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"time"
)

// browsers are the names under which a Chromium may be found.
var browsers = []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"}

// printing is how long a page may take to print; a variable, so that a test need
// not wait.
var printing = 2 * time.Minute

// printPDF prints a page as a PDF file through a Chromium on this machine. What
// that did not write to its end is not passed on.
func printPDF(w io.Writer, page []byte) error {
	browser, err := findBrowser()
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "roofyears-")
	if err != nil {
		return fmt.Errorf("printing needs a folder for temporary files, and %s is none: %w", os.TempDir(), cause(err))
	}
	defer os.RemoveAll(dir)
	source, printed := filepath.Join(dir, "page.html"), filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(source, page, 0o600); err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), printing)
	defer cancel()
	ctx, stop := signal.NotifyContext(ctx, interruptions...)
	defer stop()
	address := url.URL{Scheme: "file", Path: filepath.ToSlash(source)}
	args := []string{"--headless", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-component-update",
		"--disable-sync", "--no-pdf-header-footer", "--user-data-dir=" + filepath.Join(dir, "profile"), "--print-to-pdf=" + printed, address.String()}
	if os.Geteuid() == 0 { // Chromium has no sandbox for root
		args = append([]string{"--no-sandbox"}, args...)
	}
	cmd := exec.CommandContext(ctx, browser, args...)
	if os.Getenv("HOME") == "" { // or Chromium takes the folder for temporary files as one
		cmd.Env = append(os.Environ(), "HOME="+dir)
	}
	cmd.WaitDelay = 5 * time.Second // for what the browser started
	said, err := cmd.CombinedOutput()
	data, missing := os.ReadFile(printed)
	switch {
	case errors.Is(ctx.Err(), context.Canceled):
		return errInterrupted
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return tooLongToPrint(browser)
	case err != nil || missing != nil:
		return fmt.Errorf("%s did not print the page: %v", browser, cmp.Or(lastLine(said), err, missing))
	case !bytes.HasSuffix(bytes.TrimSpace(data), []byte("%%EOF")):
		return fmt.Errorf("%s printed only part of the page; is there room in %s?", browser, os.TempDir())
	}
	_, err = w.Write(data)
	return err
}

// tooLongToPrint tells the limit that a page met.
func tooLongToPrint(browser string) error {
	return fmt.Errorf("%s did not print the page within %.0f minutes, the longest that %s waits: "+
		"write the page with -o, open it in a browser and print it from there to a PDF file", browser, printing.Minutes(), name)
}

func findBrowser() (string, error) {
	for _, name := range browsers {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", errors.New("no Chromium was found to print with: install one (on Debian, the package chromium), " +
		"or write the page with -o, open it in a browser and print it from there to a PDF file")
}

// lastLine is the last thing that a program said, as an error; nil when it
// said nothing.
func lastLine(said []byte) error {
	const most = 300
	text := string(said)
	for len(text) > 0 && text[len(text)-1] == '\n' {
		text = text[:len(text)-1]
	}
	for i := len(text) - 1; i >= 0; i-- {
		if text[i] == '\n' {
			text = text[i+1:]
			break
		}
	}
	if text == "" {
		return nil
	}
	return errors.New(printable(text[:min(len(text), most)]))
}
