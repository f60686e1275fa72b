package main

import (
	"embed"
	"fmt"
	"io"
	"io/fs"
	"path"

	"roofyears/report/html"
)

// notices are the licences of what is linked into the program, in a folder for
// each module. A test gathers them and compares them with the modules.
//
//go:embed notices
var notices embed.FS

// writeNotices writes the licence of this program, of the libraries in it and
// of those in its pages.
func writeNotices(w io.Writer) error {
	err := fs.WalkDir(notices, "notices", func(file string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := notices.ReadFile(file)
		if err != nil {
			return err
		}
		return writeNotice(w, file[len("notices/"):], string(text))
	})
	if err != nil {
		return err
	}
	for _, n := range html.Notices() {
		if err := writeNotice(w, path.Join("in the pages", n.Name), n.Text); err != nil {
			return err
		}
	}
	return nil
}

func writeNotice(w io.Writer, title, text string) error {
	_, err := fmt.Fprintf(w, "==== %s ====\n\n%s\n", title, text)
	return err
}
