# Two commands do everything on a fresh Debian: make run, make test. The rest is convenience.
.PHONY: help run build test check bench clean

help:
	@echo "make run     set up, build, and check the Saltmarsh household's weeknight bowl"
	@echo "make test    set up, build and run all tests"
	@echo "make build   set up and build; the program is build/bowlwright"
	@echo "make check   all tests again under Clang's sanitizers"
	@echo "make bench   speed and memory against baselines, as ratios"
	@echo "make clean   remove what was built"

run: build
	build/bowlwright check examples/weeknight-bowl.recipe --for examples/saltmarsh.animals

build:
	@sh tools/setup.sh run
	@cmake --preset release >/dev/null
	@cmake --build --preset release

test:
	@sh tools/setup.sh test
	@cmake --preset dev >/dev/null
	cmake --build --preset dev
	ctest --preset dev

check:
	@sh tools/setup.sh test
	@cmake --preset check >/dev/null
	cmake --build --preset check
	ctest --preset check

bench: build
	@sh tools/setup.sh bench
	@sh bench/run.sh

clean:
	rm -rf build build-dev build-check
