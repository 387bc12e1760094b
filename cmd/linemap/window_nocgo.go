//go:build !cgo

package main

import "errors"

func openWindow(string) (int, error) {
	return exitNoWindow, errors.New("this program was built without its window; plan and check work (see linemap help)")
}
