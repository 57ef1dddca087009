"""Weather reports in the METAR code, read as the code says: WMO-No. 306, FM 15 METAR.

The groups follow the code form; stations are invented.
"""

from datetime import UTC, datetime

import pytest

from bot.turn.metar import read_metar

AT = datetime(2026, 6, 5, 20, tzinfo=UTC)


@pytest.mark.parametrize(
    ("report", "from_deg", "speed", "unit", "gust", "point"),
    [
        ("XSMA 051950Z 24012KT 9999 FEW030 14/08 Q1016", 240.0, 12, "kn", None, "WSW"),
        ("METAR XSMA 051950Z 24012G25KT 9999 -RA 14/08 Q1016", 240.0, 12, "kn", 25, "WSW"),
        ("XSMA 051950Z 12006MPS 090V150 9999 14/08 Q1016 NOSIG", 120.0, 6, "m/s", None, "ESE"),
        ("XSMA 051950Z AUTO 00000KT CAVOK 14/08 Q1016", None, 0, "kn", None, None),
        ("XSMA 051950Z VRB03KT CAVOK 14/08 Q1016", None, 3, "kn", None, None),
        ("XSMA 051950Z 35008KT 10SM CLR 14/08 A3000 RMK AO2", 350.0, 8, "kn", None, "N"),
    ],
)
def test_wind(report, from_deg, speed, unit, gust, point) -> None:
    read = read_metar(report, AT)
    assert read is not None
    assert read.from_deg == from_deg
    assert read.wind.speed.value == pytest.approx(speed)
    assert read.wind.speed.unit == unit
    assert (read.wind.gust and read.wind.gust.value) == (gust and pytest.approx(gust))
    assert read.wind.compass == point


def test_air() -> None:
    read = read_metar("XSMA 051950Z 24012KT 9999 M02/M05 Q0998", AT)
    assert read.air.temperature.value == -2.0
    assert read.air.pressure.value == 998.0
    # 29.92 inches of mercury is the standard atmosphere's 1013.25 hPa (ISO 2533).
    inches = read_metar("XSMA 051950Z 24012KT 10SM CLR 14/08 A2992", AT)
    assert inches.air.pressure.value == pytest.approx(1013.25, abs=0.1)
    # Saturated air has its dew point at its own temperature.
    assert read_metar("XSMA 051950Z 24012KT 9999 14/14 Q0998", AT).air.humidity.value == 100.0


@pytest.mark.parametrize("report", ["", "hello", "XSMA 051950Z", "XSMA 999999Z 24012KT", "\x00"])
def test_what_is_no_report(report: str) -> None:
    assert read_metar(report, AT) is None
