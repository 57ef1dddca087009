"""How told facts become the engine's question about a shot."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import atan, degrees
from typing import TYPE_CHECKING, Literal

from bot.model.measure import Measure
from bot.model.reading import Facts, Hazard, HazardSide, Wind
from bot.model.state import DayFacts, Units
from bot.turn.measures import distance_of, in_metres, quantity_of, settle, to_quantity
from engine import (
    AirFacts,
    Golfer,
    LieFacts,
    LieKind,
    PlaysAsQuestion,
    ShotFacts,
    TroubleFacts,
    TroubleKind,
    TroubleSide,
    WindFacts,
    quantity,
    si,
)

if TYPE_CHECKING:
    from engine import Q

_KINDS: dict[str, TroubleKind] = {
    "water": "penalty", "penalty": "penalty", "ditch": "penalty", "bunker": "sand", "ob": "out",
    "trees": "trees", "building": "trees", "gorse": "trees", "long_grass": "heavy",
    "drop": "heavy", "trouble": "penalty",
}  # fmt: skip
# Words that stand for trouble on several sides at once.
SEVERAL: dict[str, tuple[Literal["left", "right", "short", "long"], ...]] = {
    "both": ("left", "right"), "all": ("left", "right", "short", "long"),
}  # fmt: skip
_SIDES: dict[HazardSide, tuple[TroubleSide, ...]] = {
    "left": ("left",), "right": ("right",), "short": ("short",), "long": ("long",),
    "cross": ("across",), "both": SEVERAL["both"], "all": SEVERAL["all"],
}  # fmt: skip
# What a lie is to the engine, the first match of the list.
_LIES: tuple[tuple[str, LieKind], ...] = (
    ("fairway_bunker", "fairway_bunker"), ("bunker", "fairway_bunker"),
    ("greenside_bunker", "fairway_bunker"), ("deep_rough", "deep_rough"), ("flyer", "flyer"),
    ("sitting_down", "sitting_down"), ("buried", "sitting_down"), ("sitting_up", "sitting_up"),
    ("divot", "divot"), ("hardpan", "hardpan"), ("pine_straw", "pine_straw"),
    ("rough", "rough"), ("trees", "rough"), ("first_cut", "first_cut"), ("tee", "tee"),
    ("wet", "wet"),
)  # fmt: skip
FROM_EDGE_M = 4.6  # a pin at an edge stands five paces in: common practice, no source
HALF_DEPTH_M = 13.0  # of a green nobody described, as the engine takes it
# How far trouble at a corner of the green reaches from its end, and along it: judgement.
# Where it lies is partly in front of the green, so far in from its edge.
_CORNER_M, _OVERLAP_M, _IN_FRONT_M = 20.0, 2.0, 6.0
_ISLAND_M = 20.0  # from the tee, where water round a green begins: judgement
_STANCE_DEG = 5.0  # a slope under the feet told without a size: common practice, no source
_AIR_WORDS_C = {"cold": 5.0, "cool": 12.0, "warm": 24.0, "hot": 31.0}  # judgement


@dataclass(frozen=True)
class Setting:
    """The question in the engine's terms, with what it was made from."""

    shot: ShotFacts
    lie: LieFacts
    wind: WindFacts | None
    air: AirFacts
    sides: dict[str, str]  # trouble name -> side


