"""Demonstrations, one module a topic; a lesson shows one by `demos.NAME()`."""

from navlib.widgets.demos.bearings import DeviationByHeading, ThereAndBack, ThreeNorths, deviation
from navlib.widgets.demos.distance import (
    CoastInSteps,
    LatitudeBorder,
    PaperToGround,
    TwoMinutes,
    UnitsBeside,
)
from navlib.widgets.demos.position import (
    ChartBorder,
    NamedSquare,
    OneAngle,
    Romer,
    TwoPositions,
    TwoReferences,
)
from navlib.widgets.demos.speed import ClockSum, OneLeg, StreamTurns, TwoSpeeds
from navlib.widgets.demos.tides import (
    SecondaryTide,
    SlackToSlack,
    TidalDiamond,
    TideAndChart,
    TideByRule,
)
from navlib.widgets.demos.variation import GridLean, OffTheLine, RoseAges, ToBlame, WrongWay

there_and_back, three_norths = ThereAndBack, ThreeNorths
units_beside, paper_to_ground, two_minutes = UnitsBeside, PaperToGround, TwoMinutes
latitude_border, coast_in_steps = LatitudeBorder, CoastInSteps
one_leg, two_speeds, clock_sum, stream_turns = OneLeg, TwoSpeeds, ClockSum, StreamTurns
named_square, romer, two_references = NamedSquare, Romer, TwoReferences
one_angle, chart_border, two_positions = OneAngle, ChartBorder, TwoPositions
tide_by_rule, tide_and_chart, secondary_tide = TideByRule, TideAndChart, SecondaryTide
slack_to_slack, tidal_diamond = SlackToSlack, TidalDiamond
rose_ages, wrong_way, grid_lean = RoseAges, WrongWay, GridLean
to_blame, off_the_line = ToBlame, OffTheLine

__all__ = [
    "ChartBorder",
    "ClockSum",
    "CoastInSteps",
    "DeviationByHeading",
    "GridLean",
    "LatitudeBorder",
    "NamedSquare",
    "OffTheLine",
    "OneAngle",
    "OneLeg",
    "PaperToGround",
    "Romer",
    "RoseAges",
    "SecondaryTide",
    "SlackToSlack",
    "StreamTurns",
    "ThereAndBack",
    "ThreeNorths",
    "TidalDiamond",
    "TideAndChart",
    "TideByRule",
    "ToBlame",
    "TwoMinutes",
    "TwoPositions",
    "TwoReferences",
    "TwoSpeeds",
    "UnitsBeside",
    "WrongWay",
    "chart_border",
    "clock_sum",
    "coast_in_steps",
    "deviation",
    "grid_lean",
    "latitude_border",
    "named_square",
    "off_the_line",
    "one_angle",
    "one_leg",
    "paper_to_ground",
    "romer",
    "rose_ages",
    "secondary_tide",
    "slack_to_slack",
    "stream_turns",
    "there_and_back",
    "three_norths",
    "tidal_diamond",
    "tide_and_chart",
    "tide_by_rule",
    "to_blame",
    "two_minutes",
    "two_positions",
    "two_references",
    "two_speeds",
    "units_beside",
    "wrong_way",
]
