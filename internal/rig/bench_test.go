package rig

import (
	"testing"

	"linemap/internal/unit"
)

func BenchmarkHoseLoss(b *testing.B) {
	for b.Loop() {
		HoseLoss(unit.GallonsPerMinute(12), unit.Inches(0.5), unit.Feet(400), DefaultRoughness, reference)
	}
}

func BenchmarkOperate(b *testing.B) {
	r := shipped(b)["us"]
	for _, c := range []struct {
		name    string
		hose    int
		ceiling unit.Pressure
	}{{"rated", 0, 0}, {"limited", 2, 0}, {"ceiling", 0, unit.Psi(1000)}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, _, err := r.Operate(&r.Hoses[c.hose], &r.Nozzles[0], c.ceiling); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkDrag(b *testing.B) {
	r := shipped(b)["us"]
	var path []Step
	for range 10 {
		path = append(path, Step{Length: 6, Turn: unit.Degrees(45), Friction: Range{0.2, 0.3, 0.4}})
	}
	for b.Loop() {
		Drag(path, &r.Hoses[0], reference, LowReach)
	}
}

func BenchmarkCarryAt(b *testing.B) {
	for b.Loop() {
		CarryAt(unit.GallonsPerMinute(12), unit.Inches(4), unit.InchesPerFoot(0.25), 0.013)
	}
}
