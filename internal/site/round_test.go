package site

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/govalues/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"linemap/internal/network"
	"linemap/internal/unit"
)

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySite(t)
		data, err := Encode(s)
		require.NoError(t, err)
		back, err := Decode(data)
		require.NoError(t, err, string(data))
		require.Equal(t, s, back)
		again, err := Encode(back)
		require.NoError(t, err)
		require.Equal(t, string(data), string(again))
	})
}

// TestWholeDocument reads a document with every member and looks at figures of
// each unit.
func TestWholeDocument(t *testing.T) {
	s := wholeSite(t)
	assert.Equal(t, "Two lines.\nThe gate is locked.", s.Job.Note)
	assert.Equal(t, unit.Metres(-2.4), *s.Network.Nodes[0].Invert)
	assert.Equal(t, unit.Degrees(90), s.Network.Nodes[1].Access.Entry)
	assert.Equal(t, network.FacesUpstream, s.Network.Nodes[1].Access.Facing)
	assert.Equal(t, []network.PipeID{"p4"}, s.Network.Nodes[2].Junction.Branches)
	assert.Equal(t, unit.Pressure(10342500), *s.Network.Pipes[0].Ceiling)
	assert.Equal(t, unit.Slope(0.0208), *s.Network.Pipes[1].Slope)
	assert.Equal(t, unit.Size(1.5), s.Network.Pipes[4].Size)
	assert.Equal(t, unit.LitresPerMinute(200), s.Water[0].Flow)
	assert.Equal(t, unit.Metres(14.5), *s.Lays[0].Length)
	assert.Equal(t, unit.Bar(275), s.Rig.Pump.Rated)
	assert.Equal(t, unit.Litres(1250), s.Rig.Tank.Volume)
	assert.Equal(t, unit.Metres(0.0000015), s.Rig.Hoses[0].Roughness)
	assert.Equal(t, unit.Speed(18.0/60), s.Rig.Crew.Lay)
	assert.InDelta(t, 5.25, s.Rig.Crew.NozzleChange, 0)
	assert.Equal(t, "95.00", s.Prices.CallOut.String(), "digit by digit")
	assert.Equal(t, "1.1250", s.Prices.Rates[0].Amount.String())
	assert.Equal(t, decimal.MustParse("8.875"), s.Prices.TaxPercent)
	assert.Equal(t, []byte("\x89PNG\r\n\x1a\n"), s.Underlays[0].Data)
	assert.Equal(t, unit.Degrees(12.5), s.Underlays[0].Turn)
	assert.Equal(t, "plans/yard.jpg", s.Underlays[1].File)
	assert.Equal(t, RunKey{Spot: "lane", Hose: "half", Access: "vent", End: "p6", Downstream: true}, s.ByHand.Bar[0])
	assert.Equal(t, unit.Metres(31.25), s.Visits[0].Runs[0].Reached)
	assert.Equal(t, 42*time.Minute+30*time.Second, s.Visits[0].Runs[0].Minutes)
	assert.Equal(t, PipeResult{"p2", unit.Metres(12.5), unit.Metres(5.25)}, s.Visits[0].Runs[0].Pipes[1])
	assert.Nil(t, s.extras)

	first, err := Encode(s)
	require.NoError(t, err)
	back, err := Decode(first)
	require.NoError(t, err)
	assert.Equal(t, s, back)
	for range 10 {
		again, err := Encode(back)
		require.NoError(t, err)
		require.Equal(t, string(first), string(again))
	}
}

func TestByteOrderMark(t *testing.T) {
	s, err := Decode([]byte("\xef\xbb\xbf" + whole))
	require.NoError(t, err)
	assert.Equal(t, wholeSite(t), s)
}

// strange marks every object of the whole document with a member that no
// program knows.
func strange() string {
	n := 0
	var b strings.Builder
	quoted := false
	for i, c := range whole {
		if c == '"' && whole[i-1] != '\\' {
			quoted = !quoted
		}
		b.WriteRune(c)
		if c == '{' && !quoted {
			n++
			fmt.Fprintf(&b, `"later %d": {"deep": [%d, {"k": null}], "n": 1e400},`, n, n)
		}
	}
	return b.String()
}

// TestUnknownMembersSurvive gives every object a member of a later program.
// All come through, and so do those in them.
func TestUnknownMembersSurvive(t *testing.T) {
	text := strange()
	objects := strings.Count(text, `"later `)
	require.Greater(t, objects, 40)
	s, err := Decode([]byte(text))
	require.NoError(t, err)
	data, err := Encode(s)
	require.NoError(t, err)
	for n := range objects {
		assert.Equal(t, 1, strings.Count(string(data), fmt.Sprintf(`"later %d": {"deep": [%d, {"k": null}], "n": 1e400}`, n+1, n+1)), n+1)
	}
	back, err := Decode(data)
	require.NoError(t, err)
	assert.Equal(t, s, back)
	again, err := Encode(back)
	require.NoError(t, err)
	assert.Equal(t, string(data), string(again))
	assert.Contains(t, string(data), `"levels": [`+"\n"+`      {"name": "Ground", "elevation": 0, "later 5"`, "at the end of their object")
}

// TestUnknownMembersOfAnEmptyObjectSurvive has nothing decided by hand but by a
// later program.
func TestUnknownMembersOfAnEmptyObjectSurvive(t *testing.T) {
	before, after, _ := strings.Cut(whole, `  "by_hand": {`)
	_, after, _ = strings.Cut(after, "\n  },")
	s, err := Decode([]byte(before + `"by_hand": {"later": {"n": 1}},` + after))
	require.NoError(t, err)
	assert.True(t, s.ByHand.IsZero())
	data, err := Encode(s)
	require.NoError(t, err)
	assert.Contains(t, string(data), `"by_hand": {"later": {"n": 1}}`)
	back, err := Decode(data)
	require.NoError(t, err)
	assert.Equal(t, s, back)
}

// TestUnknownMembersFollowTheirElement edits a document between loading and
// saving: members stay with the element they belong to, wherever it stands.
func TestUnknownMembersFollowTheirElement(t *testing.T) {
	s, err := Decode([]byte(strange()))
	require.NoError(t, err)
	before, err := Encode(s)
	require.NoError(t, err)
	mark := func(data []byte, id string) string {
		_, after, found := strings.Cut(string(data), `"id": "`+id+`"`)
		require.True(t, found, id)
		_, after, _ = strings.Cut(after, `"later `)
		number, _, _ := strings.Cut(after, `"`)
		return number
	}

	edited := s.Clone()
	p1 := edited.Network.Pipes[0]
	edited.Network.Pipes = append(edited.Network.Pipes[2:], p1) // p2 is gone, p1 is last
	edited.Network.Pipes[0].Label = "Renamed"
	edited.Lays = edited.Lays[1:]
	after, err := Encode(edited)
	require.NoError(t, err)
	for _, id := range []string{"p1", "p3", "p4", "p5", "p6"} {
		assert.Equal(t, mark(before, id), mark(after, id), id)
	}
	assert.NotContains(t, string(after), `"later `+mark(before, "p2")+`"`, "those of a deleted pipe go with it")
	assert.NotEmpty(t, edited.extras.below["lays"].below["yard,co1"], "but wait for an undo")
	assert.Contains(t, string(after), `"water": "hyd",`)

	undone, err := Encode(s)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(undone))
}
