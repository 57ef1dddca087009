"""What a handicap gives: strokes received, net score, points, and the differential of a score."""

from fractions import Fraction
from math import floor

from engine.errors import OutOfRange

STANDARD_SLOPE = 113  # Rules of Handicapping, definition of Slope Rating
_SLOPES = (55, 155)  # Rules of Handicapping, definition of Slope Rating
_PAR_3_M, _PAR_4_M = 230.0, 436.0  # where the par of a length changes: `par_of_length`
_PLUS, _MOST = -10.0, 54.0  # 54.0 is the highest Handicap Index, Rules of Handicapping 5.3


def course_handicap(
    *, index: float, slope: float, course_rating: float, par: int, holes: int = 18
) -> int:
    """Handicap of a player for a set of tees, rounded to whole strokes.

    Parameters
    ----------
    index : float
        Handicap Index; a plus handicap is negative. [-]
    slope : float
        Slope Rating of the holes played, 55 to 155. [-]
    course_rating : float
        Course Rating of the holes played. [strokes]
    par : int
        Par of the holes played. [strokes]
    holes : int
        18, or 9: then half the index, to one decimal, is used. [-]

    Returns
    -------
    int
        Course Handicap; negative when strokes are given back. [strokes]

    Raises
    ------
    OutOfRange
        An index outside -10 to 54, a slope outside 55 to 155, holes not 9 or 18.

    References
    ----------
    .. [1] The R&A and USGA, "Rules of Handicapping" (2024), Rules 6.1a and 6.1b.
    """
    _check("index", index, _PLUS, _MOST)
    _check("slope", slope, *_SLOPES)
    _check_holes(holes)
    exact = Fraction(str(index))
    if holes == 9:
        exact = Fraction(_half_up(exact / 2 * 10), 10)
    ratings = Fraction(str(course_rating)) - par
    return _half_up(exact * Fraction(str(slope)) / STANDARD_SLOPE + ratings)


def playing_handicap(*, course_handicap: int, allowance: float) -> int:
    """Handicap for a format of play, rounded to whole strokes.

    Parameters
    ----------
    course_handicap : int
        Course Handicap. [strokes]
    allowance : float
        Share of it the format allows, such as 0.95. [-]

    Returns
    -------
    int
        Playing Handicap. [strokes]

    Raises
    ------
    OutOfRange
        An allowance outside 0 to 1.

    References
    ----------
    .. [1] The R&A and USGA, "Rules of Handicapping" (2024), Rule 6.2.
    """
    _check("allowance", allowance, 0, 1)
    return _half_up(course_handicap * Fraction(str(allowance)))


def strokes_received(*, handicap: int, stroke_index: int, holes: int = 18) -> int:
    """Strokes a player receives on one hole.

    Parameters
    ----------
    handicap : int
        Course or Playing Handicap; negative gives strokes back. [strokes]
    stroke_index : int
        Rank of the hole, 1 the first on which a stroke is taken. [-]
    holes : int
        How many holes are ranked: 18, or 9. [-]

    Returns
    -------
    int
        Strokes received, negative when given back. [strokes]

    Raises
    ------
    OutOfRange
        A stroke index outside 1 to `holes`, or holes not 9 or 18.

    Notes
    -----
    Strokes are given round by round in the order of the stroke index; a plus handicap gives
    them back from the highest index down.

    References
    ----------
    .. [1] The R&A and USGA, "Rules of Handicapping" (2024), Appendix E.
    """
    _check_holes(holes)
    _check("stroke_index", stroke_index, 1, holes)
    rounds, rest = divmod(abs(handicap), holes)
    if handicap >= 0:
        return rounds + (stroke_index <= rest)
    return -(rounds + (stroke_index > holes - rest))


def net_double_bogey(*, par: int, received: int) -> int:
    """Highest score of a hole that counts towards a handicap.

    Parameters
    ----------
    par : int
        Par of the hole. [strokes]
    received : int
        Strokes received on it, negative when given back. [strokes]

    Returns
    -------
    int
        Net double bogey. [strokes]

    References
    ----------
    .. [1] The R&A and USGA, "Rules of Handicapping" (2024), Rule 3.1b.
    """
    return par + 2 + received


def stableford_points(*, par: int, received: int, strokes: int | None) -> int:
    """Points of a hole in Stableford.

    Parameters
    ----------
    par : int
        Par of the hole, the fixed score. [strokes]
    received : int
        Strokes received on it, negative when given back. [strokes]
    strokes : int or None
        Strokes taken; None where the ball was picked up. [strokes]

    Returns
    -------
    int
        Points, 0 where nothing was returned or the net score is two or more over. [-]

    References
    ----------
    .. [1] The R&A and USGA, "Rules of Golf" (2023), Rule 21.1b.
    """
    return 0 if strokes is None else max(0, 2 + par - (strokes - received))


def score_differential(
    *, adjusted_gross: int, slope: float, course_rating: float, pcc: float = 0.0
) -> float:
    """How a score of 18 holes measures against the tees, to one decimal.

    Parameters
    ----------
    adjusted_gross : int
        Score with no hole above net double bogey. [strokes]
    slope : float
        Slope Rating, 55 to 155. [-]
    course_rating : float
        Course Rating. [strokes]
    pcc : float
        Adjustment for the day's playing conditions, -1 to 3. [strokes]

    Returns
    -------
    float
        Score Differential, one decimal. [strokes]

    Raises
    ------
    OutOfRange
        A slope outside 55 to 155, or an adjustment outside -1 to 3.

    References
    ----------
    .. [1] The R&A and USGA, "Rules of Handicapping" (2024), Rules 5.1a and 5.6.
    """
    _check("slope", slope, *_SLOPES)
    _check("pcc", pcc, -1, 3)
    over = adjusted_gross - Fraction(str(course_rating)) - Fraction(str(pcc))
    return _half_up(over * STANDARD_SLOPE / Fraction(str(slope)) * 10) / 10


def par_of_length(*, length_m: float) -> int:
    """Return the par that a hole of a length has, where none was told.

    Parameters
    ----------
    length_m : float
        Length of the hole along its line. [m]

    Returns
    -------
    int
        3, 4 or 5.

    Notes
    -----
    The published men's lengths overlap; the par changes in the middle of where they do.

    References
    ----------
    .. [1] Rules of Handicapping, appendix F (from memory).
    """
    return 3 if length_m < _PAR_3_M else 4 if length_m < _PAR_4_M else 5


def _half_up(value: Fraction) -> int:
    # 0.5 rounds up, towards plus infinity: -1.5 becomes -1 (Rules of Handicapping, rounding).
    return floor(value + Fraction(1, 2))


def _check(name: str, value: float, low: float, high: float) -> None:
    if not low <= value <= high:
        raise OutOfRange(name, value, low, high, "1")


def _check_holes(holes: int) -> None:
    if holes not in (9, 18):
        raise OutOfRange("holes", holes, 9, 18, "1")
