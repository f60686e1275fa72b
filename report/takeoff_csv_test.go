package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// read gives the rows of a CSV by column.
func readCSV(t *testing.T, in Study) []map[string]string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, WriteTakeOffCSV(&b, in))
	text, marked := strings.CutPrefix(b.String(), "\ufeff")
	require.True(t, marked)
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll() // fails where rows differ in length
	require.NoError(t, err)
	var out []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, cell := range line {
			if cell != "" {
				row[lines[0][i]] = cell
			}
		}
		out = append(out, row)
	}
	return out
}

func TestTakeOffAsCSV(t *testing.T) {
	in := coatedRoof().told(t)
	in.TakeOff.Notches[1] = num("40")
	rows := readCSV(t, in)
	kinds, sum := []string{}, num("0")
	for _, row := range rows {
		kinds = append(kinds, row["row"])
		if row["row"] == "cost" {
			sum = sum.Add(num(row["cost"]))
		}
	}
	assert.Equal(t, strings.Fields("measured measured measured buy step step step cost cost cost cost cost total"), kinds)
	assert.Equal(t, "22805.49", sum.String())
	assert.Equal(t, map[string]string{"row": "total", "name": "all first costs", "cost": "22805.49", "currency": "USD"}, rows[12])
	assert.Equal(t, map[string]string{"row": "measured", "name": "Plan area", "detail": "area", "quantity": "10000", "unit": "ft2", "source": "drawing A1"}, rows[1])
	buy := rows[3]
	assert.Greater(t, len(buy["quantity"]), 20, "all digits")
	assert.True(t, num(buy["quantity"]).Add(num(buy["left_over"])).Equal(num(buy["bought"])))
	for column, want := range map[string]string{"step": "2", "name": "Acrylic", "detail": "white", "unit": "gal", "per_unit": "100 ft2", "pack": "5", "packs": "61",
		"bought": "305", "price": "41.37", "cost": "12617.85", "dry_film": "20", "gauge_notch": "40", "film_unit": "mil", "volume_solids": "0.52", "loss": "0.1"} {
		assert.Equal(t, want, buy[column], column)
	}
	assert.Equal(t, map[string]string{"row": "step", "step": "3", "name": "Inspect", "then_wait_hours": "2"}, rows[6])
	assert.Equal(t, map[string]string{"row": "cost", "name": "Permit", "detail": "other", "price": "412.33", "cost": "412.33", "currency": "USD"}, rows[11])
}

// No text of a study is a formula, whatever separator the spreadsheet takes.
func TestNoTextIsAFormula(t *testing.T) {
	for in, want := range map[string]string{
		"=1+1": "'=1+1", "+1": "'+1", "-1": "'-1", "@SUM(A1)": "'@SUM(A1)", "\t=1": "'\t'=1", "\r=1": "'\r'=1", "  =1": "'  =1", "＝1": "'＝1",
		"ridge;=1": "ridge;'=1", "a\n=1": "a\n'=1", "a = b - c": "a = b - c", "": "", "wash, rinse": "wash, rinse", "'=1": "'=1",
	} {
		assert.Equal(t, want, harmless(in), "%q", in)
	}
	j := coatedRoof()
	evil := `=HYPERLINK("http://example.org";"a")`
	for i := range j.off.Measured {
		m := &j.off.Measured[i]
		m.Label, m.How, m.Source = evil, evil, evil
	}
	for i := range j.off.Steps {
		j.off.Steps[i].Name, j.off.Steps[i].Note = evil, evil
	}
	j.off.Steps[1].Material.Name, j.off.Steps[1].Material.Colour = evil, evil
	for i := range j.study.Systems[0].First {
		j.study.Systems[0].First[i].Name = evil
	}
	for _, row := range readCSV(t, j.told(t)) {
		for column, cell := range row {
			assert.NotContains(t, "=+-@", cell[:1], "%s: %s", column, cell)
		}
	}
}

func TestTakeOffAsJSON(t *testing.T) {
	in := coatedRoof().told(t)
	var b bytes.Buffer
	require.NoError(t, WriteTakeOff(&b, in))
	var doc map[string]any
	d := json.NewDecoder(&b)
	d.UseNumber()
	require.NoError(t, d.Decode(&doc))
	assert.Equal(t, json.Number("1"), doc["roofyears"])
	assert.Equal(t, json.Number("22805.49"), doc["first_cost"])
	material := doc["materials"].([]any)[0].(map[string]any)
	assert.Equal(t, json.Number("305"), material["bought"])
	assert.Equal(t, json.Number("12617.85"), material["cost"])
	coat := material["coat"].(map[string]any)
	assert.Equal(t, json.Number("20"), coat["dry_film"])
	assert.Nil(t, coat["gauge_notch"], "no notch was given")
	step := doc["steps"].([]any)[2].(map[string]any)
	assert.Nil(t, step["quantity"])
	costs := doc["costs"].([]any)
	require.Len(t, costs, 5)
	assert.Nil(t, costs[4].(map[string]any)["step"])
}
