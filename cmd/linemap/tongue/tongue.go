// Package tongue names a language where the system names none, or only that of
// a machine without a user. The window's library looks for one as it is loaded
// and complains on stderr where there is none, whatever the program was started
// for.
//
// It is imported for what it does as it is loaded. It uses no package but os, so
// that it is loaded before the library: packages are loaded by path among those
// whose own imports are loaded, and the library waits for many.
package tongue

import "os"

func init() {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if named(os.Getenv(name)) {
			return
		}
	}
	os.Unsetenv("LC_ALL")
	os.Unsetenv("LC_MESSAGES")
	os.Setenv("LANG", "en_US.UTF-8")
}

// named reports whether a value names a language.
func named(v string) bool {
	return v != "" && v != "C" && v != "POSIX" && !(len(v) > 2 && v[:2] == "C.")
}
