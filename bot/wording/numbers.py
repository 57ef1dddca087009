"""How a number is said: the only place where anything is rounded."""

from __future__ import annotations

from bot.model.measure import Measure
from bot.wording.base import Style

_SHOWN = {"degF": "F", "degC": "C", "%": "%"}


def length(measure: Measure, style: Style) -> str:
    """Return a length in the unit it carries; the player's own unit goes without saying.

    >>> length(Measure(value=160.4, unit="yd"), Style())
    '160'
    >>> length(Measure(value=160.4, unit="m"), Style())
    '160 m'
    """
    usual = "m" if style.units == "metric" else "yd"
    unit = measure.unit or usual
    return f"{measure.value:.0f}" if unit == usual else f"{measure.value:.0f} {unit}"


def temperature(measure: Measure, style: Style) -> str:
    """Return a temperature in whole degrees with its letter.

    >>> temperature(Measure(value=108.9, unit="degF"), Style())
    '109F'
    """
    unit = measure.unit or ("degC" if style.units == "metric" else "degF")
    return f"{measure.value:.0f}{_SHOWN[unit]}"


def way(measure: Measure) -> str:
    """Return miles or kilometres to a half.

    >>> way(Measure(value=2.13, unit="mi"))
    '2 mi'
    """
    half = round(2 * measure.value) / 2
    return f"{half:g} {measure.unit}"


def rough(value: float) -> str:
    """Return a limit in whole numbers, or to one place below ten.

    >>> rough(319.6), rough(4.0), rough(0.25)
    ('320', '4', '0.2')
    """
    return f"{value:.0f}" if abs(value) >= 10.0 else f"{round(value, 1):g}"


def strokes(value: float) -> str:
    """Return expected strokes to one decimal.

    >>> strokes(3.84)
    '3.8'
    """
    return f"{value:.1f}"


def hundredths(value: float) -> str:
    """Return expected strokes to compare near options.

    >>> hundredths(2.384)
    '2.38'
    """
    return f"{value:.2f}"


def lost(value: float, *, fine: bool = False) -> str:
    """Return strokes lost (+) or gained (-), to one decimal, or two where fine.

    >>> lost(1.26), lost(-0.04), lost(0.034, fine=True)
    ('+1.3', '0.0', '+0.03')
    """
    places = 2 if fine else 1
    text = f"{value:+.{places}f}"
    return text[1:] if float(text) == 0.0 else text


def level(value: float) -> str:
    """Return a handicap, a score or a count, with a decimal only where it has one.

    >>> level(18.0), level(4.35)
    ('18', '4.3')
    """
    return f"{value:.0f}" if abs(value - round(value)) < 0.05 else f"{value:.1f}"


def share(value: float) -> str:
    """Return a share of one in whole per cent.

    >>> share(0.086)
    '9%'
    """
    return f"{100 * value:.0f}%"


def degrees(value: float) -> str:
    """Return an angle to half a degree.

    >>> degrees(4.4), degrees(6.0)
    ('4.5 deg', '6 deg')
    """
    half = round(2 * value) / 2
    return f"{half:.0f} deg" if half == round(half) else f"{half:.1f} deg"


def fine_degrees(value: float) -> str:
    """Return a small angle to a tenth of a degree.

    >>> fine_degrees(1.93)
    '1.9 deg'
    """
    return f"{value:.1f} deg"


def chance(share: float) -> str:
    """Return a chance as a percentage, or as one in so many where it is small.

    >>> chance(0.384), chance(0.083), chance(0.9999), chance(0.0001)
    ('38%', '1 in 12', '99%', 'under 1 in 100')
    """
    if share >= 0.175:
        return f"{min(share, 0.99):.0%}"
    return one_in(share)


def roll(measure: Measure) -> str:
    """Return the length of a putt: whole feet, metres to the decimal while short.

    >>> roll(Measure(value=24.3, unit="ft")), roll(Measure(value=3.42, unit="m"))
    ('24 ft', '3.4 m')
    """
    short = measure.unit == "m" and measure.value < 10.0
    return f"{measure.value:.{1 if short else 0}f} {measure.unit}"


def grade(measure: Measure) -> str:
    """Return the size of a slope in per cent, to the half.

    >>> grade(Measure(value=-2.1, unit="%")), grade(Measure(value=1.4, unit="%"))
    ('2%', '1.5%')
    """
    return f"{round(2.0 * abs(measure.value)) / 2.0:g}%"


def green_speed(stimp_ft: float) -> str:
    """Return a Stimpmeter reading to the half foot.

    >>> green_speed(9.5), green_speed(11.0)
    ('9.5', '11')
    """
    return f"{round(2.0 * stimp_ft) / 2.0:g}"


_HALVES = {
    1: "half a {}", 2: "a {}", 3: "a {} and a half", 4: "two {}s", 5: "two and a half {}s",
    6: "three {}s", 7: "three and a half {}s", 8: "four {}s", 9: "four and a half {}s",
    10: "five {}s",
}  # fmt: skip


def halves(value: float, thing: str) -> str:
    """Return how many of a thing in words, to the half, from half a one to five.

    >>> halves(1.6, "cup"), halves(2.1, "ball"), halves(0.4, "ball")
    ('a cup and a half', 'two balls', 'half a ball')
    """
    return _HALVES[min(max(round(2.0 * value), 1), max(_HALVES))].format(thing)


def factor(value: float) -> str:
    """Return a factor to one decimal.

    >>> factor(0.82)
    '0.8'
    """
    return f"{value:.1f}"


def hundreds(value: float) -> str:
    """Return the length of a course to the hundred.

    >>> hundreds(6401.0)
    '6400'
    """
    return f"{round(value / 100.0) * 100}"


def whole(measure: Measure) -> int:
    """Return the number a caddie would say."""
    return round(measure.value)


def signed(measure: Measure) -> str:
    """Return a part of a sum, with its sign.

    >>> signed(Measure(value=14.2, unit="yd"))
    '+14'
    """
    return f"{whole(measure):+d}"


def one_in(chance: float) -> str:
    """Return a chance as an honest fraction; small ones do not pretend.

    >>> one_in(0.31), one_in(0.08), one_in(0.013), one_in(0.001)
    ('1 in 3', '1 in 12', '1 in 80', 'under 1 in 100')
    """
    if chance < 0.01:
        return "under 1 in 100"
    if chance > 0.6:
        return "more often than not" if chance < 0.9 else "nearly always"
    n = 1.0 / chance
    if n < 2.5:
        return "1 in 2"
    rounded = round(n) if n < 13 else 5 * round(n / 5) if n < 40 else 10 * round(n / 10)
    return f"1 in {rounded}"
