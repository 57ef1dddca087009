"""How are the air and the green: warmth, height above the sea, speed, size?"""

from typing import Any

from bot.text.patterns import Match, Rule, rule
from bot.text.quantity import Num
from bot.text.rules.distances import plain

_HIGH_FT, _HIGH_M = 900.0, 600.0  # no shot rises or falls so far
_FREEZES_F = 25.0
_HOTTEST = 120.0
_DEEPEST = 80.0  # yards or metres of green


def _deep(match: Match) -> tuple[str, Any] | None:
    """How deep the green is: "30 yards deep", "28 yard green"."""
    num: Num = match.value("n") or match.value("k") or match.value("j")
    return ("got.depth", num) if num.value <= _DEEPEST else None


def _temp(match: Match) -> tuple[str, Any] | None:
    num: Num = match.value("n")
    if num.unit == "deg":
        if not -20 <= num.value <= 120:
            return None
        # Nobody plays in so many degrees Fahrenheit: common practice, no source.
        num = num._replace(unit="degC" if num.value <= _FREEZES_F else "")
    return "got.temp", num


def _high_up(match: Match) -> bool:
    """Whether a height can only be one above the sea: "5000 ft up"."""
    num: Num = match.value("n")
    raised = len(match.tokens) > 1
    return (num.unit == "ft" and num.value >= _HIGH_FT) or (
        num.unit == "m" and raised and num.value >= _HIGH_M
    )


AIR: tuple[Rule, ...] = (
    rule("air.temperature", "air.temp (join.at|join.of|join.was)* {n:n.temp|n.deg|n.bare}", _temp),
    rule("air.then_temperature", "{n:n.bare} join.on? air.temp", lambda m: _temp(m) if m.value("n").value <= _HOTTEST else None),
    rule("air.degrees", "{n:n.temp|n.deg}", _temp),
    rule("air.bare", "(air.cold|air.hot|air.warm|air.cool) join.at? {n:n.bare}(?= (punct|join))", lambda m: _temp(m) if m.value("n").value <= 110 else None),
    rule("air.altitude", "(height.altitude) (join.of|join.at)* {n:n.ft|n.len|n.bare}", plain("got.altitude")),
    rule("air.altitude2", "{n:n.ft|n.len|n.bare} (join.of|height.uphill)* height.altitude", plain("got.altitude")),
    rule("air.altitude3", "join.at {n:n.ft|n.len} height.up?", lambda m: ("got.altitude", m.value("n")) if m.value("n").value >= 900 and m.value("n").unit in ("ft", "m") else None),
    rule("air.altitude4", "{n:n.ft|n.len} (height.up|height.uphill)?", lambda m: ("got.altitude", m.value("n")) if _high_up(m) else None),
    rule("air.thin", "air.thin join.at {n:n.ft|n.len}", plain("got.altitude")),
    rule("air.humidity", "air.humid (join.at|join.of)* {n:n.pct}", plain("got.humidity")),
    rule("air.humidity2", "{n:n.pct} air.humid", plain("got.humidity")),
    rule("green.stimp", "ground.stimp (join.at|join.of|join.to|join.was)* {n:n.bare|n.det}", plain("got.stimp")),
    rule("green.num_stimp", "{n:n.bare|n.det} (join.on)* ground.stimp", plain("got.stimp")),
    rule("green.depth", "{n:n.len|n.bare} ground.deep|{k:n.len} place.green|place.green {j:n.len|n.bare} ground.deep", _deep),
    rule("green.ahead", "{n:n.len|n.ft|n.bare} join.of place.green", lambda m: ("got.pin_on", m.value("n")._replace(det="front")) if m.value("n").value <= 60 else None),
    rule("green.width", "{n:n.len|n.bare} ground.wide", plain("got.width")),
)  # fmt: skip
