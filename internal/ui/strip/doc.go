// Package strip is the day along the bottom of the window: time across, a block
// for everything the crew does, the stays of the trailer and the runs over it, the
// tank under it, and a marker for the time that the board shows.
//
// What goes where is worked out by pure functions: a span puts time on the screen,
// rows stack the parts, a day holds what a plan says. The picture is a drawing
// like those of the papers, painted into one bitmap; only the marker and the
// frames of what is pointed at lie above it.
package strip