def setting_of(
    facts: Facts,
    day: DayFacts,
    units: Units,
    *,
    tee: bool,
    protect: bool,
    stroke: int = 1,
    wind_feel: float = 1.0,
    height_feel: float = 1.0,
) -> Setting:
    """Return the engine's question for `facts`, whose distance is known.

    The feels are the player's learned factors of true over called; a wind out of a weather
    report is taken as it is.
    """
    distance = facts.distance
    if distance is None:
        msg = "a setting needs a distance"
        raise ValueError(msg)
    pin = to_quantity(distance, "distance", units)
    front, back = distance_of(facts.front, units), distance_of(facts.back, units)
    if facts.reference in ("front", "back"):
        # An edge was told: the target is the middle, unless the pin itself was said.
        front, back, pin = _from_edge(facts, pin, front, back, units)
    called = facts.wind is not None or day.metar is None
    wind = wind_facts(facts.wind or day.wind, units)
    if wind is not None and called and wind_feel != 1.0:
        gust = None if wind.gust is None else wind.gust * wind_feel
        wind = replace(wind, speed=wind.speed * wind_feel, gust=gust)
    height = height_of(facts, units)
    if height is not None:
        height = height * height_feel
    air = air_facts(facts, day, units)
    lie = lie_facts(facts)
    hazards = _at_corners(facts.hazards, pin, front, back)
    told = [t for h in hazards for t in troubles(h, units, tee=tee)]
    green = facts.green
    hole = facts.hole
    across, along = _pin(facts)
    depth = None if green is None else distance_of(green.depth, units)
    if depth is not None and front is None and back is None:
        front, back = _round_pin(pin, depth, along)
    shot = ShotFacts(
        pin=pin,
        front=front,
        back=back,
        width=None if green is None else distance_of(green.width, units),
        pin_across=across,
        pin_along=along,
        tee=tee,
        lie=lie,
        trouble=tuple(told),
        fairway=None if hole is None else distance_of(hole.fairway_width, units),
        bend=0 if hole is None or hole.dogleg is None else (1 if hole.dogleg == "right" else -1),
        bend_at=None if hole is None else distance_of(hole.dogleg_at, units),
        turn=None if hole is None or hole.dogleg_deg is None else quantity(hole.dogleg_deg, "deg"),
        wind=wind,
        height=height,
        air=air,
        firmness=(green.firmness if green and green.firmness else day.turf) or "normal",
        par=None if hole is None else hole.par,
        stroke=stroke,
        blocked=bool({"trees", "blocked"} & set(facts.lie)),
        protect=protect,
    )
    return Setting(shot, lie, wind, air, {t.name: t.side for t in told})


def plays_question(setting: Setting, golfer: Golfer) -> PlaysAsQuestion:
    """Return the question for the plays-as number of the same shot."""
    return PlaysAsQuestion(
        golfer=golfer,
        distance=setting.shot.pin,
        height=setting.shot.height,
        wind=setting.wind,
        air=setting.air,
        lie=setting.lie,
    )


def wind_facts(wind: Wind | None, units: Units) -> WindFacts | None:
    """Return the wind for the engine; None where its strength or direction is unknown."""
    if wind is None or wind.speed is None or wind.speed.unit == "club":
        return None
    if wind.from_deg is None:
        return None
    return WindFacts(
        speed=to_quantity(wind.speed, "wind", units),
        comes_from=quantity(wind.from_deg, "deg"),
        felt_at_flag=wind.at_flag,
        gust=None if wind.gust is None else to_quantity(wind.gust, "wind", units),
        guessed=wind.speed.about or wind.speed.low is not None or wind.unsteady,
    )


def air_facts(facts: Facts, day: DayFacts, units: Units) -> AirFacts:
    """Return the air for the engine, today's where this message said nothing of it."""
    air = facts.air or day.air
    if air is None:
        return AirFacts()
    temperature = air.temperature
    if temperature is None and air.word in _AIR_WORDS_C:
        temperature = Measure(value=_AIR_WORDS_C[air.word], unit="degC", about=True)
    humidity = air.humidity
    return AirFacts(
        temperature=None
        if temperature is None
        else to_quantity(temperature, "temperature", units),
        humidity=None if humidity is None else quantity(humidity.value, "%"),
        sea_level_pressure=(
            None if air.pressure is None else quantity_of(air.pressure.value, air.pressure.unit)
        ),
        altitude=None if air.altitude is None else to_quantity(air.altitude, "height", units),
    )


def lie_facts(facts: Facts) -> LieFacts:
    """Return the lie for the engine."""
    kind: LieKind = next((k for said, k in _LIES if said in facts.lie), "fairway")
    angle = _STANCE_DEG
    if facts.lie_angle is not None:
        value = facts.lie_angle.value
        angle = value if facts.lie_angle.unit != "%" else degrees(atan(value / 100.0))
    uphill = angle * (("upslope" in facts.lie) - ("downslope" in facts.lie))
    above = angle * (("above_feet" in facts.lie) - ("below_feet" in facts.lie))
    return LieFacts(
        kind=kind,
        uphill=quantity(uphill, "deg") if uphill else None,
        above_feet=quantity(above, "deg") if above else None,
    )


