"""The files that go with a reply: pictures and the report, drawn from its logged answers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from bot.model.review import ReviewShown
from bot.wording.base import Style
from bot.wording.pictures import clubs_picture, holes_picture, parts_picture
from bot.wording.report import report_page


class Attachment(NamedTuple):
    """A file by its name, which says its kind."""

    name: str
    body: bytes


def attachment(name: str, answers: Sequence[Mapping[str, Any]], style: Style) -> Attachment | None:
    """Return the file of that name for a message's answers; None where nothing can be drawn."""
    found = next((a for a in answers if a.get("kind") == "review"), None)
    if found is None:
        return None
    review = ReviewShown.model_validate(found)
    match name:
        case "parts.png":
            body: bytes | None = parts_picture(review)
        case "holes.png":
            body = holes_picture(review)
        case "clubs.png":
            body = clubs_picture(review)
        case "report.html":
            body = report_page(review, style, player=review.player)
        case _:
            return None
    return None if body is None else Attachment(name, body)
