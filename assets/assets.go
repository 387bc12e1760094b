// Package assets holds the files that travel inside the program: demo sites,
// default rigs, the trade's figures and the schema of the site file. Package
// site reads them; nothing else does.
package assets

import "embed"

// FS holds demo/*.linemap, rigs/*.json, trade/*.json and linemap.schema.json.
//
//go:embed demo rigs trade linemap.schema.json
var FS embed.FS