def height_of(facts: Facts, units: Units) -> Q | None:
    """Return how far the target is above the ball, a quantity, or None."""
    raised = facts.elevation
    if raised is None or raised.size is None or not raised.direction:
        return None
    size = raised.size
    if size.unit == "%" and facts.distance is not None:
        along = in_metres(facts.distance, units)
        return quantity(raised.direction * along * size.value / 100.0, "m")
    settled = settle(size, "height", units)
    return quantity_of(raised.direction * settled.value, settled.unit)


def _at_corners(
    hazards: tuple[Hazard, ...], pin: Q, front: Q | None, back: Q | None
) -> tuple[Hazard, ...]:  # fmt: skip
    """Return the trouble told at a corner of the green, "short left", as one beside that end."""
    told = {h.side for h in hazards if h.corner}
    if not told & {"short", "long"} or not told & {"left", "right"}:
        return hazards
    half = quantity(HALF_DEPTH_M, "m")
    near = si(pin - half if front is None else front, "m")
    far = si(pin + half if back is None else back, "m")
    spans = {
        "short": (max(near - _CORNER_M, 0.0), near + _OVERLAP_M),
        "long": (far - _OVERLAP_M, far + _CORNER_M),
    }
    start, end = next(spans[side] for side in ("short", "long") if side in told)
    kept: list[Hazard] = []
    for hazard in hazards:
        if not hazard.corner:
            kept.append(hazard)
        elif hazard.side in ("left", "right"):
            bare = hazard.start is None and hazard.end is None
            ends = {
                "start": Measure(value=start, unit="m"),
                "end": Measure(value=end, unit="m"),
                "gap": hazard.gap or Measure(value=-_IN_FRONT_M, unit="m"),
            }
            kept.append(hazard.model_copy(update=ends) if bare else hazard)
    return tuple(kept)


def troubles(hazard: Hazard, units: Units, *, tee: bool = False) -> list[TroubleFacts]:
    """Return the engine's trouble for one told; a path is none.

    Trouble on every side of a green that is played from a tee is carried all the way.
    """
    kind = _KINDS.get(hazard.kind)
    if kind is None:
        return []
    end = hazard.end or hazard.reach_or_carry
    # Trouble with a distance and no side may be anywhere across: the careful reading.
    ahead: tuple[TroubleSide, ...] = ("across",) if hazard.start or end else ()
    sides = ahead if hazard.side is None else _SIDES[hazard.side]
    start = distance_of(hazard.start, units)
    around = tee and hazard.side == "all" and start is None
    island = quantity(_ISLAND_M, "m") if around else start
    return [
        TroubleFacts(
            name=_name(hazard, side, alone=len(sides) == 1),
            kind=kind,
            side=side,
            start=island if side == "short" else start,
            end=distance_of(end, units),
            gap=distance_of(hazard.gap, units),
            gap_of="line" if hazard.noted else "edge",
        )
        for side in sides
    ]


def _name(hazard: Hazard, side: TroubleSide, *, alone: bool) -> str:
    """Return what trouble is called among the chances; noted trouble always by its side."""
    return hazard.kind if alone and not hazard.noted else f"{hazard.kind} {side}"


def _round_pin(pin: Q, depth: Q, along: float | None) -> tuple[Q, Q]:
    """Return front and back of a green of known depth round where its pin stands."""
    half = depth / 2.0
    middle = pin - (along or 0.0) * max(half - quantity(FROM_EDGE_M, "m"), 0.0 * half)
    return middle - half, middle + half


def _from_edge(
    facts: Facts, edge: Q, front: Q | None, back: Q | None, units: Units
) -> tuple[Q | None, Q | None, Q]:  # fmt: skip
    """Return front, back and middle of a green told by the distance to one edge."""
    depth = None if facts.green is None else distance_of(facts.green.depth, units)
    half = quantity(HALF_DEPTH_M, "m") if depth is None else depth / 2.0
    if facts.reference == "front":
        middle = edge + half if back is None else (edge + back) / 2.0
        return edge, back, middle
    middle = edge - half if front is None else (edge + front) / 2.0
    return front, edge, middle


def _pin(facts: Facts) -> tuple[float | None, float | None]:
    """Return where the pin stands on the green, across and along, -1 to 1."""
    across = ("right" in facts.pin) - ("left" in facts.pin)
    along = ("back" in facts.pin) - ("front" in facts.pin)
    if not facts.pin:
        return None, None
    return float(across) * 0.6, float(along) * 0.6
