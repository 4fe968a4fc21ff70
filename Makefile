# The whole set-up, the demo and the tests. CI and laptop run the same lines.
PY := .venv/bin/python

.PHONY: demo test setup lint lock bench docs

demo: setup            ## check a demo house and print its findings
	@$(PY) -m ferrule check examples/meter-led/job.yaml; code=$$?; test $$code -eq 0 -o $$code -eq 3

test: setup lint       ## everything that must hold before a change lands
	$(PY) -m ferrule rules check
	$(PY) -m pytest -n 2

lint: setup
	.venv/bin/ruff format --check .
	.venv/bin/ruff check .
	.venv/bin/mypy
	.venv/bin/lint-imports

bench: setup           ## speed, as ratios measured side by side
	$(PY) benchmarks/run.py

docs: setup            ## renew the reference pages that are made from the code
	$(PY) tools/reference.py
	$(PY) tools/pictures.py

setup: .venv/ready

.venv/ready: requirements.lock bootstrap.lock pyproject.toml
	python3 -m venv .venv
	.venv/bin/pip install -q --disable-pip-version-check --require-hashes -r bootstrap.lock
	.venv/bin/uv pip sync -q --python $(PY) --require-hashes requirements.lock \
	  || .venv/bin/pip install -q --disable-pip-version-check --require-hashes -r requirements.lock
	.venv/bin/pip install -q --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $@

lock:                  ## renew both locks (hashes, no addresses)
	echo uv | .venv/bin/uv pip compile -q --universal --python-version 3.11 --generate-hashes --no-header - -o bootstrap.lock
	.venv/bin/uv pip compile -q --universal --python-version 3.11 --generate-hashes --no-header --no-annotate --extra dev pyproject.toml -o requirements.lock
