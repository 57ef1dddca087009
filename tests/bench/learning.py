"""How right the learned numbers are, how honest their intervals, and what they cost.

Simulated players come from ``tests/support/players.py``, which shares no assumption with the
learner. Run from the top of the repository: ``python tests/bench/learning.py [--json]``;
takes about twenty seconds.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from engine.core.belief import belief_of
from engine.core.facts import ClubFact, Facts
from engine.core.learn import learn
from engine.core.seen import Seen
from tests.bench._table import Row, finish
from tests.support.bags import built
from tests.support.players import CLUBS, YD, player, shot

PLAYERS = 500
PLAYED = ("D", "5i", "7i", "9i")
HALF_80 = 1.2816
# Printed tour averages (from memory): carries in yards.
MEN = {"D": 275, "3w": 243, "5w": 230, "4i": 203, "5i": 194, "6i": 183, "7i": 172, "8i": 160,
       "9i": 148, "PW": 136}  # fmt: skip
WOMEN = {"D": 218, "3w": 195, "5w": 185, "4i": 169, "5i": 161, "6i": 152, "7i": 141, "8i": 130,
         "9i": 119, "PW": 107}  # fmt: skip


def simulate(n: int) -> dict[str, float]:
    """Errors after `n` shots of each club played, medians in per cent; share of 80 % held."""
    rng = np.random.default_rng(100 + n)
    learned_err, prior_err, plain_err, held = [], [], [], []
    for _ in range(PLAYERS):
        who = player(rng)
        belief = belief_of(built(who.facts))
        shots: list[Seen] = []
        plain = {}
        for club in PLAYED:
            made = [shot(rng, who, club) for _ in range(n)]
            shots += [s for s, _ in made]
            points = [p for _, p in made if p is not None]
            plain[club] = np.mean(points) if points else np.nan
        learned = learn(belief, shots)
        for club in PLAYED:
            i, truth = belief.names.index(club), who.carry[CLUBS.index(club)] * YD
            learned_err.append(abs(learned.carry_m[i] / truth - 1))
            prior_err.append(abs(belief.carry_m[i] * (1 + belief.offset[i]) / truth - 1))
            plain_err.append(abs(plain[club] / truth - 1))
            held.append(abs(learned.carry_m[i] - truth) < HALF_80 * learned.carry_sd_m[i])
    return {
        "learned": 100 * float(np.median(learned_err)),
        "prior": 100 * float(np.median(prior_err)),
        "plain": 100 * float(np.nanmedian(plain_err)),
        "held": 100 * float(np.mean(held)),
    }


def start_errors() -> float:
    """Median error of the other clubs on the printed rows, from handicap 0 and one carry. [%]"""
    errors = []
    for row in (MEN, WOMEN):
        for known in row:
            if known == "D":
                continue
            facts = Facts(
                handicap=0.0, only=True,
                clubs=tuple(ClubFact(n, y * YD if n == known else None) for n, y in row.items()),
            )  # fmt: skip
            bag = {c.name: c.carry_m / YD for c in built(facts).golfer.clubs}
            errors += [abs(bag[n] / y - 1) for n, y in row.items() if n != known]
    return 100 * float(np.median(errors))


def same_ratio_errors() -> float:
    """Baseline: the other tour's ratios to the known club. [%]"""
    errors = []
    for row, other in ((MEN, WOMEN), (WOMEN, MEN)):
        for known in row:
            if known == "D":
                continue
            errors += [
                abs(row[known] / other[known] * other[n] / y - 1)
                for n, y in row.items()
                if n != known
            ]
    return 100 * float(np.median(errors))


def outlier() -> tuple[float, float]:
    """Yards a carry moves for one 200 among ten of 172: learned, and in the plain mean."""
    belief = belief_of(built(Facts(handicap=12, clubs=(ClubFact("7i", 172 * YD),))))
    ten = [Seen("7i", 171.5 * YD, 172.5 * YD) for _ in range(10)]
    wild = Seen("7i", 199.5 * YD, 200.5 * YD)
    i = belief.names.index("7i")
    moved = learn(belief, [*ten, wild]).carry_m[i] - learn(belief, ten).carry_m[i]
    return abs(moved) / YD, 28 / 11


def cost(n: int, repeats: int) -> float:
    """Least CPU time of a refit from `n` shots over a whole bag. [ms]"""
    rng = np.random.default_rng(7)
    who = player(rng)
    belief = belief_of(built(who.facts))
    shots = [shot(rng, who, CLUBS[k % len(CLUBS)])[0] for k in range(n)]
    best = np.inf
    for _ in range(repeats):
        began = time.process_time()
        learn(belief, shots)
        best = min(best, time.process_time() - began)
    return 1e3 * best


def main() -> int:
    """Measure everything and print the table."""
    rows = []
    for n, goal in ((5, None), (15, 3.0), (40, 2.0)):
        got = simulate(n)
        first = min(got["prior"], got["plain"]) if goal is None else min(goal, got["plain"])
        name = f"carry error after {n} shots, median, against plain mean"
        rows.append(Row(name, got["learned"], first, "%", baseline=got["plain"]))
        if n == 5:
            rows.append(
                Row("the same, against the prior alone", got["learned"], got["prior"], "%",
                    baseline=got["prior"])
            )  # fmt: skip
        rows.append(Row(f"80 % intervals hold, {n} shots", got["held"], 75, "%", better="above"))
        rows.append(Row(f"80 % intervals not too wide, {n} shots", got["held"], 85, "%"))
    moved, plain = outlier()
    rows.append(Row("one 200 among ten of 172 moves the carry", moved, 1.5, "yd", baseline=plain))
    rows.append(
        Row("start bag from one carry, printed rows, median", start_errors(), 6.0, "%",
            baseline=same_ratio_errors())
    )  # fmt: skip
    rows.append(Row("an update with 250 shots logged", cost(250, 7), 10, "ms"))
    rows.append(Row("5,000 shots of a whole bag", cost(5000, 3), 300, "ms"))
    return finish("Learning", rows, sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
