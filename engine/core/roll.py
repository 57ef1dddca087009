"""How far and along what curve does a rolling ball run on a sloping green?"""

from __future__ import annotations

# A Stimpmeter lets a ball go at 6.00 ft/s (USGA Stimpmeter booklet). [m/s]
STIMP_RELEASE_MPS = 6.00 * 0.3048


def green_deceleration_mps2(*, stimp_m: float) -> float:
    """Deceleration of a ball rolling on a level green of this reading.

    Parameters
    ----------
    stimp_m : float
        Stimpmeter reading, the length of roll on level ground. [m]

    Returns
    -------
    float
        Deceleration, release speed squared over twice the reading. [m s-2]
    """
    return STIMP_RELEASE_MPS**2 / (2.0 * stimp_m)
