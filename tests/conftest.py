"""Options shared by all tests; no test may reach beyond this machine."""

import os

import pytest
from hypothesis import settings

for name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(name, "1")

settings.register_profile("fixed", derandomize=True, deadline=None, max_examples=100)
settings.load_profile("fixed")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--write-goldens",
        action="store_true",
        help="rewrite the replies in fixtures/conversations; then read the diff line by line",
    )
