# Two commands do everything on a fresh Debian: make run, make test. The rest is convenience.
.PHONY: help run build serve site page-test page-bench test check lint coverage bench install deb dist clean

help:
	@echo "make run     set up, build, and check the Saltmarsh household's weeknight bowl"
	@echo "make test    set up, build and run all tests"
	@echo "make build   set up and build; the program is build/bowlwright"
	@echo "make serve   set up, build with the page inside, and give the page to the browser on this machine"
	@echo "make site    the page as a folder, site/, that any file host can serve"
	@echo "make page-test  of these, the page's"
	@echo "make page-bench  how fast the page is, in Chromium, beside bare drawings"
	@echo "make check   all tests again under Clang's sanitizers"
	@echo "make lint    clang-tidy, cppcheck, shellcheck and gcc -fanalyzer over all sources"
	@echo "make coverage  lines and branches that the tests run, by folder"
	@echo "make bench   speed and memory against baselines, as ratios"
	@echo "make install  to PREFIX (/usr/local), below DESTDIR: program, library, man page, completions of shells"
	@echo "make deb     a Debian package, in build/"
	@echo "make dist    the sources of the last commit as one file, in build/"
	@echo "make clean   remove what was built"

run: build
	build/bowlwright check examples/weeknight-bowl.recipe --for examples/saltmarsh.animals

build:
	@sh tools/setup.sh run
	@cmake --preset release >/dev/null
	@cmake --build --preset release

# The page stays in build/bowlwright from then on.
serve:
	@sh tools/setup.sh site
	@cmake --preset release -DBW_WASM=ON -DBW_PAGE=ON >/dev/null
	@cmake --build --preset release
	build/bowlwright serve $(SERVE)

test:
	@sh tools/setup.sh test
	@cmake --preset dev >/dev/null
	cmake --build --preset dev
	ctest --preset dev

site:
	@sh tools/setup.sh site
	@cmake --preset site >/dev/null
	@cmake --build --preset site
	@rm -rf site && cp -r build-site/site site
	@echo "The page is in site/. Look at it with: python3 -m http.server --directory site --bind 127.0.0.1"

page-test:
	@sh tools/setup.sh test
	@cmake --preset dev >/dev/null
	cmake --build --preset dev
	ctest --preset dev -R '^page_'

page-bench:
	@sh tools/setup.sh test
	@cmake --preset site >/dev/null
	@cmake --build --preset site
	@cmake --preset release -DBW_BENCH=ON >/dev/null
	@cmake --build --preset release --target bench_page
	node bench/page.mjs build-site/site build-site/bowlwright.wasm build-site/bowlwright.library build/bench_page
	node bench/days.mjs build-site/site

FUZZ ?= ON
check:
	@sh tools/setup.sh check
	@cmake --preset check -DBW_FUZZ=$(FUZZ) >/dev/null
	cmake --build --preset check
	ctest --preset check $(CHECK)

lint:
	@sh tools/setup.sh lint
	@cmake --preset dev -DBW_WASM=OFF -DBW_PAGE=OFF >/dev/null
	@sh tools/lint.sh build-dev

coverage:
	@sh tools/setup.sh check
	@cmake --preset coverage >/dev/null
	cmake --build --preset coverage
	@sh tools/coverage.sh build-coverage

bench: build
	@sh tools/setup.sh bench
	@sh bench/run.sh

PREFIX ?= /usr/local
install: build
	DESTDIR="$(DESTDIR)" cmake --install build --prefix "$(PREFIX)"

deb:
	@sh tools/setup.sh deb
	@cmake --preset release -DBW_WASM=ON -DBW_PAGE=ON -DBW_STATIC=OFF >/dev/null
	@cmake --build --preset release
	@sh tools/deb.sh build build

dist:
	@sh tools/dist.sh build

clean:
	rm -rf build build-dev build-check build-coverage build-site site
