"""How exactly are labelled messages read that the corpus does not hold?

A label lists flat facts. ``[low, high]`` is any value between, a list of kinds or sides any of
them, ``may`` what may be there too, ``alt`` another whole reading, ``ask`` the question that
must be put, ``reject`` that no advice may go out.
"""

import json
from pathlib import Path
from typing import Any

from bot.text.read import read
from bot.turn.facts import told_facts
from tests.bench._table import Row
from tests.support.messages import talked

GOALS = {"easy": 95.0, "hard": 85.0, "vhard": 70.0}
NAMES = {"easy": "plain", "hard": "hard", "vhard": "very hard"}
ABOUT = frozenset({"ask", "may_ask", "may", "alt", "reject", "carried", "kind"})
# Other names that labels give to the swings of the reader.
_SWINGS = {
    "punch": "knocked_down", "knockdown": "knocked_down", "easy": "smooth",
    "choke_down": "choked", "bump_and_run": "bump",
}  # fmt: skip
HURTS = frozenset({
    "wind_from", "elevation_ft", "elevation_dir", "distance_yd", "distance_m", "hazards", "safe",
})  # fmt: skip


def score_labels(path: Path) -> list[Row]:
    """Shares read exactly right by difficulty, and of silent errors that can hurt [%]."""
    right = dict.fromkeys(GOALS, 0)
    count = dict.fromkeys(GOALS, 0)
    hurt = mute = 0
    for line in path.read_text(encoding="utf-8").splitlines():
        if not line.strip():
            continue
        case = json.loads(line)
        level = next((t for t in case["tags"] if t in GOALS), "easy")
        reading = read(case["text"])
        got = told_facts(
            reading, case.get("locale_units") or "imperial",
            talked(case["context"]) if case.get("context") else None,
        )  # fmt: skip
        readings = [case["expect"], *case["expect"].get("alt", [])]
        wrong = min((misread(label, got) for label in readings), key=len)
        count[level] += 1
        right[level] += not wrong
        said = {"ask", "reject"} & set(got) or got.get("kind") == "unclear"
        hurt += bool(HURTS & set(wrong)) and not said
        mute += bool(HURTS & set(wrong)) and not said and not reading.unread
    rows = [
        Row(f"labelled, {NAMES[level]} ({count[level]})", 100 * right[level] / count[level], goal,
            "%", "above")
        for level, goal in GOALS.items() if count[level]
    ]  # fmt: skip
    total = sum(count.values())
    return [
        *rows,
        Row("labelled, wrong where it can hurt and not asked", 100 * hurt / total, 0.5, "%"),
        Row("the same, without a word of what was not read", 100 * mute / total, 0.5, "%"),
    ]


def misread(label: dict[str, Any], got: dict[str, Any]) -> list[str]:
    """The names of the facts that differ."""
    may = label.get("may", {})
    got = _in_units_of(label, got)
    wrong = [
        name for name, value in label.items()
        if name not in ABOUT and not _same(name, value, got.get(name), may.get(name))
    ]  # fmt: skip
    wrong += [n for n in got if n not in ABOUT and n not in label and n not in may]
    asked, must = got.get("ask"), label.get("ask")
    allowed = label.get("may_ask") or ()
    if (must and asked != must) or (not must and asked and asked not in allowed):
        wrong.append("ask")
    if bool(label.get("reject")) != bool(got.get("reject")):
        wrong.append("reject")
    # What may be there may be carried; trouble may be told now and before.
    free = {*may, *({"hazards"} if "hazards" in got else ())}
    if set(label.get("carried", ())) - free != set(got.get("carried", ())) - free:
        wrong.append("carried")
    return wrong


def _in_units_of(label: dict[str, Any], got: dict[str, Any]) -> dict[str, Any]:
    """`got` with the lengths that the label has in the other unit turned into that."""
    out = dict(got)
    for name in got:
        base, _, unit = name.rpartition("_")
        other = {"yd": f"{base}_m", "m": f"{base}_yd"}.get(unit)
        if other in label and name not in label and isinstance(got[name], int | float):
            out[other] = out.pop(name) * (1.0936 if unit == "m" else 1 / 1.0936)
    return out


def _same(name: str, label: Any, got: Any, may: Any) -> bool:
    if got is None:
        return False
    if isinstance(label, bool) or isinstance(got, bool):
        return bool(label == got)
    if isinstance(label, dict):
        got = _in_units_of(label, got)
        more = set(may or ())
        return set(got) - more <= set(label) and all(
            _same(k, v, got.get(k), None) for k, v in label.items()
        )
    if name == "swing":
        label = _SWINGS.get(label, label)
    if name == "hazards":
        return _same_trouble(label, got)
    if isinstance(label, list) and all(isinstance(x, int | float) for x in label):
        return isinstance(got, int | float) and label[0] - 0.01 <= got <= label[1] + 0.01
    if isinstance(label, list) and isinstance(got, str):
        return got in label
    if isinstance(label, list):
        return set(label) <= set(got) <= set(label) | set(may or ())
    if isinstance(label, int | float) and isinstance(got, int | float):
        if name == "wind_from":
            apart = abs(label - got) % 360
            return min(apart, 360 - apart) <= 15
        return abs(label - got) <= max(0.15, 0.011 * abs(label))
    return bool(label == got)


def _same_trouble(label: list[dict[str, Any]], got: list[dict[str, Any]]) -> bool:
    left = list(got)
    for told in label:
        match = next((g for g in left if _one(told, g)), None)
        if match is None:
            return False
        left.remove(match)
    return not left


def _one(label: dict[str, Any], got: dict[str, Any]) -> bool:
    if not set(got) <= set(label):
        return False
    for name, value in label.items():
        told = got.get(name)
        if name in ("kind", "side"):
            if told not in (value if isinstance(value, list) else [value]):
                return False
        elif told is None or abs(told - value) > 0.6:
            return False
    return True
