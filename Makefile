# Two commands do everything on a fresh machine with Python 3.11 or newer:
#   make demo    its own .venv, a stash to play with, and the app in the browser
#   make test    its own .venv and the whole test suite
# and while at work: make quick (under a minute), make lint, make clean.

PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
DATA   ?= demo-stash
# The nouns, the numbers, the words, the ledger and the guides: no search, no browser, no compiler.
QUICK  := $(wildcard $(patsubst %,tests/test_%.py,contributing templates units quantity fact \
          sentences fibres model_* ledger_fold ledger_shapes ledger_chain notions_b* notions_e* \
          labels_payload labels_fit labels_sheets web_jobs))

.PHONY: words demo quick test lint clean
.DELETE_ON_ERROR:

demo: $(VENV)/app
	$(BIN)/lengthwise --data $(DATA) demo

test: $(VENV)/tests lint
	$(BIN)/python -m pytest -n auto --dist loadfile

quick: lint
	$(BIN)/python -m pytest -q $(QUICK)

lint: $(VENV)/tests
	$(BIN)/ruff check .
	$(BIN)/lint-imports
	$(BIN)/mypy
	$(BIN)/djlint web/templates --lint --quiet

$(VENV)/made:
	$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Lengthwise needs Python 3.11 or newer: make PYTHON=python3.11 demo")'
	$(PYTHON) -m venv $(VENV)
	touch $@

# The lock names every package with its hash; what a change has added since comes with the second.
$(VENV)/app: $(VENV)/made pyproject.toml requirements.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable .
	touch $@

$(VENV)/tests: $(VENV)/app pyproject.toml requirements-test.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements-test.lock
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable '.[test]'
	touch $@

clean:
	rm -rf $(VENV) build dist *.egg-info

words: $(VENV)/tests
	$(BIN)/python tests/bench/renew_catalogues.py
