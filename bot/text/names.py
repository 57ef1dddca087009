"""Which names can a token have beside those of the vocabulary?"""

from typing import Final

from bot.text import lexicon
from bot.text.patterns import code

MADE: Final = (
    "dir.line", "dir.open", "dir.compass", "got.wind", "got.height", "got.plays_as",
    "got.plays_delta", "got.play", "got.pin_on", "got.swap", "got.instead",
    "got.hazard", "got.safe", "got.carry", "got.pin", "got.ref",
    "got.front", "got.middle", "got.back", "got.lie", "got.temp", "got.depth", "got.width",
    "got.green", "got.altitude", "got.hole", "got.par", "got.length", "got.dogleg",
    "got.leave", "got.distance", "got.stimp", "got.humidity", "got.bearing", "got.trio",
    "got.index", "got.club", "got.compare", "got.excluded", "got.swing_club", "club.iron",
    "club.wood", "club.hybrid", "club.loft", "n.bare", "n.det", "n.len", "n.ft", "n.speed",
    "n.temp", "n.deg", "n.pct", "n.press", "n.cup", "n.clubs", "n.ord", "n.clock", "n.junk",
    "n.hole", "got.match", "got.gone", "got.either", "got.shift", "x.word",
    "x.side", "unit.word", "d",
    "got.beside", "got.but", "got.corner",
)  # fmt: skip
"""What numbers, measures and rules call the tokens they make."""

if not lexicon.WORDS:
    raise RuntimeError
for _name in MADE:
    code(_name)
