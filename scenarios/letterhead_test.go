package scenarios

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestLetterheadIsRead(t *testing.T) {
	f := good(t, "letterhead.yaml")
	assert.Equal(t, Letterhead{
		Accent:  "#1b4d7e",
		Contact: []string{"مكتب السقوف", "4 Lantern Row", "<b>Tel.</b> 555 0142 {{.}}"},
		Note:    []string{"Thank you for the walk over the roof.", "Ask for anything that is not clear."},
	}, f.Letterhead)
	file, err := os.ReadFile(filepath.Join(testdata, "good", "letterhead.png"))
	require.NoError(t, err)
	assert.Equal(t, &Logo{"letterhead.png", "image/png", file}, f.Logo, "byte for byte")

	plain := good(t, "check-50000.yaml")
	assert.Empty(t, plain.Letterhead)
	assert.Nil(t, plain.Logo)
}

func TestANoteMayBeOneParagraph(t *testing.T) {
	src, _ := Example("cold-store")
	f, diagnostics := Read(src)
	require.NotNil(t, f, told(diagnostics))
	assert.Len(t, f.Letterhead.Note, 1)
	assert.NotNil(t, f.Logo)
}

// Without a way to open files, a logo is not looked at, but its name is.
func TestLogoIsNotLookedForWithoutNeed(t *testing.T) {
	src, _ := Example("cold-store")
	src.Open = nil
	f, diagnostics := Read(src)
	require.NotNil(t, f, told(diagnostics))
	assert.Nil(t, f.Logo)
	src.Text = bytes.ReplaceAll(src.Text, []byte("cold-store-logo.png"), []byte("../logo.png"))
	f, diagnostics = Read(src)
	assert.Nil(t, f)
	assert.Contains(t, told(diagnostics), `the path "../logo.png" leaves the folder of the study`)
}

// besideTold reads the cold store with another logo, from a folder.
func besideTold(t *testing.T, study, logo string) string {
	t.Helper()
	src, _ := Example("cold-store")
	src.Text = bytes.ReplaceAll(src.Text, []byte("cold-store-logo.png"), []byte(logo))
	src.Open = Beside(study)
	f, diagnostics := Read(src)
	if len(diagnostics) == 0 {
		require.NotNil(t, f)
		assert.NotNil(t, f.Logo)
	}
	return told(diagnostics)
}

func TestFilesBesideTheStudy(t *testing.T) {
	outside, dir := t.TempDir(), t.TempDir()
	study := filepath.Join(dir, "study.yaml")
	png, err := os.ReadFile(filepath.Join(testdata, "good", "letterhead.png"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(outside, "logo.png"), png, 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "logo.png"), png, 0o600))
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "pictures", "folder.png"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "pictures", "logo.png"), png, 0o600))
	require.NoError(t, os.Symlink(filepath.Join(outside, "logo.png"), filepath.Join(dir, "out.png")))
	require.NoError(t, os.Symlink("../"+filepath.Base(outside)+"/logo.png", filepath.Join(dir, "up.png")))
	require.NoError(t, os.Symlink(outside, filepath.Join(dir, "away")))
	require.NoError(t, os.Symlink("pictures/logo.png", filepath.Join(dir, "in.png")))
	require.NoError(t, syscall.Mkfifo(filepath.Join(dir, "pipe.png"), 0o600))
	for logo, want := range map[string]string{
		"logo.png": "", "./logo.png": "", "pictures/logo.png": "", "pictures/../logo.png": "", "in.png": "",
		"out.png":             `the file "out.png" cannot be read: path escapes from parent`,
		"up.png":              `the file "up.png" cannot be read: path escapes from parent`,
		"away/logo.png":       `the file "away/logo.png" cannot be read: path escapes from parent`,
		"pictures/folder.png": `the file "pictures/folder.png" cannot be read: no ordinary file`,
		"pipe.png":            `the file "pipe.png" cannot be read: no ordinary file`,
		".":                   `the file "." cannot be read: no ordinary file`,
		"pictures/../../x":    `the path "pictures/../../x" leaves the folder of the study`,
		"none.png":            `there is no file "none.png" beside the study`,
	} {
		got := besideTold(t, study, logo)
		if want == "" {
			assert.Empty(t, got, logo)
			continue
		}
		assert.Contains(t, got, ":9: error: letterhead.logo: "+want, logo)
	}
}

