package route

import (
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// answer is what a program made of a model.
type answer struct {
	// optimal says that cost is proved. Else cost is that of the best solution
	// found, infinite where there is none, and nothing costs less than bound.
	optimal     bool
	cost, bound float64
	took        time.Duration
}

func (a answer) String() string {
	if a.optimal {
		return fmt.Sprintf("%.0f in %.2f s", a.cost, a.took.Seconds())
	}
	return fmt.Sprintf("%.0f to %.0f after %.2f s", a.bound, a.cost, a.took.Seconds())
}

// solver is a public program that solves linear programs in whole numbers.
type solver struct {
	name, deb string
	run       func(tb testing.TB, file string, limit time.Duration) answer
}

// The programs: cbc of COIN-OR, and glpsol of the GNU Linear Programming Kit.
// Both are general-purpose and know nothing of drains.
var (
	cbc    = solver{"cbc", "coinor-cbc", runCbc}
	glpsol = solver{"glpsol", "glpk-utils", runGlpsol}
)

// need skips a test where a program is missing.
func need(tb testing.TB, programs ...solver) {
	tb.Helper()
	for _, p := range programs {
		if _, err := exec.LookPath(p.name); err != nil {
			tb.Skipf("%s is not installed (Debian package %s, which scripts/setup installs)", p.name, p.deb)
		}
	}
}

// solve writes a model to a file and has the program solve it, for at most a time.
func (s solver) solve(tb testing.TB, l *linear, limit time.Duration) answer {
	tb.Helper()
	file := filepath.Join(tb.TempDir(), "model.lp")
	require.NoError(tb, os.WriteFile(file, []byte(l.String()), 0o600))
	start := time.Now()
	a := s.run(tb, file, limit)
	a.took = time.Since(start)
	return a
}

// output runs a program and returns what it says; ok is false where it had to be
// stopped, for the programs do not look at their limit everywhere.
func output(tb testing.TB, limit time.Duration, name string, args ...string) (said string, ok bool) {
	tb.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 2*limit)
	defer cancel()
	out, err := exec.CommandContext(ctx, name, args...).CombinedOutput()
	if ctx.Err() != nil {
		return "", false
	}
	require.NoError(tb, err, "%s", out)
	return string(out), true
}

// unknown is the answer of a program that had to be stopped.
var unknown = answer{cost: math.Inf(1), bound: math.Inf(-1)}

var (
	cbcResult  = regexp.MustCompile(`(?m)^Result - (.*)$`)
	cbcCost    = regexp.MustCompile(`(?m)^Objective value:\s+(\S+)$`)
	cbcBound   = regexp.MustCompile(`(?m)^Lower bound:\s+(\S+)$`)
	cbcWithout = regexp.MustCompile(`(?m)^No feasible solution found$`)
	glpStatus  = regexp.MustCompile(`(?m)^Status:\s+(.*)$`)
	glpCost    = regexp.MustCompile(`(?m)^Objective:\s+cost = (\S+)`)
	glpBound   = regexp.MustCompile(`>=\s+(\S+)`)
)

func runCbc(tb testing.TB, file string, limit time.Duration) answer {
	said, ok := output(tb, limit, "cbc", file, "-seconds", seconds(limit), "-ratioGap", "0", "-allowableGap", "0", "-solve", "-quit")
	if !ok {
		return unknown
	}
	result := only(tb, cbcResult, said)
	a := answer{optimal: result == "Optimal solution found", cost: math.Inf(1)}
	if !cbcWithout.MatchString(said) {
		a.cost = number(tb, only(tb, cbcCost, said))
	}
	if a.bound = a.cost; !a.optimal {
		require.Equal(tb, "Stopped on time limit", result, "%s", said)
		a.bound = number(tb, only(tb, cbcBound, said))
	}
	return a
}

func runGlpsol(tb testing.TB, file string, limit time.Duration) answer {
	out := file + ".out"
	said, ok := output(tb, limit, "glpsol", "--lp", file, "--tmlim", seconds(limit), "-o", out)
	if !ok {
		return unknown
	}
	written, err := os.ReadFile(out)
	require.NoError(tb, err, "%s", said)
	status := only(tb, glpStatus, string(written))
	a := answer{optimal: status == "INTEGER OPTIMAL", cost: math.Inf(1)}
	if status != "INTEGER UNDEFINED" {
		a.cost = number(tb, only(tb, glpCost, string(written)))
	}
	if a.bound = a.cost; !a.optimal {
		a.bound = math.Inf(-1)
		if all := glpBound.FindAllStringSubmatch(said, -1); len(all) > 0 {
			a.bound = number(tb, all[len(all)-1][1])
		}
	}
	return a
}

func seconds(d time.Duration) string { return strconv.Itoa(int(math.Ceil(d.Seconds()))) }

// only is what the last match of a form says.
func only(tb testing.TB, form *regexp.Regexp, in string) string {
	tb.Helper()
	all := form.FindAllStringSubmatch(in, -1)
	require.NotEmpty(tb, all, "nothing of the form %s in:\n%s", form, in)
	return all[len(all)-1][1]
}

func number(tb testing.TB, text string) float64 {
	tb.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(tb, err)
	return v
}
