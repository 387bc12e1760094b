package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The guide goes on by itself when what it asks for is drawn as it says.
func TestGuide(t *testing.T) {
	b := newBench(t)
	b.press("Guide me: three minutes")
	require.NotNil(t, b.guide)
	assert.Nil(t, b.welcome)
	at := func(step int) {
		t.Helper()
		b.rest()
		assert.Equal(t, step, b.guide.at)
		assert.Equal(t, guideSteps[step].say, b.guide.text.Text)
	}
	at(0)
	b.typed("p")
	b.click(ft(-20, 0))
	b.move(ft(0, 0))
	b.typed("40")
	b.key(fyne.KeyReturn, fyne.KeyReturn)
	at(1)
	b.typed("o")
	b.click(ft(20, 0))
	at(2)
	b.typed("p")
	b.click(ft(-10, 10))
	b.click(ft(0, 0))
	at(3)
	b.typed("c")
	b.click(ft(10, 0))
	at(4)
	b.typed("s")
	b.click(ft(10, -20))
	at(5)
	require.NotNil(t, b.desk.Planning().Plan)
	assert.NotEmpty(t, b.desk.Planning().Plan.Runs(), "the first sketch has a plan")
	b.key(fyne.KeyEscape)
	b.click(ft(-15, 0))
	at(6)
	assert.Equal(t, 1, b.desk.Selection().Len())

	b.press("End the guide")
	assert.Nil(t, b.guide)
	assert.NotContains(t, textOf(b.win.Content()), "End the guide")
}

func TestGuideByHand(t *testing.T) {
	b := newBench(t)
	b.startGuide()
	for i := range len(guideSteps) + 2 {
		assert.Equal(t, min(i, len(guideSteps)-1), b.guide.at)
		b.press("Next step")
	}
	b.startGuide()
	assert.Zero(t, b.guide.at, "begun anew")
	b.endGuide()
	b.endGuide()
	b.openDemo("school")
	b.rest()
	b.selectAll()
	b.delete()
	b.command("Three minutes to the first sketch")
	b.press("Go back")
	assert.Nil(t, b.guide)
	assert.True(t, b.desk.Changed(), "nothing is lost")
}

func TestWelcome(t *testing.T) {
	b := newBench(t)
	b.until("the demo sites", func() bool { return demosShown(b) })
	require.NotNil(t, b.welcome)
	b.press("New sketch in metres")
	assert.Nil(t, b.welcome)
	assert.Equal(t, "metric", string(b.units()))
	assert.Equal(t, "metric", string(b.prefs.units()), "remembered for the next new site")

	b.command("Welcome")
	b.command("Welcome")
	b.press("Open")
	assert.Nil(t, b.welcome)
	assert.NotEmpty(t, b.desk.Site().Network.Pipes)
	b.rest()

	b.open(demoFile(t, "flats"))
	b.command("Welcome")
	assert.Contains(t, textOf(b.win.Content()), "Go on with")
	b.press("Close")
	assert.Nil(t, b.welcome)
}
