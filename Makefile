# What can be run here. "make test" does all its own set-up on a machine with Go and git.

FUZZTIME ?= 10m
KILLS ?= 500
CHROMIUM ?= chromium
AXE := .tools/axe-core/axe.min.js
# what a page loads as WebAssembly
PAGE := ./finding ./notes ./trade ./parse/field ./parse ./record ./reconcile ./price ./billing ./hours ./restock ./review ./ubl

.PHONY: test demo lint wasm fuzz bench kill browser picture ci

test: ## every test that needs nothing but Go
	go test ./...

demo: ## compile the demo book and say where to look
	go run ./cmd/jobday demo

lint: ## formatting, vet, staticcheck
	@bad=$$(gofmt -l .); test -z "$$bad" || { echo "not gofmt-clean:"; echo "$$bad"; exit 1; }
	go vet ./...
	go vet -tags browser ./...
	go run honnef.co/go/tools/cmd/staticcheck@v0.8.2 ./...

wasm: ## the stages build for a page
	GOOS=js GOARCH=wasm go build $(PAGE)

fuzz: ## every fuzz target, FUZZTIME each (10m)
	@for p in $$(go list ./...); do \
	  for f in $$(go test -list '^Fuzz' $$p | grep '^Fuzz'); do \
	    echo "== $$p $$f"; go test $$p -run '^$$' -fuzz "^$$f$$" -fuzztime $(FUZZTIME) || exit 1; \
	  done; \
	done

bench: ## compile generated books beside their reference
	go test ./compile -run '^$$' -bench Compile -benchtime 5x

kill: ## writes are whole or untouched when the program is killed, many times over
	JOBDAY_KILL_ROUNDS=$(KILLS) go test ./book ./cmd/jobday -run Killed -v

browser: $(AXE) ## pages in a real browser: render, no console errors, accessible; PDFs say the same and are sound
	CHROMIUM=$$(command -v $(CHROMIUM)) AXE=$(CURDIR)/$(AXE) go test -tags browser -run Browser -v ./report ./sheet

$(AXE):
	mkdir -p .tools
	cd .tools && npm pack --silent axe-core@4.14.1 && tar xzf axe-core-4.14.1.tgz && rm -rf axe-core && mv package axe-core

ci:
	.ci/run

picture: $(AXE) ## draw the picture in README anew
	CHROMIUM=$$(command -v $(CHROMIUM)) AXE=$(CURDIR)/$(AXE) go test -tags browser -run BrowserDraws ./report -picture $(CURDIR)/testdata/report.png
