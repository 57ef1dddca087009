"""How the clubs of a player's own bag fly."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bot.model.flightpage import FlightPage, FlightRow
from bot.model.measure import Measure
from bot.model.state import Player, Units
from bot.turn.bag import bag_of, knows_bag
from bot.turn.measures import MODERATE_WIND, measured, to_quantity
from engine import SwingFlight, bag_flights, si

if TYPE_CHECKING:
    from engine import Q


def flight_page(player: Player, *, every_swing: bool = False) -> FlightPage:
    """Return how each club flies calm and in one wind, full swings or every swing owned."""
    units = player.units or "imperial"
    wind = MODERATE_WIND[units]
    profile = player.profile
    if not knows_bag(profile):
        return FlightPage(name=player.name, wind=wind, rows=())
    golfer = bag_of(profile).golfer
    blowing = to_quantity(wind, "wind", units)
    flights = bag_flights(golfer, wind=blowing, full_only=not every_swing)
    return FlightPage(name=player.name, wind=wind, rows=tuple(_row(f, units) for f in flights))


def _row(flight: SwingFlight, units: Units) -> FlightRow:
    def m(q: Q) -> Measure:
        return measured(q, "distance", units)

    return FlightRow(
        club=flight.club,
        swing=flight.kind,
        carry=m(flight.carry),
        apex=m(flight.apex),
        descent=Measure(value=si(flight.descent, "deg"), unit="deg"),
        run_low=m(flight.run - flight.run_doubt),
        run_high=m(flight.run + flight.run_doubt),
        into=m(flight.into),
        down=m(flight.down),
        across=m(flight.across),
    )