func TestStandardInputHasNoFolder(t *testing.T) {
	got := besideTold(t, "-", "logo.png")
	assert.Contains(t, got, `the file "logo.png" cannot be read: standard input has no folder`)
	assert.Contains(t, got, "--logo FILE")
}

func TestLogoIsJudgedByItsContent(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 20)), nil))
	logo, err := ParseLogo(b.Bytes())
	require.NoError(t, err)
	assert.Equal(t, "image/jpeg", logo.Type)
	for cut := range b.Len() { // every truncation of it is refused
		_, err := ParseLogo(b.Bytes()[:cut])
		assert.Error(t, err, cut)
	}
	png, err := os.ReadFile(filepath.Join(testdata, "good", "letterhead.png"))
	require.NoError(t, err)
	for cut := range png {
		_, err := ParseLogo(png[:cut])
		assert.Error(t, err, cut)
	}
	_, err = ParseLogo([]byte("GIF89a"))
	assert.EqualError(t, err, "the logo is not a PNG or JPEG picture, expected a PNG or JPEG picture of 16 to 2000 pixels each way")
}

func TestRulesOfALetterheadFromElsewhere(t *testing.T) {
	c, err := ParseColour("#1B4D7E")
	require.NoError(t, err)
	assert.Equal(t, "#1b4d7e", c)
	_, err = ParseColour("#777777")
	assert.EqualError(t, err, `"#777777" is too pale to read: its contrast with white paper is 4.47:1, expected a contrast of at least 4.5:1: take a darker shade`)
	_, err = ParseColour(`#000000; } td { display: none`)
	assert.ErrorContains(t, err, "is not a colour")

	assert.NoError(t, CheckContact([]string{strings.Repeat("é", MaxContactLine)}))
	assert.ErrorContains(t, CheckContact([]string{strings.Repeat("é", MaxContactLine+1)}), "longer than 80 characters")
	assert.ErrorContains(t, CheckContact(make([]string, MaxContact+1)), "9 entries, at most 8 are read")
	assert.ErrorContains(t, CheckContact([]string{"a\u202eb"}), "invisible character U+202E")
	assert.NoError(t, CheckNote([]string{strings.Repeat("x", MaxParagraph), "\u200fمكتب"}))
	assert.ErrorContains(t, CheckNote([]string{strings.Repeat("x", 10_000)}), "longer than 600 characters")
	assert.ErrorContains(t, CheckNote([]string{"a\nb"}), "several lines")
	assert.ErrorContains(t, CheckNote([]string{""}), "the text is empty")
}

// A text in braces goes on with words that are keys of a letterhead.
func TestLetterheadTakesNoWordsFromTexts(t *testing.T) {
	src, _ := Example("cold-store")
	src.Text = bytes.Replace(src.Text, []byte("{item: Leak calls and patching,"), []byte("{item: Leak calls, contact the owner first,"), 1)
	f, diagnostics := Read(src)
	require.NotNil(t, f, told(diagnostics))
	assert.Equal(t, "Leak calls, contact the owner first", f.Study.Systems[0].Annual[0].Name)
}

func TestFailureToOpenIsTold(t *testing.T) {
	src, _ := Example("cold-store")
	src.Open = func(string) ([]byte, error) { return nil, errors.New("the disk is on fire") }
	_, diagnostics := Read(src)
	assert.Contains(t, told(diagnostics), "cannot be read: the disk is on fire")
}
