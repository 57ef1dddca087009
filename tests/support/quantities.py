"""How well are quantities of plain sentences found, by our numbers and by an extractor?"""

import json
from pathlib import Path
from typing import Any

from quantulum3 import parser as extractor

from bot.text.quantity import Num
from bot.text.tokens import tokens
from tests.bench._table import Row

# Factors to metres and metres per second; the kind keeps lengths and speeds apart.
LENGTHS = {
    "in": 0.0254, "ft": 0.3048, "yd": 0.9144, "m": 1.0, "cm": 0.01, "mm": 0.001, "dm": 0.1,
    "km": 1000.0, "mi": 1609.344, "inch": 0.0254, "foot": 0.3048, "yard": 0.9144, "metre": 1.0,
    "centimetre": 0.01, "millimetre": 0.001, "decimetre": 0.1, "kilometre": 1000.0,
    "mile": 1609.344, "pace": 0.9144,
}  # fmt: skip
SPEEDS = {
    "mph": 0.44704, "km/h": 1 / 3.6, "m/s": 1.0, "kn": 0.514444, "mile per hour": 0.44704,
    "kilometre per hour": 1 / 3.6, "metre per second": 1.0, "knot": 0.514444,
}  # fmt: skip
DEGREES = {
    "C": "C", "F": "F", "deg": "deg", "degC": "C", "degF": "F", "degree Celsius": "C",
    "degree Fahrenheit": "F", "degree fahrenheit": "F", "degree angle": "deg", "degree": "deg",
}  # fmt: skip
OURS = frozenset({"in", "ft", "yd", "m", "cm", "km", "mi", "mph", "km/h", "C", "F", "deg", None})
"""Units that are of our trade; sentences with others are counted apart."""

Found = tuple[str, float]


def plain(value: float, unit: str | None) -> Found:
    """A quantity as its kind and its value in a common unit."""
    if unit in LENGTHS:
        return "length", value * LENGTHS[unit]
    if unit in SPEEDS:
        return "speed", value * SPEEDS[unit]
    if unit in DEGREES:
        return DEGREES[unit], value
    return "number", value


def values_of(text: str) -> list[Found]:
    """What our own numbers and measures find in a text."""
    _, found = tokens(text)
    return [plain(t.value.value, t.value.unit or None) for t in found if isinstance(t.value, Num)]


def extracted(text: str) -> list[Found]:
    """What the extractor finds."""
    try:
        return [plain(q.value, q.unit.name) for q in extractor.parse(text)]
    except Exception:  # it is not ours to mend
        return []


def holds(found: list[Found], wanted: list[Found]) -> bool:
    """Whether every wanted quantity is among the found; a number may carry a unit."""
    return all(
        any(
            (kind == k or kind == "number") and abs(value - v) <= 1e-6 + 1e-4 * abs(value)
            for k, v in found
        )
        for kind, value in wanted
    )


def score_units(path: Path) -> list[Row]:
    """Shares of sentences all of whose quantities are found [%]."""
    cases: list[dict[str, Any]] = json.loads(path.read_text(encoding="utf-8"))["cases"]
    ours = theirs = counted = 0
    foreign = 0
    for case in cases:
        told = case["quantities"]
        if any("value" not in q for q in told):
            continue
        if any(q["unit"] not in OURS or abs(q["value"]) >= 1e12 for q in told):
            foreign += 1
            continue
        wanted = [plain(q["value"], q["unit"]) for q in told]
        counted += 1
        ours += holds(values_of(case["text"]), wanted)
        theirs += holds(extracted(case["text"]), wanted)
    return [
        Row("plain sentences, quantities found", 100 * ours / counted, 60, "%", "above",
            100 * theirs / counted),
        Row("sentences left out as another trade's", foreign, len(cases), "sentences"),
    ]  # fmt: skip
