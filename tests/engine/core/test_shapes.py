"""Is the way over a green to its pin as long as geometry says, from anywhere?"""

import numpy as np
import pytest

from engine.core.shapes import Oval, green_before_pin


@pytest.mark.parametrize("dtype", [np.float32, np.float64])
@pytest.mark.filterwarnings("error")
def test_the_way_over_the_green_is_that_of_geometry(dtype: type) -> None:
    """By hand: an oval of half axes 12 and 9 m round the pin; short, beside, on it, at the pin."""
    x = np.array([80.0, 100.0, 95.0, 100.0], dtype)
    y = np.array([0.0, 30.0, 0.0, 0.0], dtype)
    way = green_before_pin(
        shape=Oval(100.0, 0.0, 12.0, 9.0), pin_m=(100.0, 0.0), x_m=x, y_m=y,
        away_m=np.hypot(x - 100.0, y),
    )  # fmt: skip
    assert way == pytest.approx([12.0, 9.0, 5.0, 0.0], abs=1e-4)
