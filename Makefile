# make packet: the demo's build packet.  make test: the tests.  Both set up what is missing first.
PYTHON ?= python3
BIN := .venv/bin
READY := .venv/.ready
FONTS := buildsheet/packet/fonts/files/fonts.conf
PROJECT ?= projects/strip-sander/strip-sander.yaml

.PHONY: packet test lint types bench setup clean

packet: setup
	@$(BIN)/buildsheet packet $(PROJECT)

test: setup
	@$(BIN)/python -m pytest

lint: setup
	@$(BIN)/ruff check .

types: setup
	@$(BIN)/mypy

bench: setup
	@$(BIN)/python tests/bench.py

setup: $(READY) $(FONTS)

$(READY): requirements-dev.txt pyproject.toml
	@$(PYTHON) -m venv .venv
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check -r requirements-dev.txt
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation --editable .
	@sh .ci/system-libraries $(BIN)/python
	@touch $@

$(FONTS): buildsheet/packet/fonts/cut.py $(READY)
	@$(BIN)/python -m buildsheet.packet.fonts
	@touch $@

clean:
	rm -rf .venv buildsheet/packet/fonts/files projects/*/packet
