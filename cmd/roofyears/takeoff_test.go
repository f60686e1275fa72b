package main

import (
	"testing"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"roofyears/lcc"
	"roofyears/lcc/takeoff"
)

// Between 30 and 60 mil a gauge has a notch each 5 mil (ASTM D4414); 40 mil are
// 1016 µm.
func TestNotchesOfATakeOff(t *testing.T) {
	for _, c := range []struct{ unit, wet, want string }{
		{"mil", "38.5", "40"}, {"mil", "40", "40"}, {"mil", "40.01", "45"}, {"um", "1000", "1016"}, {"µm", "1016", "1016"}, {"mil", "0", "0"},
	} {
		s := &lcc.Study{Inputs: []lcc.Input{{Unit: lcc.Count, UnitText: c.unit}}}
		r := &lcc.Result{Study: s, Inputs: lcc.Vector{decimal.RequireFromString(c.wet)}}
		off, err := takeOffOf(r, &takeoff.TakeOff{Steps: []takeoff.Step{
			{Name: "Wash"},
			{Name: "Fasten", Material: &takeoff.Material{}},
			{Name: "Coat", Material: &takeoff.Material{Coat: &takeoff.Coat{Wet: 0}}},
			{Name: "Coat", Material: &takeoff.Material{Coat: &takeoff.Coat{Wet: lcc.NoRef}}},
		}})
		require.NoError(t, err)
		assert.Equal(t, []string{"0", "0", c.want, "0"}, []string{
			off.Notches[0].String(), off.Notches[1].String(), off.Notches[2].String(), off.Notches[3].String(),
		}, "%s %s", c.wet, c.unit)
	}
}

func TestNoTakeOffHasNoNotches(t *testing.T) {
	off, err := takeOffOf(nil, nil)
	require.NoError(t, err)
	assert.Nil(t, off)
}
