"""Harmonic prediction held against NOAA's published predictions and Schureman's tables."""

import json
from datetime import UTC, datetime, timedelta
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from tide_ports import DATA, INVENTED, STATIONS, published_port

from navlib.tides import CONSTITUENTS, NodeFactors, Offsets, Port, SecondaryPort, without_stands
from navlib.tides.astronomy import orbit
from navlib.tides.constituents import factors, year_start

CASES = json.loads((DATA / "tides.json").read_text())  # each item carries its published source
SPEEDS = json.loads((DATA / "stations.json").read_text())["speeds_deg_per_hour"]
PORTS = {key: published_port(key) for key in STATIONS}


def cases(operation):
    return [pytest.param(c, id=c["id"]) for c in CASES if c["inputs"]["op"] == operation]


def port_of(case):
    return PORTS[case["inputs"]["constants"].removeprefix("stations.json#")]


def assert_turn(source, case):
    published = datetime.fromisoformat(case["expected"]["time_utc"])
    reach = timedelta(hours=4)
    [turn] = [
        turn
        for turn in source.extremes(published - reach, published + reach)
        if turn.kind == case["inputs"]["kind"]
    ]
    minutes = abs(turn.time - published).total_seconds() / 60
    assert minutes <= case["tolerance"]["minutes"]
    assert turn.height == pytest.approx(case["expected"]["height_m"], abs=case["tolerance"]["m"])


@pytest.mark.parametrize("case", cases("height"))
def test_published_hourly_height(case):
    height = port_of(case).heights(datetime.fromisoformat(case["inputs"]["time_utc"]))
    assert height == pytest.approx(case["expected"]["height_m"], abs=case["tolerance"]["m"])


@pytest.mark.parametrize("case", cases("high_low"))
def test_published_high_and_low_water(case):
    assert_turn(port_of(case), case)


@pytest.mark.parametrize("case", cases("subordinate_high_low"))
def test_published_subordinate_station(case):
    offsets = case["inputs"]["offsets"]
    by = {"ratio": "ratio", "fixed": "metres"}[offsets["height"]["type"]]
    high, low = (
        Offsets(offsets["time"][kind], **{by: offsets["height"][kind]}) for kind in ("high", "low")
    )
    assert_turn(SecondaryPort(port_of(case), high, low), case)


@pytest.mark.parametrize("case", cases("node_factor_and_equilibrium_argument"))
def test_schureman_tables_14_and_15(case):
    f, argument = (
        float(column[0])
        for column in year_start((case["inputs"]["constituent"],), case["inputs"]["year"])
    )
    assert f == pytest.approx(case["expected"]["f"], abs=case["tolerance"]["f"])
    off = (argument - case["expected"]["V0_plus_u_deg"] + 180) % 360 - 180
    assert abs(off) <= case["tolerance"]["deg"]


def test_m3_goes_with_the_cube_of_half_an_m2():
    # SP 98, formula 149: f = cos^6 (I / 2) / 0.8758; three halves of M2's node angle.
    middle = np.array("2024-07-02", "M8[us]")
    (f2, f3), (u2, u3) = factors(("M2", "M3"), middle)
    lean = np.radians(orbit(middle).inclination)
    assert f3 == pytest.approx(np.cos(lean / 2) ** 6 / 0.8758, abs=0.0001)
    assert u3 == pytest.approx(1.5 * u2) != pytest.approx(u2)
    assert f2 != pytest.approx(f3, abs=0.001)


@pytest.mark.parametrize("case", cases("constituent_speed"))
def test_published_speed(case):
    speed = CONSTITUENTS[case["inputs"]["constituent"]].speed
    assert speed == pytest.approx(
        case["expected"]["deg_per_hour"], abs=case["tolerance"]["deg_per_hour"]
    )


def test_derived_speeds_are_those_noaa_lists_for_its_37_constituents():
    # NOAA CO-OPS harmonic constituents page; some entries are printed to five decimals only.
    assert SPEEDS.keys() == CONSTITUENTS.keys()
    assert {name: CONSTITUENTS[name].speed for name in SPEEDS} == pytest.approx(SPEEDS, abs=1e-5)


@pytest.mark.parametrize("key", ["9449880", "9710441", "1612340"])
def test_node_factors_at_the_instant_stay_within_a_centimetre_of_noaa(key):
    hours = np.arange("2026-07-01", "2026-08-01", np.timedelta64(1, "h"), "M8[h]")
    by_year = PORTS[key].heights(hours)
    by_instant = published_port(key, nodes=NodeFactors.INSTANT).heights(hours)
    assert 0.0005 < np.abs(by_instant - by_year).max() < 0.015


def test_one_constituent_is_a_cosine_with_its_node_factor():
    # Worked by hand from the definition: S2 has f = 1, V0 = 0 and 30 degrees an hour.
    port = Port(2.0, {"S2": (0.5, 60.0)})
    assert port.heights(datetime(2026, 5, 4, 2, tzinfo=UTC)) == pytest.approx(2.5)
    assert port.heights(datetime(2026, 5, 4, 5, tzinfo=UTC)) == pytest.approx(2.0)
    assert port.rates(datetime(2026, 5, 4, 5, tzinfo=UTC)) == pytest.approx(-0.5 * np.radians(30))


