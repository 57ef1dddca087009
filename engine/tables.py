"""What do the engine's data files say?"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

from engine.errors import BadTable

Row = dict[str, str]
_HEADER = ("source", "table", "units")


@cache
def rows(name: str) -> tuple[Row, ...]:
    """Return the rows of ``engine/data/NAME.csv`` as text by column.

    Raises
    ------
    BadTable
        The file is missing, has no rows, a ragged row, or does not open with its
        ``# source``, ``# table`` and ``# units``.
    """
    try:
        text = files("engine").joinpath("data", f"{name}.csv").read_text(encoding="utf-8")
    except OSError as error:
        raise BadTable(name, "cannot be read") from error
    return parse(name, text)


def parse(name: str, text: str) -> tuple[Row, ...]:
    """Return the rows of a table given as text; see `rows`.

    Raises
    ------
    BadTable
        See `rows`.
    """
    lines = text.splitlines()
    comments = [line for line in lines if line.startswith("#")]
    for word in _HEADER:
        if not any(line.startswith(f"# {word}:") for line in comments):
            raise BadTable(name, f"no '# {word}:' line")
    found = tuple(csv.DictReader(line for line in lines if line and not line.startswith("#")))
    if not found:
        raise BadTable(name, "no rows")
    for row in found:
        if None in row or None in row.values():
            raise BadTable(name, f"ragged row {next(iter(row.values()))}")
    return found


def number(name: str, row: Row, column: str) -> float:
    """Return the number in a column of a row.

    Raises
    ------
    BadTable
        The column is missing or holds no number.
    """
    try:
        return float(row[column])
    except (KeyError, ValueError) as error:
        raise BadTable(name, f"no number in column {column}") from error
