package export

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/google/renameio/v2/maybe"

	"linemap/internal/route"
	"linemap/internal/site"
)

// WritePapers writes papers of a plan into a folder, made where it is missing,
// and returns the paths of their files in the order written:
// <name>-run-sheet.pdf and so on, see [Papers].
//
// All of them are made before the first is written, and each replaces an older
// one whole or not at all. The same site and plan give the same bytes. An error
// names the paper.
func WritePapers(dir string, papers []Paper, s *site.Site, t *site.Tables, p *route.Plan, opt Options) ([]string, error) {
	opt = opt.For(s)
	e := &edition{site: s, tables: t, plan: p, opt: opt}
	made, wrong := make([][]file, len(papers)), make([]error, len(papers))
	atOnce(len(papers), func(i int) { made[i], wrong[i] = papers[i].make(e) })
	var files []file
	for i := range papers {
		if wrong[i] != nil {
			return nil, named(papers[i].Key, wrong[i])
		}
		files = append(files, made[i]...)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	paths := make([]string, 0, len(files))
	for _, f := range files {
		path := filepath.Join(dir, opt.Name+"-"+f.name)
		if err := maybe.WriteFile(path, f.data, 0o644); err != nil {
			return paths, err
		}
		paths = append(paths, path)
	}
	return paths, nil
}

// atOnce does n things, as many at a time as there are processors.
func atOnce(n int, do func(i int)) {
	var next atomic.Int64
	var w sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		w.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	w.Wait()
}

// named puts the name of a paper before what is the matter with it, once.
func named(key string, err error) error {
	if strings.HasPrefix(err.Error(), key+": ") {
		return err
	}
	return fmt.Errorf("%s: %w", key, err)
}