def test_a_time_in_is_a_height_out_whatever_form_it_has():
    summer = timedelta(hours=1)
    clocks = [datetime(2026, 7, 15, h, tzinfo=UTC) for h in range(6)]
    heights = INVENTED.heights(clocks)
    moments = np.array([c.replace(tzinfo=None) for c in clocks], "M8[m]")
    assert isinstance(INVENTED.heights(clocks[0]), float)
    assert isinstance(INVENTED.heights(moments[0]), float)
    assert np.array_equal(INVENTED.heights(moments.reshape(2, 3)), heights.reshape(2, 3))
    local = clocks[0].astimezone(datetime.fromisoformat("2026-07-15T01:00+01:00").tzinfo)
    assert local.utcoffset() == summer
    assert INVENTED.heights(local) == heights[0]
    assert INVENTED.heights([]).shape == (0,)


def test_across_new_year_both_years_are_right():
    hours = np.arange("2026-12-31", "2027-01-02", np.timedelta64(1, "h"), "M8[h]")
    together = PORTS["9449880"].heights(hours)
    apart = [PORTS["9449880"].heights(hours[:24]), PORTS["9449880"].heights(hours[24:])]
    assert np.array_equal(together, np.concatenate(apart))
    assert np.abs(np.diff(together)).max() < 0.6  # no jump


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (lambda: Port(2.8, {"M2": (1.4, 0), "X9": (1, 1)}), "unknown constituent X9.*M2.*MS4"),
        (lambda: Port(2.8, {"M2": (-1.4, 0)}), "M2 has amplitude -1.4"),
        (lambda: Port(2.8, {"M2": (1.4, float("nan"))}), "M2 has amplitude 1.4 m and phase nan"),
        (lambda: Port(float("inf"), {}), "mean level inf"),
        (lambda: INVENTED.heights(datetime(2026, 7, 15)), "which clock"),
        (lambda: INVENTED.heights(np.datetime64("NaT")), "missing"),
        (lambda: INVENTED.heights("2026-07-15"), "is not a time"),
    ],
)
def test_errors_say_what_was_given(wrong, words):
    with pytest.raises(ValueError, match=words):
        wrong()


PHASES = st.floats(0, 360)
NEW_YEAR = datetime(2027, 12, 30, tzinfo=UTC)
STARTS = st.integers(0, 40 * 365).map(lambda d: datetime(2000, 1, 1, tzinfo=UTC) + timedelta(d))


@given(
    STARTS,
    st.fixed_dictionaries(
        {
            "M2": st.tuples(st.floats(0.05, 2), PHASES),
            "S2": st.tuples(st.floats(0, 0.8), PHASES),
            "K1": st.tuples(st.floats(0, 0.8), PHASES),
            "M4": st.tuples(st.floats(0, 0.8), PHASES),
            "M6": st.tuples(st.floats(0, 0.3), PHASES),
        }
    ),
)
@example(NEW_YEAR, {"M2": (0.25, 0.0), "M6": (0.25, 247.0)})
def test_extremes_are_all_there_and_between_them_the_water_only_rises_or_falls(start, constants):
    port, end = Port(0.0, constants), start + timedelta(days=3)
    turns = port.extremes(start, end)
    kinds = [turn.kind for turn in turns]
    assert all(kind != following for kind, following in pairwise(kinds))
    moments = np.arange(start.replace(tzinfo=None), end.replace(tzinfo=None), 60_000_000, "M8[us]")
    heights = port.heights(moments)
    tolerance = 1e-6 * (1 + np.abs(heights).max())
    edges = [np.datetime64(t.time.replace(tzinfo=None)) for t in turns]
    # At New Year the node factors step, and the heights with them (`NodeFactors.MID_YEAR`).
    edges.append(np.datetime64(f"{start.year + 1}-01-01"))
    for limb in np.split(heights, np.searchsorted(moments, sorted(edges))):
        steps = np.diff(limb)
        assert (steps >= -tolerance).all() or (steps <= tolerance).all()


@given(STARTS, st.integers(1, 72 * 60))
@example(datetime(2026, 12, 30, tzinfo=UTC), 2880)
def test_windows_side_by_side_hold_the_same_turns_as_one(start, minutes):
    middle, end = start + timedelta(minutes=minutes), start + timedelta(days=4)
    assert INVENTED.extremes(start, end) == (
        *INVENTED.extremes(start, middle),
        *INVENTED.extremes(middle, end),
    )


def dimpled(share, noon=datetime(2026, 6, 1, 12, tzinfo=UTC)):
    """The turns about noon where M2 is at its top and M4 at its lowest.

    Worked by hand: the top is flat where the second derivative vanishes, A4 (2 w)^2 = A2 w^2;
    `share` is A4 as a part of that.
    """
    f, start = year_start(("M2", "M4"), 2026)
    hours = (noon - datetime(2026, 1, 1, tzinfo=UTC)) / timedelta(hours=1)
    speeds = np.array([CONSTITUENTS["M2"].speed, CONSTITUENTS["M4"].speed])
    phases = start + speeds * hours - [0, 180]
    port = Port(0.0, {"M2": (1.0, phases[0]), "M4": (share / 4 * f[0] / f[1], phases[1])})
    return port.extremes(noon - timedelta(hours=3), noon + timedelta(hours=3))


def test_a_slight_double_high_water_is_two_highs_and_a_low():
    assert [turn.kind for turn in dimpled(0.99)] == ["high"]
    assert [turn.kind for turn in dimpled(1.001)] == ["high", "low", "high"]
    first, between, second = dimpled(1.001)
    assert second.time - first.time < timedelta(minutes=20)  # closer than the search looks at first
    assert between.height < first.height == pytest.approx(second.height)
    assert [turn.kind for turn in without_stands(dimpled(1.5), 0.3)] == ["high"]


def test_a_port_without_tide_has_no_turns():
    day = datetime(2026, 1, 1, tzinfo=UTC)
    assert Port(1.0, {}).extremes(day, day + timedelta(days=2)) == ()
    assert Port(1.0, {}).heights(day) == 1.0
