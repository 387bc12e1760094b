// Package ui is the window: it puts the board, the kit of tools, the card of
// what is selected, the punch list and the strip of the day together, and joins
// them to the desk on which the document lies.
//
// Every command stands once, in the table of commands.go: the menus, the keys
// and the help are made from it. The parts are packages below this one: view
// (ground and screen), aim (what is under the pointer), hand (the tools), desk
// (the document), board (the drawing), strip (the day), form (cards and forms),
// punch (what is to be put right) and look (colours and sizes).
package ui
