"""One page on a round or several, whole in itself: what a player hands a coach."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from html import escape
from importlib.resources import files
from itertools import zip_longest
from string import Template

from bot.model.review import PARTS, HoleShown, LegShown, ReviewShown
from bot.wording.base import Style
from bot.wording.clubs import club
from bot.wording.numbers import length, lost, strokes
from bot.wording.pictures import clubs_picture, holes_picture, parts_picture
from bot.wording.result import aim
from bot.wording.review import CAUSES, PART_NAMES, coach, drift, left_out, summary

_HOW = (
    "Every stroke is split three ways. The choice is the expected strokes of the swing that was "
    "played, less the best on offer, from what was known before it was hit; how it came out does "
    "not count. The swing is what was left over: where the ball ended against what that swing "
    "was expected to leave. Penalty strokes stand alone. The three add up to the score less "
    "what this player's own game expects. Plus is lost, minus is gained. Expectations come from "
    "the player's stored clubs and pattern, on ordinary ground wherever nothing was told."
)
_PATTERN = (
    "Dots: shots, brought back to calm and level; white ones were told by side or depth only "
    "and stand where they most likely ended. Cross: the middle of three or more that were "
    "placed. Lines: the stored pattern, "
    "half of it inside the full line, nine in ten inside the dashed one."
)
_MOST = 12  # departures listed one by one
_PROLOGUE = re.compile(r"^.*?(?=<svg)", re.DOTALL)


def report_page(answer: ReviewShown, style: Style, *, player: str = "") -> bytes:
    """Return the review as one HTML page, UTF-8, with nothing to fetch."""
    template = Template(files("bot.wording").joinpath("report.html").read_text("utf-8"))
    body = [
        _section("In short", _summary(answer, style)),
        _section(
            "Where the strokes went",
            _figure(parts_picture(answer, "svg"), _by_part(answer)),
        ),
        _section("Choices", _choices(answer, style)),
        *(_section(*_round(answer, n)) for n in range(len(answer.rounds))),
        _section("Clubs", _clubs(answer, style)),
    ]
    page = template.substitute(
        title=escape(_title(answer, player)),
        when=escape(_when(answer)),
        body="\n".join(b for b in body if b),
        footer=escape(_HOW),
    )
    return page.encode("utf-8")


def _title(answer: ReviewShown, player: str) -> str:
    many = len(answer.rounds)
    what = "Round review" if many == 1 else f"Review of {many} rounds"
    return f"{what}: {player}" if player else what


def _when(answer: ReviewShown) -> str:
    days = [f"{r.at:%Y-%m-%d}" for r in answer.rounds if r.at is not None]
    span = days[0] if len(set(days)) == 1 else f"{days[0]} to {days[-1]}" if days else ""
    places = dict.fromkeys(r.course for r in answer.rounds if r.course)
    return ", ".join((*places, span)) if span else ", ".join(places)


def _section(title: str, body: str) -> str:
    return f"<section>\n<h2>{escape(title)}</h2>\n{body}\n</section>" if body else ""


def _summary(answer: ReviewShown, style: Style) -> str:
    first, second, *rest = summary(answer, style)
    said = {coach(c) for c in answer.coach}
    out = [f'<p class="big">{escape(first)}</p>', f'<p class="big">{escape(second)}</p>']
    for line in rest:
        kind = ' class="coach"' if line in said else ""
        out.append(f"<p{kind}>{escape(line)}</p>")
    return "\n".join(out)


def _figure(picture: bytes | None, table: str = "", caption: str = "") -> str:
    if picture is None:
        return table
    svg = _PROLOGUE.sub("", picture.decode("utf-8"))
    said = f"<figcaption>{escape(caption)}</figcaption>" if caption else ""
    return f'<div class="pair">\n<figure>{svg}{said}</figure>\n<div>{table}</div>\n</div>'


def _by_part(answer: ReviewShown) -> str:
    rows = [
        (PART_NAMES[p].capitalize(), lost(s.choice), lost(s.execution), lost(s.penalty),
         lost(s.total))
        for p in PARTS
        if (s := answer.by_part[p]).legs
    ]  # fmt: skip
    total = answer.total
    rows.append(
        ("All", lost(total.choice), lost(total.execution), lost(total.penalty), lost(total.total))
    )
    return _table(("Part", "choices", "swings", "penalties", "together"), rows)


def _choices(answer: ReviewShown, style: Style) -> str:
    found = answer.followed
    if not found.asked:
        return "<p>No advice was asked.</p>"
    said = [
        f"<p>Advice was asked for {found.asked} strokes and taken for {found.taken}. "
        f"Departures cost {strokes(found.cost)} and gained {strokes(found.gained)} in "
        "expectation.</p>"
    ]
    causes = [(CAUSES[c].capitalize(), lost(v, fine=True)) for c, v in answer.by_cause.items()]
    if causes:
        said.append(_table(("Cause", "strokes"), causes))
    departures = [leg for leg in found.departures if leg.cause]
    rows = [
        (str(leg.hole), _played(leg, style), club(leg.advised), leg.told,
         lost(leg.choice, fine=True))
        for leg in departures[:_MOST]
    ]  # fmt: skip
    if rows:
        head = ("Hole", "played", "advised", "went", "cost")
        said.append(_table(head, rows, words=(1, 2, 3)))
    rest = departures[_MOST:]
    if rest:
        more = lost(sum(leg.choice for leg in rest), fine=True)
        said.append(f"<p>And {len(rest)} more that cost {more} together.</p>")
    return "\n".join(said)


def _round(answer: ReviewShown, n: int) -> tuple[str, str]:
    one = answer.rounds[n]
    name = "Hole by hole" if len(answer.rounds) == 1 else f"{one.at:%Y-%m-%d} {one.course}".strip()
    if not one.holes:
        return name, "<p>No hole with a score that counts.</p>"
    alone = answer.model_copy(update={"rounds": (one,)})
    plan = any(hole.planned is not None for hole in one.holes)
    rows = [_hole(hole, plan=plan) for hole in one.holes]
    head = ("Hole", "par", "score", *(("plan",) if plan else ()), "expect", "choice", "swing",
            "pen.")  # fmt: skip
    table = _table(head, rows, notes=[_most_lost(hole) for hole in one.holes])
    note = left_out(alone)
    under = "<p>Played by the Rules: no advice was given; choices were weighed afterwards.</p>"
    extra = (f"<p>{escape(note)}</p>" if note else "") + (under if one.under_rules else "")
    return name, _figure(holes_picture(alone, "svg"), table + extra)


def _hole(hole: HoleShown, *, plan: bool) -> tuple[str, ...]:
    parts = [sum(getattr(leg, k) for leg in hole.legs) for k in ("choice", "execution", "penalty")]
    par = "" if hole.par is None else str(hole.par)
    planned = ("" if hole.planned is None else strokes(hole.planned),) if plan else ()
    return (str(hole.hole), par, str(hole.score), *planned, strokes(hole.expected),
            *map(lost, parts))  # fmt: skip


def _most_lost(hole: HoleShown) -> str:
    """Return the stroke that lost most of a hole that lost much."""
    told = [leg for leg in hole.legs if not leg.untold]
    worst = max(told, key=lambda leg: leg.choice + leg.execution + leg.penalty, default=None)
    return "" if worst is None or hole.lost < 0.3 else f"most lost: {_stroke(worst)}"


def _stroke(leg: LegShown) -> str:
    name = club(leg.club) if leg.club else PART_NAMES[leg.part]
    return f"stroke {leg.first}, {name} {leg.told}".strip()


def _played(leg: LegShown, style: Style) -> str:
    name = club(leg.club) if leg.club else "-"
    weighed = leg.aimed is not None and leg.aimed.at not in ("advised", "other")
    return f"{name} {aim(leg.aimed, style)}" if leg.aimed is not None and weighed else name


def _clubs(answer: ReviewShown, style: Style) -> str:
    if not answer.clubs:
        return ""
    carried = any(c.centre is not None for c in answer.clubs)
    rows = [
        (club(c.club), str(c.shots), str(c.short), str(c.pin_high), str(c.long), str(c.left),
         str(c.right), "" if c.stored is None else length(c.stored, style),
         *(("" if c.centre is None else length(c.centre, style),) if carried else ()))
        for c in answer.clubs
    ]  # fmt: skip
    head = ("Club", "shots", "short", "pin high", "long", "left", "right", "stored",
            *(("carried",) if carried else ()))  # fmt: skip
    said = [_table(head, rows)]
    said += [f"<p>{escape(drift(c, style))}</p>" for c in answer.drifted]
    return _figure(clubs_picture(answer, "svg"), "\n".join(said), _PATTERN)


def _table(
    head: Sequence[str], rows: Iterable[Sequence[str]], *, words: Sequence[int] = (),
    notes: Sequence[str] = (),
) -> str:  # fmt: skip
    """Return a table; a note takes a line of its own under its row."""

    def row(cells: Sequence[str], tag: str, note: str = "") -> str:
        out = []
        for n, cell in enumerate(cells):
            kind = ' class="words"' if n in words else ""
            out.append(f"<{tag}{kind}>{escape(cell)}</{tag}>")
        if not note:
            return f"<tr>{''.join(out)}</tr>"
        under = f'<tr class="note"><td></td><td colspan="{len(head) - 1}">{escape(note)}</td></tr>'
        return f'<tr class="noted">{"".join(out)}</tr>\n{under}'

    body = "\n".join(row(r, "td", note) for r, note in zip_longest(rows, notes, fillvalue=""))
    return (
        f'<div class="wide"><table>\n<thead>{row(head, "th")}</thead>\n'
        f"<tbody>\n{body}\n</tbody>\n</table></div>"
    )
