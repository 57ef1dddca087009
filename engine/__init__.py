"""Unit-aware answers to golf questions: flight, pattern, choice, putts, learning."""

from engine.api.chip import ChipAnswer, ChipChoice, ChipLieName, ChipQuestion, plan_chip
from engine.api.clubs_today import ClubCarries, clubs_today, suited_length
from engine.api.conditions import (
    AirFacts,
    LieFacts,
    WindFacts,
    turned_wind,
)
from engine.api.danger import FeltCold, FeltHeat, felt_cold, felt_heat, strike_distance
from engine.api.decision import choose, solve_player, value_of_knowing
from engine.api.flight import (
    PlaysAsAnswer,
    PlaysAsQuestion,
    SwingFlight,
    bag_flights,
    shot_plays_as,
)
from engine.api.green import (
    Fall,
    PuttAnswer,
    PuttQuestion,
    green_word,
    plan_putt,
    side_slope_of_break,
    steepest_grade,
    worth_of_reading,
)
from engine.api.handicap import (
    course_handicap,
    net_double_bogey,
    playing_handicap,
    score_differential,
    stableford_points,
    strokes_received,
)
from engine.api.holefacts import HoleFacts, MapArea
from engine.api.learning import Lesson, ShotResult, lesson_of, seen_of, too_far
from engine.api.plan import ConditionPlan, HolePlan, PlanDay, PlanShot, plan_holes
from engine.api.profile import ClubFacts, PlayerFacts, bag_faults, club_family, start_bag
from engine.api.putting import MakeRate, PuttingLesson, PuttResult, putting_lesson
from engine.api.relief import ReliefArea, ReliefPlay, relief_plays
from engine.api.review import (
    Finish,
    Ground,
    Leg,
    Lost,
    expected_strokes,
    likely_finish,
    strokes_lost,
)
from engine.api.shotchoice import Play, ShotChoice
from engine.api.shotfacts import ShotFacts, TroubleFacts
from engine.api.worked_back import height_that_plays, wind_of_clubs
from engine.core.bag import StartBag
from engine.core.bag_faults import Fault
from engine.core.golfer import Club, Golfer, ShortGame, SwingKind
from engine.core.learn_advice import Suggestion
from engine.core.lie import LieKind
from engine.core.marks import Mark
from engine.core.scene import Kind as TroubleKind
from engine.core.seen import Seen
from engine.core.strokes import StrokeTable
from engine.core.told import Side as TroubleSide
from engine.errors import NoSolution, OutOfRange
from engine.units import Q, quantity, si

ENGINE_VERSION = "5"  # raised when the same question may get another answer

__all__ = [
    "ENGINE_VERSION",
    "AirFacts",
    "ChipAnswer",
    "ChipChoice",
    "ChipLieName",
    "ChipQuestion",
    "Club",
    "ClubCarries",
    "ClubFacts",
    "ConditionPlan",
    "Fall",
    "Fault",
    "FeltCold",
    "FeltHeat",
    "Finish",
    "Golfer",
    "Ground",
    "HoleFacts",
    "HolePlan",
    "Leg",
    "Lesson",
    "LieFacts",
    "LieKind",
    "Lost",
    "MakeRate",
    "MapArea",
    "Mark",
    "NoSolution",
    "OutOfRange",
    "PlanDay",
    "PlanShot",
    "Play",
    "PlayerFacts",
    "PlaysAsAnswer",
    "PlaysAsQuestion",
    "PuttAnswer",
    "PuttQuestion",
    "PuttResult",
    "PuttingLesson",
    "Q",
    "ReliefArea",
    "ReliefPlay",
    "Seen",
    "ShortGame",
    "ShotChoice",
    "ShotFacts",
    "ShotResult",
    "StartBag",
    "StrokeTable",
    "Suggestion",
    "SwingFlight",
    "SwingKind",
    "TroubleFacts",
    "TroubleKind",
    "TroubleSide",
    "WindFacts",
    "bag_faults",
    "bag_flights",
    "choose",
    "club_family",
    "clubs_today",
    "course_handicap",
    "expected_strokes",
    "felt_cold",
    "felt_heat",
    "green_word",
    "height_that_plays",
    "lesson_of",
    "likely_finish",
    "net_double_bogey",
    "plan_chip",
    "plan_holes",
    "plan_putt",
    "playing_handicap",
    "putting_lesson",
    "quantity",
    "relief_plays",
    "score_differential",
    "seen_of",
    "shot_plays_as",
    "si",
    "side_slope_of_break",
    "solve_player",
    "stableford_points",
    "start_bag",
    "steepest_grade",
    "strike_distance",
    "strokes_lost",
    "strokes_received",
    "suited_length",
    "too_far",
    "turned_wind",
    "value_of_knowing",
    "wind_of_clubs",
    "worth_of_reading",
]
