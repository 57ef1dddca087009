"""Where did the strokes go: into the choice, into the swing, or into penalties?

A leg is one stroke, or several that nothing is known between, from a place worth ``before``
expected strokes to a place worth ``after``. The best on offer there is what ``before`` counts,
so the three parts of a leg are

- choice: what was played was expected to take, less the best on offer;
- execution: strokes made and still to be expected, less what was played was expected to take;
- penalty: penalty strokes.

Over a hole each ``after`` is the next ``before``, the sum telescopes, and the parts of all legs
add up to the score less the expectation on the tee, whatever the expectations are [1]_.

References
----------
.. [1] M. Broadie, "Assessing golfer performance on the PGA Tour", Interfaces 42 (2012)
   146-165: strokes gained is the fall in expected strokes less the strokes made.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

F64 = npt.NDArray[np.float64]


class Parts(NamedTuple):
    """Strokes lost, positive is lost; each (n,)."""

    choice: F64
    execution: F64
    penalty: F64

    @property
    def total(self) -> F64:
        """All three together."""
        return self.choice + self.execution + self.penalty


def split(*, before: F64, played: F64, after: F64, made: F64, penalty: F64) -> Parts:
    """Return what was lost by choice, in execution and in penalties.

    Parameters
    ----------
    before : ndarray (n,)
        Expected strokes to hole out with the best on offer. [-]
    played : ndarray (n,)
        The same with the swing and aim that were played. [-]
    after : ndarray (n,)
        Expected strokes from where the ball came to, 0 in the hole. [-]
    made : ndarray (n,)
        Strokes made, penalties not counted. [-]
    penalty : ndarray (n,)
        Penalty strokes. [-]

    Returns
    -------
    Parts
        Strokes lost; ``before + total - after`` is ``made + penalty``.
    """
    return Parts(
        choice=np.asarray(played - before, dtype=np.float64),
        execution=np.asarray(made + after - played, dtype=np.float64),
        penalty=np.asarray(penalty, dtype=np.float64),
    )
