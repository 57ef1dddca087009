"""Run the benches one after the other and put their rows into one table and one file.

``--out FILE`` says where the JSON goes (build/bench.json), ``--only NAME,NAME`` which benches
run, and ``--full`` is handed on to those that know it.
"""

from __future__ import annotations

import json
import os
import platform
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.bench._table import Row, finish

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
MOST_S = 3600.0  # a bench that takes longer is stopped and counts as missed


def main(argv: list[str]) -> int:
    """Print the table of all benches; 1 if a goal is missed or a bench fails."""
    only = argv[argv.index("--only") + 1].split(",") if "--only" in argv else None
    out = Path(argv[argv.index("--out") + 1] if "--out" in argv else "build/bench.json")
    handed = ["--full"] if "--full" in argv else []
    names = [p.stem for p in sorted(HERE.glob("[!_]*.py"))]
    if only is not None and (unknown := set(only) - set(names)):
        print(f"No such bench: {', '.join(sorted(unknown))}. There are: {', '.join(names)}.")
        return 2
    reports, rows = [], []
    for name in names:
        if only is not None and name not in only:
            continue
        print(f"{name} ...", file=sys.stderr, flush=True)
        report = _run(name, handed)
        reports.append(report)
        rows += [
            Row(f"{name}: {r['name']}", r["figure"], r["goal"], r["unit"], r["better"],
                r["baseline"])
            for r in report["rows"]
        ]  # fmt: skip
        if not report["rows"]:
            rows.append(Row(f"{name}: did not finish", 1, 0))
    machine = {
        "cores": os.cpu_count(), "kind": platform.machine(), "python": platform.python_version()
    }  # fmt: skip
    out.parent.mkdir(parents=True, exist_ok=True)
    out.write_text(json.dumps({"machine": machine, "benches": reports}, indent=1) + "\n", "utf-8")
    missed = sum(not r.met for r in rows)
    code = finish(f"{len(rows)} figures, {missed} goals missed; as JSON in {out}", rows, [])
    return code if all(r["rows"] for r in reports) else 1


def _run(name: str, handed: list[str]) -> dict[str, Any]:
    """Return what one bench printed as JSON, with its time; no rows where it failed."""
    command = [sys.executable, str(HERE / f"{name}.py"), "--json", *handed]
    started = time.monotonic()
    found: dict[str, Any] = {"title": name, "rows": []}
    try:
        run = subprocess.run(
            command,
            check=False,
            stdout=subprocess.PIPE,
            text=True,
            cwd=ROOT,
            timeout=MOST_S,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        found = json.loads(run.stdout[run.stdout.index("{") :])
    except (subprocess.TimeoutExpired, ValueError):
        print(f"{name} gave no table", file=sys.stderr)
    return {"bench": name, "seconds": round(time.monotonic() - started, 1), **found}


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
