# The door to the project. `make demo` and `make test` set up whatever they need.
# On Windows, where there is no make: `pip install .` and `puttwright demo` (README.md).

PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip --disable-pip-version-check -qq --no-input
STAMPS := $(VENV)/.stamps
STEP := bash scripts/step.sh

PURE_ROOMS := evidence club ball address belief worth virtual fitting
PURE_VENV := $(VENV)/pure
# Tests that hold ours beside somebody else's library need that library.
ORACLES := $(shell grep -rlE '^ *(from|import) (arviz_stats|pymc)' tests --include='*.py')

.DEFAULT_GOAL := help
.PHONY: help setup demo serve test fast lint types pure docs benchmark lock clean

help:  ## say what can be made
	@grep -hE '^[a-z]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 12

setup: $(STAMPS)/package  ## install what running needs into .venv

demo: setup  ## fit an invented golfer: decision, sheet and order
	$(BIN)/puttwright demo

serve: setup  ## open the pages on this machine
	$(BIN)/puttwright serve

test: $(STAMPS)/dev tests/vendor/fetched.json  ## everything: all tests in a real browser too, and lint
	@bash scripts/browser.sh
	@failed=0; \
	$(STEP) "lint" $(MAKE) --no-print-directory lint || failed=1; \
	$(STEP) "pure rooms" $(MAKE) --no-print-directory pure || failed=1; \
	$(STEP) "outside checks" $(BIN)/python -m pytest -q tests/reference || failed=1; \
	$(STEP) "tests" $(BIN)/python -m pytest -q -n 2 --dist loadscope --durations=5 \
	  --ignore=tests/reference || failed=1; \
	exit $$failed

fast: $(STAMPS)/dev  ## the quick tests, under a minute
	$(BIN)/python -m pytest -q -n 2 --dist worksteal --durations=5 --durations-min=1 \
	  -m "not slow and not browser and not faults and not simulated"

lint: $(STAMPS)/dev  ## style, types and layers
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/mypy
	$(BIN)/lint-imports --no-logo

pure: $(STAMPS)/pure  ## the pure rooms' tests with the numerical libraries and nothing else
	PYTHONPATH=src $(PURE_VENV)/bin/python -m pytest -q -p no:cacheprovider \
	  -m "not slow and not simulated" $(addprefix --ignore=,$(ORACLES)) \
	  --doctest-modules $(wildcard $(foreach room,$(PURE_ROOMS),tests/$(room) src/puttwright/$(room)) tests/test_units.py)

docs: $(STAMPS)/dev  ## write the generated pages anew
	$(BIN)/python scripts/reference.py
	$(BIN)/python -m pytest -q tests/reference --write-validation

benchmark: $(STAMPS)/dev  ## side by side with others, ratios in one run
	$(BIN)/python benchmarks/run.py

lock: $(STAMPS)/dev  ## pin everything anew, with hashes and without addresses
	$(BIN)/python scripts/lock.py

clean:  ## forget the environment and everything made
	rm -rf $(VENV) build dist .mypy_cache .ruff_cache .pytest_cache .hypothesis .import_linter_cache

$(STAMPS)/venv: scripts/python.sh
	@bash scripts/python.sh $(PYTHON) $(VENV)
	@mkdir -p $(STAMPS) && touch $@

$(STAMPS)/runtime: requirements.lock $(STAMPS)/venv
	@echo "Setting up: what running needs (the first time takes a minute or two)"
	@$(PIP) install --require-hashes -r requirements.lock
	@touch $@

$(STAMPS)/package: pyproject.toml hatch_build.py package.json package-lock.json $(STAMPS)/runtime
	@$(PIP) install --no-deps --no-build-isolation -e .
	@echo "Getting the arithmetic ready (this once)"
	@$(BIN)/python -m puttwright.deeds.warm_up
	@touch $@

$(STAMPS)/dev: requirements-dev.lock $(STAMPS)/package
	@echo "Setting up: what the tests need"
	@$(PIP) install --require-hashes -r requirements-dev.lock
	@touch $@

$(STAMPS)/pure: requirements-pure.lock scripts/python.sh $(STAMPS)/venv
	@bash scripts/python.sh $(PYTHON) $(PURE_VENV)
	@$(PURE_VENV)/bin/python -m pip --disable-pip-version-check -qq install --require-hashes -r requirements-pure.lock
	@touch $@

tests/vendor/fetched.json: tests/package.json tests/package-lock.json hatch_build.py $(STAMPS)/runtime
	@$(BIN)/python hatch_build.py tests
	@touch $@
