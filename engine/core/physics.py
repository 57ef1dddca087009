"""Which constants does the engine's physics run on?"""

from __future__ import annotations

from dataclasses import dataclass

from engine.core.aero import Ball
from engine.core.landing import Ground
from engine.core.lie import LieRule
from engine.core.swing import SwingRule, TourRow


@dataclass(frozen=True, slots=True)
class Physics:
    """Everything read from data files, handed to the core as one argument.

    Attributes
    ----------
    ball : Ball
        Drag and lift law.
    tour : tuple of TourRow
        Launch of a full swing by loft.
    swings : tuple of SwingRule
        The kinds of swing, full first.
    lies : tuple of LieRule
        What each lie does.
    grounds : tuple of Ground
        What each turf does.
    """

    ball: Ball
    tour: tuple[TourRow, ...]
    swings: tuple[SwingRule, ...]
    lies: tuple[LieRule, ...]
    grounds: tuple[Ground, ...]
