# The two commands are `make demo` and `make test`; `make help` lists the rest.

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c

# The pinned tools of scripts/setup come first, and with them a wrapper for Go
# where the machine's own is not the one to use.
export PATH := $(CURDIR)/bin:$(PATH)

# How long each fuzz target runs.
FUZZTIME ?= 5s

.PHONY: help
help:
	@sed -n 's/^## //p' Makefile

## make demo     set up the machine, build, plan the demo sites into out/, open the window where there is a screen
.PHONY: demo
demo: build
	@for site in assets/demo/*.linemap; do \
	  printf '\n===== %s\n\n' "$$site"; \
	  bin/linemap plan "$$site" --out "out/$$(basename "$$site" .linemap)"; \
	done
	@if [ -n "$${DISPLAY:-}$${WAYLAND_DISPLAY:-}" ]; then bin/linemap; \
	else printf '\nThere is no screen here; with one, this opens the window: bin/linemap\n'; fi

## make test     set up the machine, then every check: what CI runs
.PHONY: test
test: format vet race nocgo screen fuzz
	@echo 'make test: all checks passed'

## make build    build bin/linemap
.PHONY: build
build: setup
	go build -o bin/linemap ./cmd/linemap

## make bench    run the benchmarks
.PHONY: bench
bench: setup
	go test -run '^$$' -bench . -benchmem ./...

## make goldens  write the golden files anew from what the program does now
.PHONY: goldens
goldens: setup
	grep -rlE --include='*_test.go' 'flag\.Bool\("update"' . | xargs -r -n 1 dirname | sort -u | \
	  xargs -r -n 1 sh -c 'go test "$$0" -update'

## make licences collect what must go with a copy of the program in out/licences
.PHONY: licences
licences: setup
	@rm -rf out/licences && mkdir -p out/licences/go
	@cp LICENSE out/licences/ && cp "$$(go env GOROOT)/LICENSE" out/licences/go/
	@go list -deps -f '{{with .Module}}{{if not .Main}}{{.Path}} {{.Dir}}{{end}}{{end}}' ./cmd/linemap | sort -u | \
	  while read -r path dir; do \
	    mkdir -p "out/licences/$$path"; \
	    cp "$$dir"/LICENSE* "out/licences/$$path/"; \
	  done
	@find out/licences -type f | sort

## make clean    remove what was built and written, but not the tools
.PHONY: clean
clean:
	rm -rf out bin/linemap

.PHONY: setup
setup:
	@scripts/setup

.PHONY: format
format: setup
	@wrong=$$(gofumpt -l .); \
	  [ -z "$$wrong" ] || { printf 'not formatted (run gofumpt -w):\n%s\n' "$$wrong" >&2; exit 1; }

.PHONY: vet
vet: setup
	go vet ./...
	staticcheck ./...

.PHONY: race
race: setup
	go test -race -timeout 40m ./...

# The planner and its papers must run on a server that has no C compiler; only
# the window needs one.
.PHONY: nocgo
nocgo: setup
	CGO_ENABLED=0 go build ./...

## make screen   drive the real window on a virtual display; screenshots in out/screen
.PHONY: screen
screen: setup
	LINEMAP_SCREEN=$(CURDIR)/out/screen go test -count=1 -run 'OnAScreen|OnScreens' ./cmd/linemap

# `go test -list` prints the targets of a package, then a line that names it. A run
# can end past its own deadline and be called a failure for that (go.dev/issue/75804), so
# it is tried again: an input that truly fails was written down, and fails again.
.PHONY: fuzz
fuzz: setup
	@go test -list '^Fuzz' ./... | \
	  awk '/^Fuzz/ { names[++n] = $$1 } /^ok/ { for (i = 1; i <= n; i++) print $$2, names[i]; n = 0 }' | \
	  while read -r package target; do \
	    echo "fuzzing $$package $$target"; \
	    tries=0; \
	    until go test -run '^$$' -fuzz "^$$target\$$" -fuzztime $(FUZZTIME) "$$package" </dev/null; do \
	      (( ++tries < 3 )); \
	    done; \
	  done
