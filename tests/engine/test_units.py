"""The closed list of units against the unit library's own file of all units."""

import pint
import pytest

from engine.units import _UNIT_OF, quantity, registry, si

# The reference: the definitions that ship with pint, which follow NIST SP 811 and the SI.
EVERYTHING = pint.UnitRegistry(cache_folder=None)


@pytest.mark.parametrize("word", _UNIT_OF)
def test_a_unit_is_what_the_reference_says(word: str) -> None:
    ours = quantity(37.5, word).to_base_units()
    theirs = EVERYTHING.Quantity(37.5, _UNIT_OF[word]).to(str(ours.units))
    assert ours.magnitude == pytest.approx(theirs.magnitude, rel=1e-12)


@pytest.mark.parametrize("word", _UNIT_OF)
def test_there_and_back(word: str) -> None:
    assert si(quantity(37.5, word), word) == pytest.approx(37.5, rel=1e-12)


def test_other_dimensions_and_words_are_refused() -> None:
    with pytest.raises(pint.DimensionalityError):
        si(quantity(1.0, "yd"), "s")
    with pytest.raises(KeyError):
        quantity(1.0, "furlong")
    with pytest.raises(pint.UndefinedUnitError):
        registry().Unit("furlong")
