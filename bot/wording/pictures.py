"""What do a review's strokes and a club's shots look like? Pictures to be read outdoors.

Colours are Okabe and Ito's, told apart by people who see colours differently [1]_; every kind
also has a hatch or a shape of its own, so that a picture survives sunlight and black ink.

References
----------
.. [1] B. Wong, "Color blindness", Nature Methods 8 (2011) 441, fig. 2.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Literal

from bot.model.review import PARTS, ClubPattern, ReviewShown
from bot.wording.clubs import club
from bot.wording.numbers import lost
from bot.wording.review import PART_NAMES

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

Form = Literal["png", "svg"]

# Blue, orange and black-and-white hatching: kinds of loss.
KINDS = (
    ("choice", "choices", "#E69F00", "//"),
    ("execution", "swings", "#0072B2", ""),
    ("penalty", "penalties", "#FFFFFF", "xx"),
)
INK, FAINT = "#111111", "#767676"
_WIDE, _DPI = 6.0, 160  # inches and dots an inch: 960 dots across, a phone's width
_MOST_CLUBS = 6
_FEWEST = 3  # placed shots that make a middle
_SEED = "two-line-caddie"  # the same picture is the same file


def _figure(high: float) -> Figure:
    import matplotlib as mpl  # heavy, and only pictures need it
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    mpl.rcParams.update(
        {"font.size": 14, "svg.hashsalt": _SEED, "svg.fonttype": "none", "axes.edgecolor": INK,
         "text.color": INK, "axes.labelcolor": INK, "xtick.color": INK, "ytick.color": INK,
         "hatch.linewidth": 0.9, "font.family": "DejaVu Sans"}
    )  # fmt: skip
    figure = Figure(figsize=(_WIDE, high), facecolor="white", layout="constrained")
    FigureCanvasAgg(figure)
    return figure


def _saved(figure: Figure, form: Form) -> bytes:
    out = io.BytesIO()
    if form == "svg":
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    else:
        figure.savefig(out, format="png", dpi=_DPI, metadata={"Software": None})
    return out.getvalue()


def parts_picture(answer: ReviewShown, form: Form = "png") -> bytes:
    """Return strokes lost by part of the game, with choices, swings and penalties apart."""
    told = [p for p in PARTS if answer.by_part[p].legs]
    figure = _figure(1.9 + 1.05 * max(len(told), 1))
    axes = figure.subplots()
    rows = range(len(told))
    sums = [answer.by_part[p] for p in told]
    _bars(axes, rows, [(s.choice, s.execution, s.penalty) for s in sums])
    axes.set_yticks(list(rows), [PART_NAMES[p].capitalize() for p in told])
    axes.invert_yaxis()
    for row, found in zip(rows, sums, strict=True):
        parts, gained = (found.choice, found.execution, found.penalty), found.total < 0.0
        end = sum(min(v, 0.0) if gained else max(v, 0.0) for v in parts)
        axes.annotate(
            lost(found.total), (end, row), xytext=(-6 if gained else 6, 0),
            textcoords="offset points", va="center", ha="right" if gained else "left",
            fontweight="bold",
        )  # fmt: skip
    axes.margins(x=0.18)
    axes.set_xlabel("strokes lost  (left of the line: gained)")
    _finish(axes, f"{lost(answer.total.total)} strokes against your own game", key=True)
    return _saved(figure, form)


def holes_picture(answer: ReviewShown, form: Form = "png") -> bytes:
    """Return strokes lost hole by hole, the last round's where there are several."""
    holes = answer.rounds[-1].holes
    figure = _figure(1.6 + 0.42 * max(len(holes), 2))
    axes = figure.subplots()
    rows = range(len(holes))
    parts = [
        tuple(
            sum(getattr(leg, kind) for leg in hole.legs)
            for kind in ("choice", "execution", "penalty")
        )
        for hole in holes
    ]
    _bars(axes, rows, [(c, e, float(p)) for c, e, p in parts])
    axes.set_yticks(list(rows), [f"{h.hole}: {_made(h.score, h.par)}" for h in holes])
    axes.invert_yaxis()
    axes.set_ylabel("hole and score")
    axes.set_xlabel("strokes lost  (left of the line: gained)")
    _finish(axes, "Hole by hole", key=True)
    return _saved(figure, form)


