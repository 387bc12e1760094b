package sample

import "linemap/internal/site"

// Tables are the trade tables. It panics where they cannot be read, which only
// a broken build can bring about.
func Tables() *site.Tables {
	t, err := site.LoadTables()
	if err != nil {
		panic(err)
	}
	return t
}
