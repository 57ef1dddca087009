"""Which rules run over the tokens, and in which order?"""

import bot.text.names  # noqa: F401  registers the names that the rules are written in
from bot.text.patterns import Rule
from bot.text.rules import clubs, height, spots, trouble, wind

CASCADE: tuple[tuple[Rule, ...], ...] = (
    spots.HOLES,
    wind.CLUBS,
    wind.DIRECTIONS,
    wind.PAIRS,
    wind.WINDS,
    spots.TRIOS,
    spots.PINS,
    height.HEIGHTS,
    clubs.LOFTS,
    trouble.TROUBLE,
    spots.AIR,
    spots.DISTANCES,
    clubs.CLUBS,
)
