"""Read a reference table under fixtures/tables, refusing one that hides where it comes from."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

_FOLDER = Path(__file__).parents[2] / "fixtures" / "tables"
_WANTED = ("source", "table", "units", "tolerance", "why this tolerance")


@dataclass(frozen=True)
class Table:
    header: dict[str, str]
    rows: list[dict[str, str]]

    def column(self, name: str) -> list[float]:
        return [float(row[name]) for row in self.rows]


def load_table(name: str) -> Table:
    header: dict[str, str] = {}
    body: list[str] = []
    for line in (_FOLDER / f"{name}.csv").read_text(encoding="utf-8").splitlines():
        if line.startswith("#"):
            key, _, value = line[1:].partition(":")
            header[key.strip()] = value.strip()
        elif line.strip():
            body.append(line)
    missing = [key for key in _WANTED if not header.get(key)]
    if missing:
        message = f"{name}.csv does not state its {', '.join(missing)}"
        raise ValueError(message)
    return Table(header, list(csv.DictReader(body)))
