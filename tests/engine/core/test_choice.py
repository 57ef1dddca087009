"""Choice of swing and aim against a plain simulation, exact mirrors and laws of the trade."""

import itertools

import numpy as np
import pytest

from engine.core.choice import Decider
from engine.core.strokes import MOST, StrokeTable
from engine.errors import BadTable
from tests.support.brute import simulate
from tests.support.golfers import BOGEY, bogey, golfer, plain_pattern, scratch, solved
from tests.support.scenes import approach, bunker, out, tee_shot, trees, water


@pytest.fixture(scope="module")
def fader():
    return bogey(miss=1, curve_deg=2.0)


@pytest.fixture(scope="module")
def table(fader):
    return solved(fader)


def decide(player, scene, table):
    names, pattern = plain_pattern(player, lie=scene.lie)
    return names, Decider(scene=scene, pattern=pattern, table=table)


@pytest.mark.parametrize(
    "scene",
    [
        approach(150),
        approach(150, water(1, 14)),
        approach(150, water(1, 12, guess=6, start=110, end=180)),
        approach(150, out(1, 22)),
        tee_shot(400, out(1, 25), trees(-1, 30)),
        tee_shot(415, trees(1, 20), turn_deg=35),
    ],
    ids=["plain", "water", "guessed water", "out", "tee", "dogleg"],
)
def test_strokes_of_an_action_agree_with_simulation(fader, table, scene):
    _, found = decide(fader, scene, table)
    _, pattern = plain_pattern(fader, lie=scene.lie)
    best = found.leading(1)[0]
    mean, error = simulate(
        scene=scene, table=table, pattern=pattern, swing=best.swing, aim_rad=best.start_rad,
        count=60_000,
    )  # fmt: skip
    assert abs(best.strokes - mean) < 0.003 + 3.5 * error


@pytest.mark.parametrize(
    "scene", [approach(150, water(1, 14), bunker(140, -13), pin_side=-6),
              tee_shot(415, trees(1, 20), turn_deg=35)],
)  # fmt: skip
def test_a_mirrored_question_has_the_mirrored_answer_to_the_bit(scene):
    right = scratch(miss=1, curve_deg=2.0, lean_deg=0.5)
    left = scratch(miss=-1, curve_deg=-2.0, lean_deg=-0.5, hand=-1)
    _, one = decide(right, scene, solved(right))
    _, two = decide(left, scene.mirrored(), solved(left))
    assert np.array_equal(one.strokes, two.strokes)
    assert np.array_equal(one.start_rad, -two.start_rad)
    a, b = one.leading(1)[0], two.leading(1)[0]
    assert (a.swing, a.strokes, a.chance, a.left_m) == (b.swing, b.strokes, b.chance, b.left_m)
    assert a.finish_m == (b.finish_m[0], -b.finish_m[1])


def test_trouble_on_the_right_moves_the_aim_left(fader, table):
    _, plain = decide(fader, approach(150), table)
    _, wet = decide(fader, approach(150, water(1, 14)), table)
    swing = int(np.argmin(wet.strokes))
    assert wet.start_rad[swing] < plain.start_rad[swing] - 0.01
    assert wet.strokes[swing] > plain.strokes[swing]


@pytest.mark.parametrize(
    "scene",
    [
        approach(150),
        approach(150, out(1, 12), out(-1, 12)),
        approach(140, bunker(130, -13), bunker(140, 16)),
        approach(170, water(-1, 18), pin_side=-7),
        tee_shot(400, out(1, 25), trees(-1, 30)),
        tee_shot(400, bunker(185, -18), water(1, 30, start=150, end=230)),
    ],
    ids=["plain", "out on both sides", "bunkers", "tucked", "tee out", "tee bunker"],
)
@pytest.mark.parametrize("weight", [0.0, 0.5])
def test_a_swing_never_costs_less_than_its_bound(fader, table, scene, weight):
    _, pattern = plain_pattern(fader, lie=scene.lie)
    found = Decider(scene=scene, pattern=pattern, table=table, too_many=5, weight=weight)
    assert np.all(found.at_least <= found.strokes)
    # A bound that is true but far off would price every swing: most are told apart by it. It
    # takes the straightest club's scatter for all, which is far from true only between walls.
    hopeless = found.at_least > found.strokes.min()
    told_apart = np.mean(hopeless[found.strokes > found.strokes.min() + 0.3])
    walls = sum(t.kind == "out" for t in scene.trouble) > 1
    assert told_apart > (0.35 if walls else 0.7)


def test_the_best_of_some_swings_is_the_best_of_all_priced(fader, table):
    names, found = decide(fader, approach(150, out(1, 22), bunker(140, -13)), table)
    added = 0.03 * np.arange(len(names) % 7, len(names) % 7 + len(names))
    _, priced = decide(fader, approach(150, out(1, 22), bunker(140, -13)), table)
    total = priced.strokes + added
    among = np.arange(len(names)) % 2 == 1
    assert found.best(added=added) == (total.min(), int(np.argmin(total)))
    odd = np.where(among, total, np.inf)
    assert found.best(added=added, among=among) == (odd.min(), int(np.argmin(odd)))
    near = [s for _, s in found.within(total.min() + 0.1, added=added)]
    assert near == [int(i) for i in np.argsort(total) if total[i] <= total.min() + 0.1]


def test_chances_add_up(fader, table):
    _, found = decide(fader, tee_shot(400, out(1, 25), trees(-1, 30)), table)
    best = found.option(found.leading(1)[0].swing, tails=range(MOST))
    assert sum(best.chance.values()) == pytest.approx(1.0, abs=2e-3)
    assert best.out == pytest.approx(best.chance["out"], abs=1e-9)
    over = np.array([best.over[k] for k in range(MOST)])
    assert np.all(np.diff(over) <= 1e-9)
    # Expected strokes are the sum of the chances of needing more than 0, 1, 2 ... strokes.
    assert over.sum() == pytest.approx(best.strokes, abs=0.02)


def test_a_tighter_player_with_the_same_clubs_never_needs_more():
    def player(scale: float):
        return golfer(
            BOGEY, long=0.085 * scale, side_deg=5.2 * scale, mishit=0.14 * scale,
            chip=0.2 * scale, sand=0.3 * scale, chip_mishit=0.1 * scale, putt_deg=2 * scale,
            pace=0.15 * scale,
        )  # fmt: skip

    tables = [solved(player(scale)) for scale in (0.6, 0.8, 1.0)]
    for better, worse in itertools.pairwise(tables):
        assert np.all(better.strokes <= worse.strokes + 1e-6)
        assert np.all(better.putts <= worse.putts + 1e-3)


def test_table_goes_to_bytes_and_back(table):
    again = StrokeTable.from_bytes(table.to_bytes())
    assert np.array_equal(again.strokes, table.strokes)
    assert np.array_equal(again.putts_over, table.putts_over)


@pytest.mark.parametrize("spoil", [b"", b"12345", b"\0" * 800])
def test_bytes_of_something_else_are_refused(spoil):
    with pytest.raises(BadTable):
        StrokeTable.from_bytes(spoil)


def test_cut_bytes_are_refused(table):
    with pytest.raises(BadTable):
        StrokeTable.from_bytes(table.to_bytes()[:-8])
