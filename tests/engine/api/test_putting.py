"""Make rates and learned spreads in the player's units, and when a change is suggested."""

import pytest

from engine import PuttResult, ShortGame, putting_lesson, quantity, si
from tests.engine.core.test_learn_putts import played

STORED = ShortGame(0.2, 0.3, 0.1, putt_line_rad=0.034, putt_pace=0.11)


def told(line, pace, n, seed=3):
    return [
        PuttResult(
            quantity(p.length_m, "m"),
            p.holed,
            None if p.left_m is None else quantity(p.left_m, "m"),
        )
        for p in played(line, pace, n, seed)
    ]


def test_a_change_needs_enough_putts_and_a_real_difference():
    assert putting_lesson(told(0.055, 0.11, 20), short=STORED).changed == ()
    assert "putt_line_rad" in putting_lesson(told(0.055, 0.11, 300), short=STORED).changed
    assert "putt_line_rad" not in putting_lesson(told(0.034, 0.11, 300), short=STORED).changed


def test_rates_by_length():
    found = putting_lesson(told(0.034, 0.11, 200), short=STORED)
    assert found.putts == sum(rate.tried for rate in found.rates) == 200
    shares = [rate.expected / rate.tried for rate in found.rates]
    assert shares == sorted(shares, reverse=True)
    assert sum(r.expected for r in found.rates) == pytest.approx(
        sum(r.holed for r in found.rates), rel=0.25
    )
    assert si(found.rates[0].high, "m") == pytest.approx(1.2)


def test_nothing_logged():
    found = putting_lesson([], short=STORED)
    assert (found.putts, found.rates, found.changed) == (0, (), ())