def clubs_picture(answer: ReviewShown, form: Form = "png") -> bytes | None:
    """Return each club's shots on its stored pattern; None where none can be drawn."""
    drawn = sorted(answer.patterns, key=lambda p: -len(p.dots))[:_MOST_CLUBS]
    if not drawn:
        return None
    columns = 1 if len(drawn) == 1 else 2
    lines = -(-len(drawn) // columns)
    figure = _figure(0.6 + (4.6 if columns == 1 else 3.05) * lines)
    axes = figure.subplots(lines, columns, squeeze=False).ravel()
    for one, found in zip(axes, drawn, strict=False):
        _pattern(one, found, small=columns > 1)
    for spare in axes[len(drawn) :]:
        spare.set_axis_off()
    figure.suptitle("Your shots on your stored pattern", fontweight="bold", fontsize=16)
    return _saved(figure, form)


def _bars(axes: Axes, rows: range, values: list[tuple[float, float, float]]) -> None:
    """Stack what was lost to the right of nought and what was gained to the left."""
    right, left = [0.0] * len(rows), [0.0] * len(rows)
    for n, (_, name, colour, hatch) in enumerate(KINDS):
        widths = [v[n] for v in values]
        starts = [right[i] if w >= 0 else left[i] for i, w in enumerate(widths)]
        axes.barh(
            list(rows), widths, left=starts, color=colour, hatch=hatch, edgecolor=INK,
            linewidth=1.1, height=0.66, label=name,
        )  # fmt: skip
        for i, w in enumerate(widths):
            if w >= 0:
                right[i] += w
            else:
                left[i] += w


def _finish(axes: Axes, title: str, *, key: bool) -> None:
    axes.axvline(0.0, color=INK, linewidth=2.0)
    axes.grid(axis="x", color=FAINT, linewidth=0.5, alpha=0.5)
    axes.set_axisbelow(True)
    for side in ("top", "right", "left"):
        axes.spines[side].set_visible(False)
    axes.tick_params(axis="y", length=0)
    axes.set_title(title, fontweight="bold", loc="left", pad=34 if key else 8, fontsize=16)
    if key:
        axes.legend(
            loc="lower left", bbox_to_anchor=(-0.02, 1.0), ncols=3, frameon=False,
            handlelength=1.4, columnspacing=1.2, fontsize=13,
        )  # fmt: skip


def _made(score: int, par: int | None) -> str:
    return f"{score}" if par is None else f"{score} ({score - par:+d})" if score != par else "par"


def _pattern(axes: Axes, found: ClubPattern, *, small: bool) -> None:
    """Draw a club's dots over the stored ellipses that hold half and nine tenths."""
    from matplotlib.patches import Ellipse

    for scale, style in ((1.177, "-"), (2.146, "--")):  # Rayleigh: 50 % and 90 % of a normal
        axes.add_patch(
            Ellipse(
                (found.lean, 0.0), 2 * scale * found.side, 2 * scale * found.long, fill=False,
                edgecolor="#0072B2", linewidth=2.0, linestyle=style,
            )
        )  # fmt: skip
    axes.axhline(0.0, color=FAINT, linewidth=0.8)
    axes.axvline(0.0, color=FAINT, linewidth=0.8)
    xs, ys = zip(*found.dots, strict=True)
    faces = ["white" if rough else "#E69F00" for rough in found.rough]
    axes.scatter(xs, ys, s=80, c=faces, edgecolor=INK, linewidth=1.4, zorder=3)
    placed = [dot for dot, rough in zip(found.dots, found.rough, strict=True) if not rough]
    if len(placed) >= _FEWEST:  # balls told by their side alone would pull the middle that way
        middle = [sum(axis) / len(placed) for axis in zip(*placed, strict=True)]
        axes.scatter(
            middle[:1], middle[1:], s=190, marker="X", color=INK,
            edgecolor="white", linewidth=1.4, zorder=4,
        )  # fmt: skip
    reach = max(2.3 * found.side, 2.3 * found.long, *(abs(v) for v in (*xs, *ys))) * 1.12
    axes.set_xlim(-reach, reach)
    axes.set_ylim(-reach, reach)
    axes.set_aspect("equal")
    axes.tick_params(labelsize=12 if small else 13)
    drawn, of = len(found.dots), len(found.dots) + found.undrawn
    name = f"{club(found.club).capitalize()}, {found.carry:.0f} {found.unit}"
    axes.set_title(f"{name}\n{drawn} of {of} shots drawn", fontsize=13)
    axes.set_xlabel(f"left  -  right, {found.unit}", fontsize=12)
    axes.set_ylabel(f"short  -  long, {found.unit}", fontsize=12)
