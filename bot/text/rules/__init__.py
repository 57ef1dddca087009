"""Which rules run over the tokens, and in which order?"""

import bot.text.names  # noqa: F401  registers the names that the rules are written in
from bot.text.patterns import Rule
from bot.text.rules import (
    clubs,
    conditions,
    distances,
    height,
    holes,
    mending,
    peril,
    pins,
    signs,
    trouble,
    way_out,
    wind,
)

CASCADE: tuple[tuple[Rule, ...], ...] = (
    mending.SAID_ANEW,
    peril.PERILS,
    way_out.WAYS,
    holes.HOLES,
    pins.PIN_FROM,
    wind.CLUBS,
    signs.SIGNS,
    wind.DIRECTIONS,
    mending.SAID_OF_WIND,
    wind.PAIRS,
    wind.WINDS,
    mending.SAID_OF_SPEED,
    distances.TRIOS,
    pins.PINS,
    height.HEIGHTS,
    clubs.LOFTS,
    trouble.TROUBLE,
    conditions.AIR,
    distances.DISTANCES,
    clubs.CLUBS,
)
