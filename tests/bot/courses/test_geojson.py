"""An invented map, laid out with the radii of curvature of the WGS84 ellipsoid."""

import json
import math

import pytest

from bot.courses import BadCourse, read_extract

# WGS84 defining values: semi-major axis 6 378 137 m, flattening 1/298.257223563
# (NIMA TR8350.2, third edition, table 3.1). Meridian and prime-vertical radii are textbook.
A_M, F = 6_378_137.0, 1.0 / 298.257223563
LAT, LON = 52.9, -3.3
_E2 = F * (2.0 - F)
_W2 = 1.0 - _E2 * math.sin(math.radians(LAT)) ** 2
MERIDIAN_M = A_M * (1.0 - _E2) / _W2**1.5
PRIME_M = A_M / math.sqrt(_W2)


def place(east: float, north: float) -> list[float]:
    lon = LON + math.degrees(east / (PRIME_M * math.cos(math.radians(LAT))))
    return [lon, LAT + math.degrees(north / MERIDIAN_M)]


def feature(kind: str, points: list[tuple[float, float]], **tags: str) -> dict[str, object]:
    at = [place(*p) for p in points]
    coordinates = {"LineString": at, "Polygon": [[*at, at[0]]], "Point": at[0]}[kind]
    return {
        "type": "Feature",
        "properties": tags,
        "geometry": {"type": kind, "coordinates": coordinates},
    }


def box(east: float, north: float, half: float) -> list[tuple[float, float]]:
    return [
        (east - half, north - half),
        (east + half, north - half),
        (east + half, north + half),
        (east - half, north + half),
    ]


# A hole that runs 220 m north and then 150 m north-east, water right of the bend.
LINE = [(0.0, 0.0), (0.0, 220.0), (106.066, 326.066)]
HOLE = feature("LineString", LINE, golf="hole", ref="4", par="4", handicap="7", dist="370")
GREEN = feature("Polygon", box(106.066, 326.066, 12.0), golf="green")
WATER = feature("Polygon", box(45.0, 180.0, 15.0), natural="water")
SAND = feature("Polygon", box(-25.0, 210.0, 6.0), golf="bunker")
CLUB = feature("Polygon", box(50.0, 150.0, 900.0), leisure="golf_course", name="Marram Point")
ELSEWHERE = feature("Polygon", box(600.0, 100.0, 20.0), golf="bunker")


def extract(*features: dict[str, object], **options: str):
    text = json.dumps({"type": "FeatureCollection", "features": list(features)})
    return read_extract(text, owner="me", **options)


def test_lengths_and_bearings_are_those_of_the_ellipsoid() -> None:
    course, problems = extract(HOLE, GREEN, WATER, SAND, CLUB, ELSEWHERE)
    assert course.name == "Marram Point"
    note = course.holes[4]
    assert note.hole.length.unit == "m"
    assert note.hole.length.value == pytest.approx(370.0, abs=0.1)
    assert note.hole.bearing_deg == pytest.approx(0.0, abs=0.1)
    assert (note.hole.dogleg, note.hole.par, note.hole.stroke_index) == ("right", 4, 7)
    assert note.hole.dogleg_at.value == pytest.approx(220.0, abs=0.1)
    assert note.turn_deg == pytest.approx(45.0, abs=0.1)
    assert [str(p) for p in problems if p.hole] == [
        "hole 4: no fairway on the map: a usual width is taken",
    ]


def test_trouble_comes_with_side_and_distances() -> None:
    course, _ = extract(HOLE, GREEN, WATER, SAND, CLUB, ELSEWHERE)
    sand, water = sorted(course.holes[4].map.hazards, key=lambda h: h.kind)
    assert (sand.kind, sand.side) == ("bunker", "left")
    assert sand.start.value == pytest.approx(204.0, abs=0.2)
    assert sand.end.value == pytest.approx(216.0, abs=0.2)
    assert sand.gap.value == pytest.approx(19.0, abs=0.2)
    assert (water.kind, water.side) == ("water", "right")
    assert water.start.value == pytest.approx(165.0, abs=0.2)
    assert len(course.holes[4].map.grounds) == 3  # the bunker far away is not this hole's


def test_a_line_drawn_the_wrong_way_is_turned_round() -> None:
    back = feature("LineString", LINE[::-1], golf="hole", ref="4", par="4", handicap="7")
    course, problems = extract(back, GREEN, feature("Polygon", box(0, -90, 9), golf="green"), CLUB)
    assert any("turned round" in str(p) for p in problems)
    assert course.holes[4].hole.bearing_deg == pytest.approx(0.0, abs=0.1)


def test_the_tee_asked_for_is_where_play_starts() -> None:
    white = feature("Polygon", box(0.0, 30.0, 4.0), golf="tee", tee="white;yellow")
    course, problems = extract(HOLE, GREEN, CLUB, white, tee="yellow")
    assert course.holes[4].hole.length.value == pytest.approx(340.0, abs=0.1)
    assert not any("tee" in str(p) for p in problems)
    _, problems = extract(HOLE, GREEN, CLUB, white, tee="red")
    assert any("no red tee on the map" in str(p) for p in problems)


def test_tags_may_stand_one_level_down() -> None:
    deeper = json.loads(json.dumps(HOLE))
    deeper["properties"] = {"id": 1, "tags": deeper["properties"]}
    course, _ = extract(deeper, GREEN, CLUB)
    assert course.holes[4].hole.par == 4


@pytest.mark.parametrize(
    ("features", "told"),
    [
        ([HOLE, CLUB], "hole 4: no green on the map"),
        ([HOLE, HOLE, GREEN, CLUB], "hole 4: is on the map twice"),
        (
            [HOLE, GREEN, CLUB, feature("LineString", LINE, golf="hole", ref="East 1")],
            "a hole's ref is 'East 1'",
        ),
        (
            [feature("LineString", LINE, golf="hole", ref="4", dist="250"), GREEN, CLUB],
            "its tag says 250 and the line measures 370 m",
        ),
        ([feature("LineString", LINE, golf="hole", ref="4"), GREEN, CLUB], "no stroke index"),
        (
            [HOLE, GREEN, CLUB, feature("LineString", [(-60, 100), (60, 100)], waterway="stream")],
            "a watercourse is drawn as a line",
        ),
    ],
)
def test_what_a_map_lacks_is_told(features: list[dict[str, object]], told: str) -> None:
    _, problems = extract(*features)
    assert any(told in str(p) for p in problems), problems


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("{", "not JSON"),
        ("[]", "not a GeoJSON FeatureCollection"),
        ('{"type": "FeatureCollection", "features": [1, {}, null]}', "names no course"),
        (json.dumps({"type": "FeatureCollection", "features": [CLUB]}), "no hole with a number"),
        (
            json.dumps(
                {
                    "type": "FeatureCollection",
                    "features": [CLUB, {**HOLE, "geometry": {"type": "LineString"}}],
                }
            ),
            "no hole with a number",
        ),
    ],
)
def test_a_file_that_is_no_course_is_refused(text: str, told: str) -> None:
    with pytest.raises(BadCourse, match=told):
        read_extract(text, owner="me")
