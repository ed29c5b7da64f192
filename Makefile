# make site   check the patterns and build the site       make test   everything that must hold
# make serve  preview while writing                       make bench  how long things take
# make clean  remove whatever the others made

VENV := .venv
BIN := $(VENV)/bin
# The first Python on this machine that is new enough; `make PYTHON=... site` chooses another.
PYTHON ?= $(shell for p in python3 python3.14 python3.13 python3.12 python3.11; do \
  if command -v $$p >/dev/null 2>&1 && $$p -c 'import sys; sys.exit(sys.version_info < (3, 11))'; \
  then echo $$p; break; fi; done)
BROWSERS := chromium chromium-browser google-chrome

# What the tests of the pages need that pip has not; a rule below says how each is had.
CHECKERS := tests/quality/node_modules

.PHONY: site serve test bench lighthouse clean browser java poppler
.DEFAULT_GOAL := site

site: $(VENV)/installed
	@$(BIN)/roundproof build

serve: $(VENV)/installed
	@$(BIN)/roundproof serve

test: $(VENV)/installed-for-tests browser java poppler $(CHECKERS)/installed
	$(BIN)/ruff format --check .
	$(BIN)/ruff check .
	$(BIN)/mypy
	$(BIN)/roundproof check --fail-on warning patterns
	$(BIN)/roundproof build
	ROUNDPROOF_ALIKE=1 $(BIN)/pytest -n auto

bench: $(VENV)/installed-for-tests
	$(BIN)/python tests/bench/run.py

# Takes several minutes and a quiet machine, so it is not among the tests.
lighthouse: $(VENV)/installed-for-tests browser
	@cd tests/quality/lighthouse && npm ci --silent
	$(BIN)/python tests/quality/lighthouse/measure.py

clean:
	rm -rf $(VENV) $(CHECKERS) tests/quality/lighthouse/node_modules site site.new site.old site.lock out build dist *.egg-info .roundproof
	rm -rf .pytest_cache .mypy_cache .ruff_cache .hypothesis
	find . -name __pycache__ -type d -prune -exec rm -rf {} +

$(BIN)/python:
	@python="$(PYTHON)"; \
	test -n "$$python" || { \
	  echo "Python 3.11 or newer is needed, and none was found. On Debian and Ubuntu:"; \
	  echo "    sudo apt-get install python3 python3-venv"; exit 1; }; \
	"$$python" -c 'import ensurepip, venv' 2>/dev/null || { \
	  echo "$$python cannot make a virtual environment yet. On Debian and Ubuntu:"; \
	  echo "    sudo apt-get install python3-venv"; exit 1; }; \
	"$$python" -m venv $(VENV)

$(VENV)/installed: pyproject.toml | $(BIN)/python
	@echo "Installing Roundproof into $(VENV) ..."
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable .
	@touch $@

$(VENV)/installed-for-tests: pyproject.toml | $(BIN)/python
	@echo "Installing Roundproof and what its tests need into $(VENV) ..."
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable '.[dev]'
	@touch $@ $(VENV)/installed

# The pages are tested in a real browser.
browser:
	@for b in $(BROWSERS); do command -v $$b >/dev/null 2>&1 && exit 0; done; \
	if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then \
	  apt-get update -qq && DEBIAN_FRONTEND=noninteractive \
	  apt-get install -y -qq --no-install-recommends chromium; \
	else \
	  echo "The tests open the pages in Chromium, which is not here. On Debian:"; \
	  echo "    sudo apt-get install chromium"; exit 1; \
	fi

# The Nu HTML checker runs in Java, 17 or newer.
java:
	@command -v java >/dev/null 2>&1 && exit 0; \
	if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then \
	  apt-get update -qq && DEBIAN_FRONTEND=noninteractive \
	  apt-get install -y -qq --no-install-recommends default-jre-headless; \
	else \
	  echo "The tests check the pages with the Nu HTML checker, which needs Java. On Debian:"; \
	  echo "    sudo apt-get install default-jre-headless"; exit 1; \
	fi

# What stands in the booklets is read back by pdftotext.
poppler:
	@command -v pdftotext >/dev/null 2>&1 && exit 0; \
	if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then \
	  apt-get update -qq && DEBIAN_FRONTEND=noninteractive \
	  apt-get install -y -qq --no-install-recommends poppler-utils; \
	else \
	  echo "The tests read booklets with pdftotext, which is not here. On Debian:"; \
	  echo "    sudo apt-get install poppler-utils"; exit 1; \
	fi

# The Nu HTML checker and axe-core, of the versions in package-lock.json. They run no script of
# their own while they are installed (.npmrc).
$(CHECKERS)/installed: tests/quality/package-lock.json
	@command -v npm >/dev/null 2>&1 || { \
	  if [ "$$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; then \
	    apt-get update -qq && DEBIAN_FRONTEND=noninteractive \
	    apt-get install -y -qq --no-install-recommends npm; \
	  else \
	    echo "The tests take two checkers of pages from npm, which is not here. On Debian:"; \
	    echo "    sudo apt-get install npm"; exit 1; \
	  fi; }
	@echo "Installing the checkers of the pages into $(CHECKERS) ..."
	@cd tests/quality && npm ci --silent
	@touch $@
