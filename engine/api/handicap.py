"""What a handicap gives on each hole, and what a score is worth with it."""

from engine.core.handicap import (
    course_handicap,
    net_double_bogey,
    playing_handicap,
    score_differential,
    stableford_points,
    strokes_received,
)

__all__ = [
    "course_handicap",
    "net_double_bogey",
    "playing_handicap",
    "score_differential",
    "stableford_points",
    "strokes_received",
]
