"""A page of the bag's flights, for a terminal or a file."""

from __future__ import annotations

from bot.model.flightpage import FlightPage, FlightRow
from bot.wording.clubs import played
from bot.wording.numbers import signed, whole

_NO_BAG = "No club is known yet. Send two carries: driver 230, 7 iron 150, about 18 handicap."


def flight_lines(page: FlightPage) -> tuple[str, ...]:
    """Return the lines of the page.

    >>> flight_lines(FlightPage(name="", wind={"value": 10, "unit": "mph"}, rows=()))
    ('No club is known yet. Send two carries: driver 230, 7 iron 150, about 18 handicap.',)
    """
    if not page.rows:
        return (_NO_BAG,)
    unit = page.rows[0].carry.unit
    wind = f"{whole(page.wind)} {page.wind.unit}"
    whose = f"{page.name}'s clubs" if page.name else "Your clubs"
    names = [_club(row) for row in page.rows]
    wide = max(len(name) for name in names)
    return (
        f"{whose} in calm air, and what {wind} does. Lengths in {unit}.",
        "",
        f"{'':{wide}}  carry  high  lands     run   into   down  across",
        *(f"{name:{wide}}  {_row(row)}" for name, row in zip(names, page.rows, strict=True)),
        "",
        "carry: calm, level, from a good lie, on your usual day (20 C by the sea unless set).",
        "high: top of the flight. lands: angle down. run: two in three, normal fairway.",
        "into, down: carry gained or lost. across: drift, the way the air moves.",
        "Run is the least sure column; soft or baked turf changes it most.",
        "A low shot gains little from wind behind: it loses lift and comes down sooner.",
    )


def _club(row: FlightRow) -> str:
    return played(row.club, row.swing)


def _row(row: FlightRow) -> str:
    run = f"{whole(row.run_low)} to {whole(row.run_high)}"
    return (
        f"{whole(row.carry):>5}  {whole(row.apex):>4}  {whole(row.descent):>5}  {run:>8}"
        f"  {signed(row.into):>4}  {signed(row.down):>5}  {whole(row.across):>6}"
    )
