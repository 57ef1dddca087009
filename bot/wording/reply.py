"""Which of a message's answers are said, in what order, within the two lines."""

from __future__ import annotations

from collections.abc import Sequence

from bot.model.answer import Answer
from bot.model.message import Reply
from bot.wording.base import WIDTH, Style, word

ISOLATE, END_ISOLATE = "\u2068", "\u2069"  # around a name that runs from right to left


def reply(answers: Sequence[Answer], style: Style) -> Reply:
    """Word the most urgent answer; add another where a line is free, or its tail where it fits."""
    if not answers:
        return Reply(lines=())
    ranked = sorted(answers, key=lambda a: -a.urgency)
    first = word(ranked[0], style)
    lines = list(first.lines)
    for other in ranked[1:]:
        more = word(other, style)
        if len(lines) < 2:
            lines.extend(more.lines[: 2 - len(lines)])
        elif more.tail and len(lines) == 2:
            _append(lines, more.tail)
    if lines:
        lines[0] = _headed(lines[0], style)
    return Reply(lines=tuple(lines), buttons=first.buttons, attached=first.attached)


def _append(lines: list[str], tail: str) -> None:
    """Put a tail after the last line it fits on, if there is one."""
    for at in (1, 0):
        if len(lines[at]) + 1 + len(tail) <= WIDTH:
            lines[at] = f"{lines[at]} {tail}"
            return


def _headed(line: str, style: Style) -> str:
    """Put before the first line whom it is for, unless it says so itself."""
    about = style.about
    if about and about not in line:
        whole = f"For {about}"
        return _named(whole if len(whole) + 2 + len(line) <= WIDTH else about, line)
    return _named(style.name, line) if style.name else line


def _named(name: str, line: str) -> str:
    """Put a name before the line where both fit; a long name is cut, never the advice."""
    room = WIDTH - len(line) - 2
    if room < 1:
        return line
    cut = " ".join(name.split())[:room]
    if ISOLATE in cut and END_ISOLATE not in cut:
        cut = cut[:-1] + END_ISOLATE
    return f"{cut}: {line}"
