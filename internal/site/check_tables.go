package site

import (
	"errors"
	"fmt"
	"slices"

	"linemap/internal/network"
	"linemap/internal/rig"
	"linemap/internal/unit"
)

// check looks for figures that no plan could be made with.
func (t *Tables) check() error {
	var all []error
	report := func(table string, row any, err error) {
		if err != nil {
			all = append(all, fmt.Errorf("trade table %s: %v: %w", table, row, err))
		}
	}
	for _, m := range sortedKeys(t.Materials) {
		row := t.Materials[m]
		report("materials", m, row.check())
	}
	for _, d := range sortedKeys(t.Deposits) {
		row := t.Deposits[d]
		report("deposits", d, row.check())
	}
	for _, key := range sortedKeys(t.Codes) {
		report("codes", key, checkCode(t.Codes[key]))
	}
	report("cures", "prices", t.Cures.check())
	return errors.Join(all...)
}

func (r *MaterialRow) check() error {
	f := r.Friction
	switch {
	case r.Name == "" || r.Source == "":
		return errors.New("name and source must be given")
	case !(0 < f.Low && f.Low <= f.Likely && f.Likely <= f.High && f.High <= 2):
		return fmt.Errorf("friction %v, must rise from above 0 to at most 2", f)
	case !(0.005 <= r.Manning && r.Manning <= 0.05):
		return fmt.Errorf("manning %v, must be from 0.005 to 0.05", r.Manning)
	case len(r.Bores) == 0:
		return errors.New("no bores")
	}
	for _, sz := range sortedKeys(r.Bores) {
		if bore := r.Bores[sz]; !sz.Known() || bore < sz.Nominal()*8/10 || bore > sz.Nominal()*12/10 {
			return fmt.Errorf("bore of %v in is %v m, must be near a known nominal size", float64(sz), float64(bore))
		}
	}
	return nil
}

func (r *DepositRow) check() error {
	if r.Name == "" || r.Source == "" || len(r.Passes) == 0 {
		return errors.New("name, source and passes must be given")
	}
	if c := r.ComeBack; !(0 < c.Least && c.Least <= c.Usual && c.Usual <= c.Most && c.Most <= 240) {
		return fmt.Errorf("come_back: months %d, %d, %d, must rise from least over usual to most, from above 0 to at most 240", c.Least, c.Usual, c.Most)
	}
	order, last := PassOrder(), -1
	for _, p := range r.Passes {
		at := slices.Index(order, p.Kind)
		if at <= last {
			return fmt.Errorf("pass %q, must be one of %v in this order", p.Kind, order)
		}
		last = at
		if err := p.check(); err != nil {
			return fmt.Errorf("pass %s: %w", p.Kind, err)
		}
	}
	return nil
}

func (p *PassRow) check() error {
	if len(p.Nozzles) == 0 {
		return errors.New("no nozzles")
	}
	for _, purpose := range p.Nozzles {
		if !slices.Contains(rig.Purposes(), purpose) {
			return fmt.Errorf("nozzle purpose %q, must be one of %v", purpose, rig.Purposes())
		}
	}
	if !(p.Pull > 0) {
		return fmt.Errorf("pull_speed %v m/min, must be above 0", p.Pull.MetresPerMinute())
	}
	if len(p.Pulls) != 3 {
		return errors.New("pulls must be given for light, moderate and heavy")
	}
	for _, severity := range Severities() {
		if n, ok := p.Pulls[severity]; !ok || n < 0 || n > 20 {
			return fmt.Errorf("pulls of %s: %d, must be from 0 to 20", severity, n)
		}
	}
	return nil
}

func checkCode(c network.Code) error {
	if c.Name == "" || c.Source == "" {
		return errors.New("name and source must be given")
	}
	if err := checkRows(c.CleanoutSpacing); err != nil {
		return fmt.Errorf("cleanout_spacing: %w", err)
	}
	if err := checkRows(c.MinSlope); err != nil {
		return fmt.Errorf("min_slope: %w", err)
	}
	return nil
}

// checkRows asks that the rows rise in size up to the largest one, so that
// every size finds its row.
func checkRows[T ~float64](rows []network.Row[T]) error {
	sizes := make([]unit.Size, len(rows))
	for i, r := range rows {
		switch sizes[i] = r.UpTo; {
		case !(r.Limit > 0):
			return fmt.Errorf("limit %v up to %v in, must be above 0", r.Limit, float64(r.UpTo))
		case r.Source == "":
			return fmt.Errorf("row up to %v in must name its source", float64(r.UpTo))
		}
	}
	return checkRise(sizes)
}

// checkRise asks that the sizes up to which rows hold rise to the largest one.
func checkRise(sizes []unit.Size) error {
	last := unit.Size(0)
	for _, sz := range sizes {
		if !sz.Known() || sz <= last {
			return fmt.Errorf("up_to %v, must be a known size above %v", float64(sz), float64(last))
		}
		last = sz
	}
	if all := unit.Sizes(); last != all[len(all)-1] {
		return fmt.Errorf("last row up to %v in, must reach the largest size", float64(last))
	}
	return nil
}
