"""The sheet to carry: one page of HTML that needs nothing else and prints on A4 or letter."""

from __future__ import annotations

from html import escape
from importlib.resources import files
from string import Template

from bot.model.plan import Plan, PlannedHole
from bot.wording.base import Style
from bot.wording.numbers import length, one_in, strokes, whole
from bot.wording.plan import (
    bogey_is_fine,
    easiest,
    expect_line,
    hardest,
    tee_line,
    total,
)


def sheet_html(plan: Plan, style: Style) -> str:
    """Return the page; everything a player typed is escaped."""
    page = Template(files("bot.wording").joinpath("sheet.html").read_text("utf-8"))
    made = "" if plan.made_at is None else f"{plan.made_at:%d %b %Y %H:%M %Z}".strip()
    speed = plan.wind_speed
    return page.substitute(
        title=escape(f"{plan.course} {plan.tee}".strip()),
        made=escape(made),
        wind=escape(plan.wind or "not known"),
        columns=escape("" if speed is None else f"{whole(speed)} {speed.unit}"),
        rows="\n".join(_row(plan, plan.holes[n], style) for n in sorted(plan.holes)),
        score=escape(_score(plan)),
        fine=", ".join(str(n) for n in hardest(plan)),
        attack=", ".join(str(n) for n in easiest(plan)),
        clubs=_clubs(plan),
    )


def _clubs(plan: Plan) -> str:
    """Return what every club carries, a column a club, so that any bag fits on the page."""
    rows = [("Carry", [c.club for c in plan.clubs])]
    for name, of in (("Calm", "calm"), ("Into", "into"), ("Down", "down")):
        rows.append((name, [str(whole(getattr(c, of))) for c in plan.clubs]))
    return "\n".join(
        f"<tr><th>{name}</th>{''.join(f'<td>{escape(v)}</td>' for v in values)}</tr>"
        for name, values in rows
    )


def _row(plan: Plan, hole: PlannedHole, style: Style) -> str:
    by_name = {one.condition: one for one in hole.conditions}
    cells = [
        str(hole.number),
        str(hole.par),
        length(hole.length, style),
        "" if hole.stroke_index is None else str(hole.stroke_index),
        tee_line(hole, style).partition(": ")[2],
        expect_line(hole),
        *(strokes(by_name[name].strokes) for name in ("calm", "into", "down")),
        one_in(hole.conditions[0].double_or_worse),
    ]
    kind = ' class="fine"' if bogey_is_fine(hole) else ""
    if hole.number in easiest(plan):
        kind = ' class="go"'
    return f"<tr{kind}>{''.join(f'<td>{escape(c)}</td>' for c in cells)}</tr>"


def _score(plan: Plan) -> str:
    said = f"Expect {total(plan):.0f}"
    if plan.target is not None and plan.usual is not None:
        said += f"; to your handicap {plan.target}, most days {plan.usual}"
    return said + "."
