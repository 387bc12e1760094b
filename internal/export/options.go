package export

import (
	"strings"
	"unicode"

	"linemap/internal/site"
	"linemap/internal/unit"
)

// Options say how the papers of a plan are made. The zero value takes paper
// and units from the site.
type Options struct {
	// Name is the stem of the file names, "" for one made of the job's title.
	Name string
	// Paper is the paper size, "" for the site's own.
	Paper site.Paper
	// Units are the units printed, "" for the site's own.
	Units unit.System
	// Folder is that of the site's file, from which the pictures beside it are
	// read; "" is the folder that the program runs in.
	Folder string
}

// For fills what opt leaves open from the site: Letter and US units where the
// site says nothing either.
func (opt Options) For(s *site.Site) Options {
	if opt.Paper == "" {
		opt.Paper = s.Paper
	}
	if opt.Paper != site.A4 {
		opt.Paper = site.Letter
	}
	if opt.Units == "" {
		opt.Units = s.Units
	}
	if opt.Units != unit.Metric {
		opt.Units = unit.US
	}
	if opt.Name = stem(opt.Name); opt.Name == "" {
		opt.Name = stem(s.Job.Title)
	}
	if opt.Name == "" {
		opt.Name = "plan"
	}
	return opt
}

// longestStem keeps a file name within what every file system takes.
const longestStem = 60

// stem makes a file name of a title: lower case letters and digits of ASCII
// with single hyphens between words, so that it is safe on every system and in
// every shell.
func stem(title string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(title) {
		switch {
		case r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
		default:
			gap = true
		}
		if b.Len() >= longestStem {
			break
		}
	}
	return b.String()
}
