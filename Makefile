# Everything a contributor runs. `make demo` and `make test` need Python 3.11 or newer and nothing
# else by hand: the first of them makes the virtual environment from the lock.

PYTHON ?= $(firstword $(foreach python,python3 python3.13 python3.12 python3.11, \
	$(shell $(python) -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null && echo $(python))))
VENV := .venv
BIN := $(VENV)/bin
READY := $(VENV)/.ready
DEMO := corpus_synthetic/aquarium-heater.srt

.DEFAULT_GOAL := help
.PHONY: help venv demo test lint types lock bench docs curve clean

help:  ## show this list
	@sed -n 's/^\([a-z]*\):.*  ## \(.*\)/make \1\t\2/p' $(MAKEFILE_LIST) | expand -t 16

venv: $(READY)  ## make the virtual environment, again only when the lock has changed

$(READY): requirements.lock pyproject.toml
	@test -n "$(PYTHON)" || { echo "No Python 3.11 or newer found: install one, or say make PYTHON=/path/to/python3"; exit 1; }
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --requirement requirements.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --editable .
	@touch $(READY)

demo: $(READY)  ## draft the demo narration and show its parts list
	@$(BIN)/partsaloud draft $(DEMO) -o demo.parts.yaml || test -s demo.parts.yaml

test: $(READY)  ## the whole test suite
	$(BIN)/python -m pytest

lint: $(READY)  ## style and common mistakes
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .

types: $(READY)  ## static types, strictly
	$(BIN)/mypy

bench: $(READY)  ## speed and memory, as ratios within one run
	$(BIN)/python -m pytest tests/bench -s -o python_files='bench_*.py' -o python_functions='bench_*'

docs: $(READY)  ## run the README's sessions anew and draw its pictures
	$(BIN)/python tests/sessions.py
	$(BIN)/python tests/pictures.py

curve: $(READY)  ## measure and draw how drafts bear errors of the recogniser
	$(BIN)/python tests/noise_curve.py

lock: $(READY)  ## write requirements.lock anew from pyproject.toml
	CUSTOM_COMPILE_COMMAND="make lock" $(BIN)/pip-compile --quiet --upgrade --extra dev --strip-extras \
		--no-emit-index-url --no-emit-trusted-host --no-emit-find-links \
		--output-file requirements.lock pyproject.toml

clean:  ## remove what these commands made
	rm -rf $(VENV) .mypy_cache .pytest_cache .ruff_cache .hypothesis dist demo.parts.yaml demo.draft.yaml
