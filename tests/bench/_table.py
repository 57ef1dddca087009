"""How a bench prints its figures: one table or JSON, and an exit code."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Row:
    """One measured figure against its goal; `baseline` is a simpler way in the same run."""

    name: str
    figure: float
    goal: float
    unit: str = ""
    better: Literal["below", "above"] = "below"
    baseline: float | None = None

    @property
    def met(self) -> bool:
        """Whether the goal is reached."""
        return self.figure <= self.goal if self.better == "below" else self.figure >= self.goal

    @property
    def ratio(self) -> float | None:
        """Figure over baseline."""
        return None if not self.baseline else self.figure / self.baseline


def finish(title: str, rows: Sequence[Row], argv: Sequence[str]) -> int:
    """Print all rows, as JSON if asked with ``--json``; return 1 if a goal is missed."""
    if "--json" in argv:
        rows_out = [
            {"name": r.name, "figure": r.figure, "goal": r.goal, "unit": r.unit,
             "better": r.better, "baseline": r.baseline, "ratio": r.ratio, "met": r.met}
            for r in rows
        ]  # fmt: skip
        table = {"title": title, "rows": rows_out}
        print(json.dumps(table, indent=1, default=lambda value: value.item()))  # of numpy's types
    else:
        width = max(len(r.name) for r in rows)
        print(title)
        print(f"{'':{width}}  {'figure':>10} {'goal':>12} {'baseline':>10} {'ratio':>7}")
        for r in rows:
            goal = f"{'<=' if r.better == 'below' else '>='} {r.goal:.4g}"
            base = "" if r.baseline is None else f"{r.baseline:.4g}"
            ratio = "" if r.ratio is None else f"{r.ratio:.2f}"
            mark = "" if r.met else "  MISSED"
            print(
                f"{r.name:{width}}  {r.figure:>10.4g} {goal:>12} {base:>10} {ratio:>7} "
                f"{r.unit}{mark}"
            )
    return 0 if all(r.met for r in rows) else 1
