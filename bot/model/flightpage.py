"""How a player's own clubs fly, as a page."""

from __future__ import annotations

from bot.model.base import Frozen
from bot.model.measure import Measure


class FlightRow(Frozen):
    """One swing of the bag, calm and in the wind of the page."""

    club: str
    swing: str
    carry: Measure
    apex: Measure
    descent: Measure
    run_low: Measure  # where two runs in three end
    run_high: Measure
    into: Measure  # change of carry in the wind ahead
    down: Measure  # and behind
    across: Measure  # drift in the wind from the side


class FlightPage(Frozen):
    """The bag, longest first; `wind` is what `into`, `down` and `across` are told for."""

    name: str
    wind: Measure
    rows: tuple[FlightRow, ...]  # empty where no club is known yet
