"""A round by the Rules never leaks, and danger is heard first and only where it is."""

import random

from bot.model import reading as reading_model
from bot.text.read import read
from tests.support.leaks import Table, dangers, kinds, leak, ordinary, phrases, talk

SEED = 20261125
OWN = {"bag", "card", "standings", "score_kept", "strokes_received", "on_hole", "round_over"}


def test_no_reply_of_a_round_by_the_rules_carries_advice_or_tells_two_bags_apart() -> None:
    # Rules of Golf 2023, 4.3a and 10.2a. The whole corpus once; tests/bench/rules.py has more.
    texts = [text for text, _ in phrases() if not _is(text, "lightning")]
    random.Random(SEED).shuffle(texts)
    rules, twin = Table(competition=True), Table(competition=True, change=True)
    found = []
    for said in talk(texts[:200], 1):
        if rules.over() or twin.over():
            rules.renew()
            twin.renew()
        got, other = rules.hear(said), twin.hear(said)
        why = leak(said, got, None)
        if why is not None or "broken" in kinds(got):
            found.append((why, said.text, got.reply.lines))
        if not OWN & set(kinds(got)) and got.reply != other.reply:
            found.append(("apart", said.text, got.reply.lines))
    assert found == []


def test_every_danger_is_heard() -> None:
    missed = [(text, danger) for text, danger in dangers(SEED) if not _is(text, danger)]
    assert missed == []


def test_ordinary_golf_raises_no_alarm() -> None:
    texts = ordinary()
    false = [t for t in texts if any(isinstance(a, reading_model.Safety) for a in read(t).acts)]
    assert len(false) <= len(texts) / 500, false


def _is(text: str, danger: str) -> bool:
    acts = read(text).acts
    return any(isinstance(a, reading_model.Safety) and a.danger == danger for a in acts)
