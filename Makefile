# Everything here runs on Linux and macOS with Go and a shell; the tests install
# what else they need. `make help` lists the targets.

SHELL := bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := help

# How much of the slow things to do.
PROPS     ?= 2000
FUZZTIME  ?= 5m
BENCH     ?= .
BENCHTIME ?= 1s

# What `make dist` builds: system/processor.
PLATFORMS := linux/amd64 linux/arm64 darwin/amd64 darwin/arm64 windows/amd64
VERSION   := $(shell git describe --tags --always --dirty 2>/dev/null || echo unversioned)

.PHONY: help run test needs tools fmt tidy vet staticcheck lint unit race vulnerable checks cases props sheets bench peers fuzz dist clean

help: ## this list
	@grep -hE '^[a-z]+:.*##' Makefile | sed -E 's/:.*## /\t/' | expand -t 14

run: ## write the demo stoves to out/demo and predict a burn
	mkdir -p out
	go build -o out/toplit ./cmd/toplit
	out/toplit demo out/demo
	out/toplit predict out/demo/tea-stove.toml --svg out/demo/tea-stove-burn.svg --section out/demo/tea-stove-section.svg --heat out/demo/tea-stove-heat.svg

test: needs lint unit race vulnerable ## all that must hold before a change is taken

needs:
	@tools/needs.sh

tools:
	@tools/lint/install.sh

fmt:
	@bad=$$(find . \( -path './.*' -o -path ./dist -o -path ./out -o -name node_modules \) -prune -o -name '*.go' -print | xargs gofmt -l); \
	if [ -n "$$bad" ]; then echo "gofmt would change:"; echo "$$bad"; exit 1; fi

tidy:
	go mod tidy -diff

vet:
	go vet ./...

staticcheck: tools
	.tools/bin/staticcheck ./...

lint: fmt tidy vet staticcheck ## gofmt, go mod tidy, go vet, staticcheck

unit:
	go test -shuffle=on -timeout 10m ./...

# Only what runs on several cores at once: the race detector makes the rest ten
# to thirty times slower for nothing.
race:
	CGO_ENABLED=1 go test -race -shuffle=on -timeout 10m -run Predict ./sim
	CGO_ENABLED=1 go test -race -shuffle=on -timeout 10m ./work

vulnerable: tools
	tools/lint/vulnerable.sh

# The tests of *_check_test.go files, and any other with Check in its name.
checks: ## every value from outside beside ours, as one table
	@names=$$(find . \( -path './.*' -o -path ./dist -o -path ./out \) -prune -o -name '*_check_test.go' -print | \
		xargs sed -nE 's/^func (Test[A-Za-z0-9_]+)\(.*/^\1$$/p' | sort -u | paste -sd '|' -); \
	rows=$$(mktemp -d); trap 'rm -rf "$$rows"' EXIT; failed=0; \
	TOPLIT_CHECKS=$$rows go test -count=1 -run "Check|$$names" ./... >"$$rows/log" 2>&1 || failed=1; \
	if [ $$failed = 1 ]; then grep -v -e '^ok ' -e 'no test files' "$$rows/log" || true; fi; \
	go run ./internal/outside/table "$$rows" || failed=1; \
	exit $$failed

cases: ## published stove cases against the coupled prediction
	@mkdir -p out; \
	TOPLIT_CASES=1 go test -run TestCases -count=1 -v -timeout 60m ./sim/... | tee out/cases.txt; \
	grep -q '^--- PASS: TestCases' out/cases.txt || { echo 'cases: no test ran'; exit 1; }

props: ## laws that hold for every valid design, over PROPS random designs
	@mkdir -p out; \
	TOPLIT_PROPS=$(PROPS) go test -run TestProps -count=1 -v -timeout 120m ./sim/... | tee out/props.txt; \
	grep -q '^--- PASS: TestProps' out/props.txt || { echo 'props: no test ran'; exit 1; }

sheets: ## cut sheets of 500 designs measured in PDF, DXF, SVG and a browser
	@mkdir -p out; \
	TOPLIT_CUTSHEETS=500 TOPLIT_BROWSER=500 go test -run 'TestCutSheets|TestBrowser' -count=1 -v -timeout 120m ./publish/cutsheet | tee out/sheets.txt; \
	for t in SVG DXF PDF; do grep -q "^--- PASS: TestCutSheets$$t" out/sheets.txt || { echo "sheets: $$t was not measured"; exit 1; }; done; \
	grep -q '^--- PASS: TestBrowser' out/sheets.txt || { echo 'sheets: no browser measured them'; exit 1; }

bench: ## benchmarks, kept in out/bench.txt
	@mkdir -p out; \
	go test -run '^$$' -bench '$(BENCH)' -benchtime $(BENCHTIME) -benchmem ./... | grep -v 'no test files' | tee out/bench.txt; \
	awk '/^BenchmarkPredict/ { for (i = 2; i < NF; i++) { if ($$(i+1) == "ns/op") ms = $$i/1e6; if ($$(i+1) == "B/op") mb = $$i/1e6 } } \
		/^BenchmarkBand/ { for (i = 2; i < NF; i++) { if ($$(i+1) == "ns/op") s = $$i/1e9; if ($$(i+1) == "%use") use = $$i } } \
		END { printf "bench: band of 256 in %.2f s\nbench: predict %.2f ms, %.4f MB\nbench: band %.0f %%\n", s, ms, mb, use }' out/bench.txt

peers: ## the same sums by general-purpose libraries, side by side
	tools/peers/run.sh

fuzz: ## every fuzz target for FUZZTIME
	@go list ./... | while read -r pkg; do \
		(go test -list '^Fuzz' $$pkg | grep '^Fuzz' || true) | while read -r target; do \
			echo "$$pkg $$target"; \
			go test -run '^$$' -fuzz "^$$target\$$" -fuzztime $(FUZZTIME) $$pkg </dev/null; \
		done; \
	done

# No cgo, no paths, no build ids, no version control stamp: the same sources
# give the same bytes on any machine with the same Go.
dist: ## one file for each system, into dist
	@rm -rf dist; mkdir -p dist; \
	for p in $(PLATFORMS); do \
		os=$${p%/*}; arch=$${p#*/}; name=$$os; ext=; \
		case $$os in darwin) name=macos ;; windows) ext=.exe ;; esac; \
		file=dist/toplit-$(VERSION)-$$name-$$arch$$ext; \
		echo "$$file"; \
		GOFLAGS= CGO_ENABLED=0 GOOS=$$os GOARCH=$$arch go build -trimpath -buildvcs=false -mod=readonly \
			-ldflags '-s -w -buildid= -X main.version=$(VERSION)' -o "$$file" ./cmd/toplit; \
	done; \
	cd dist && (sha256sum toplit-* 2>/dev/null || shasum -a 256 toplit-*) >SHA256SUMS

clean: ## what was built, the lint tools included
	rm -rf out dist .tools
