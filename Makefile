# Two commands matter: `make run` and `make test`. They need python3 (3.11 or later) with venv, git and make.
PYTHON ?= python3
BIN := .venv/bin
SITE := examples/quillet_yard.toml
OUT := out/quillet_yard

.PHONY: help run serve test cases bench validate docs lock clean set-up set-up-tests
.DEFAULT_GOAL := help

help: ## list the targets
	@sed -n 's/^\([a-z-]*\):.*## /\1|/p' Makefile | while IFS='|' read -r name what; do printf '%-8s %s\n' "$$name" "$$what"; done

set-up:
	@$(PYTHON) tools/setup.py run

set-up-tests:
	@$(PYTHON) tools/setup.py test

# The answer "not enough" is exit code 1 of the command; here the demonstration has worked all the same.
run: set-up ## set up .venv and plan the demo site; results in out/quillet_yard
	@mkdir -p $(OUT)
	@$(BIN)/sourloam plan $(SITE) --out $(OUT) || [ $$? -eq 1 ]

serve: set-up ## open the pages on the demo site, six weeks into its first year: http://localhost:8765
	@$(BIN)/sourloam serve --book out/demo.sourloam --today "$$($(BIN)/python tools/demo_book.py out/demo.sourloam)"

test: set-up-tests ## set up what tests need; lint, types, contracts, all tests
	@$(BIN)/ruff check --quiet .
	@$(BIN)/ruff format --quiet --check .
	@$(BIN)/mypy --no-error-summary
	@$(BIN)/lint-imports --no-logo
	@$(BIN)/python -m pytest -n auto

cases: set-up-tests ## answer 130 real situations; table here, numbers in out/cases.json
	@$(BIN)/python -m tests.cases.yardstick

bench: set-up-tests ## time the commands; table here, numbers in out/bench.json
	@$(BIN)/python benchmarks/run.py

validate: set-up-tests ## hold the model to published ferments; table here, numbers in out/validation.json
	@$(BIN)/python -m validation.run

docs: set-up-tests ## run the examples of the documentation and follow its links, offline
	@$(BIN)/python -m pytest -p no:cacheprovider docs tests/architecture/test_links.py

lock: ## write requirements/*.txt anew (maintainers)
	@$(PYTHON) tools/setup.py lock

clean: ## remove all that make has made
	rm -rf .venv .tools out dist .mypy_cache .pytest_cache .ruff_cache .import_linter_cache .hypothesis
	find . -name __pycache__ -type d -prune -exec rm -rf {} +
