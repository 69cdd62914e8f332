"""One tidal model for each water: levels, ports, streams, diamonds, atlas and gates agree."""

import json
import shutil
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.testing import assert_allclose

import navlib.waters as waters
from navlib.angles import signed_difference
from navlib.tides import Water, springs_and_neaps
from navlib.tides.signal import mean_turning, turning
from navlib.units import NM
from navlib.waters.make.basin import basin
from navlib.waters.make.streams import OMEGA, edge_stream, make_streams
from navlib.waters.tides_file import Offshore, Sound

KESSORAY, ORRIMER = waters.load("kessoray"), waters.load("orrimer")
BOTH = pytest.mark.parametrize("water", [KESSORAY, ORRIMER], ids=lambda water: water.name)
TIDES = KESSORAY.tides
NARROWS, MOUTH, WEST = (TIDES.diamond(letter) for letter in "ABC")
YEAR = datetime(2026, 1, 1, tzinfo=UTC), datetime(2027, 1, 1, tzinfo=UTC)
WEEK = datetime(2026, 11, 1, tzinfo=UTC), datetime(2026, 11, 8, tzinfo=UTC)
WITHIN = timedelta(minutes=5) * np.arange(-5.5, 6)  # the middles of the 5 minutes about an instant


def hour_mean(tides, place, when):
    """The mean stream (east, north) over half an hour either side of `when`, knots."""
    return tides.velocity(place, [when + part for part in WITHIN]).mean(axis=1)


def set_and_rate(east, north):
    return np.degrees(np.arctan2(east, north)) % 360, np.hypot(east, north)


# Levels and ports -------------------------------------------------------------------------------


@BOTH
def test_the_printed_levels_are_those_of_the_model(water):
    printed, model = water.settings.levels, water.tides.levels
    for name in ("hat", "mhws", "mhwn", "msl", "mlwn", "mlws", "lat"):
        assert getattr(printed, name) == pytest.approx(getattr(model, name), abs=0.0501), name


@BOTH
def test_ports_stand_at_features_of_the_water(water):
    for port in water.tides.ports:
        assert water.feature(water.tides.feature_of(port)).place == water.tides.place_of(port)


def test_bank_and_causeway_dry_on_the_tides_that_they_should():
    levels = TIDES.levels
    assert levels.mlws < 1.6 < levels.mlwn  # Saltpan Bank dries at springs only
    assert levels.mlwn < 3.4 < levels.mhwn  # Wether Causeway uncovers and covers even at neaps


def test_spring_high_waters_stand_about_seven_and_half_past_seven():
    springs = [when for when, kind in springs_and_neaps(TIDES.standard, *YEAR) if kind == "springs"]
    for when in springs:
        day = when.replace(hour=0, minute=0, second=0)
        highs = [
            t.time
            for t in TIDES.standard.extremes(day, day + timedelta(days=1))
            if t.kind == Water.HIGH
        ]
        off = [(h - day - timedelta(hours=7, minutes=15)) / timedelta(hours=12) for h in highs]
        assert all(abs((part + 0.5) % 1 - 0.5) * 12 < 1.5 for part in off), when


@BOTH
def test_secondary_ports_keep_sensible_tides_all_year(water):
    levels, standard = water.tides.levels, water.tides.standard.extremes(*YEAR)
    for port in water.tides.secondary:
        turns = port.extremes(*YEAR)
        assert abs(len(turns) - len(standard)) <= 2
        for one, other in pairwise(turns):
            assert one.time < other.time
            assert one.kind != other.kind
            assert (one.height < other.height) == (one.kind == Water.LOW)
        lows = [t.height for t in turns if t.kind == Water.LOW]
        assert min(lows) > levels.lat
        assert max(t.height for t in turns) < levels.hat + 0.5


def test_the_water_behind_the_sill_never_falls_below_it():
    voehead = TIDES.secondary[0]
    lows = [t.height for t in voehead.extremes(*YEAR) if t.kind == Water.LOW]
    assert min(lows) > KESSORAY.height(KESSORAY.feature("span-bridge").place)


# The made streams -------------------------------------------------------------------------------


def filled(water, west, south, east, north):
    """Net flow into a box of cells and what fills it, complex, m3/s of M2."""
    field, port = water.tides.field, water.tides.standard
    cells = basin(field.heights, port.mean_level, field.spacing)
    x = [round((e - field.heights.west) / field.spacing) for e in (west, east)]
    y = [round((n - field.heights.south) / field.spacing) for n in (south, north)]
    rows, columns = slice(*y), slice(*x)
    through_x = cells.depth_x * field.amplitudes[0, :-1] * field.spacing
    through_y = cells.depth_y * field.amplitudes[1, :, :-1] * field.spacing
    inflow = (through_x[rows, x[0]] - through_x[rows, x[1]]).sum()
    inflow += (through_y[y[0], columns] - through_y[y[1], columns]).sum()
    area = cells.wet[rows, columns].sum() * field.spacing**2
    return inflow, 1j * OMEGA * port.constituents["M2"][0] * area


# Also tells streams that were made for another height field: make them anew.
@pytest.mark.parametrize(
    ("water", "box"),
    [
        (KESSORAY, (86_000, 1_000_500, 92_600, 1_004_500)),  # Munnavoe
        (KESSORAY, (93_000, 998_000, 98_000, 1_007_000)),  # The Narrows and both mouths
        (KESSORAY, (84_000, 992_000, 109_000, 1_012_000)),
        (ORRIMER, (398_000, 5_598_500, 401_600, 5_602_000)),  # the caldera
        (ORRIMER, (394_000, 5_595_000, 406_000, 5_605_000)),
    ],
)
def test_what_flows_in_through_a_closed_line_fills_what_it_encloses(water, box):
    inflow, filling = filled(water, *box)
    assert abs(inflow - filling) < 0.03 * abs(filling)


def sea(rows=40, columns=60, depth=30.0):
    return np.full((rows + 1, columns + 1), -depth)


OFFSHORE = Offshore(flood=70, rate_kn=1.0, hours=-1.0, across_kn=0.4, drag=0.0)
MAKE = {"level": 0.0, "amplitude": 1.0, "springs": 1.5, "spacing": 100.0}


def test_over_an_open_even_sea_the_stream_is_that_offshore():
    heights = waters.HeightField(sea(), 0.0, 0.0, 100.0)
    made = make_streams(heights, OFFSHORE, **MAKE | {"amplitude": 1e-6})
    east, north = edge_stream(OFFSHORE, 1.5)
    assert_allclose(made[0, :-1], east, rtol=1e-4)
    assert_allclose(made[1, :, :-1], north, rtol=1e-4)
    kn = np.array([east, north]) * 1.5 / NM * 3600
    at = [kn * np.exp(1j * OMEGA * 3600 * hour) for hour in (-1.0, -1.0 + 90 / 28.984)]
    assert set_and_rate(*at[0].real) == pytest.approx((70, 1.0), abs=0.01)
    assert set_and_rate(*at[1].real) == pytest.approx((160, 0.4), abs=0.01)


def test_a_dead_end_channel_fills_through_its_mouth():
    """Continuity by hand: rate at the mouth = speed of M2 x amplitude x area / section."""
    heights = sea()
    heights[:, 20:] = 10.0
    heights[18:23, 20:51] = -30.0  # 5 nodes, 400 m between their outer ones
    made = make_streams(
        waters.HeightField(heights, 0.0, 0.0, 100.0), Offshore(0, 0.0, 0.0, 0.0, drag=0.0), **MAKE
    )
    inside = made[0, 18:22, 30].mean()  # nodes wet from 20 to 50: 2050 m of channel beyond
    assert inside == pytest.approx(1j * OMEGA * 1.0 * 2050 / 30, rel=0.01)
    assert np.angle(inside) == pytest.approx(np.pi / 2, abs=0.01)  # the flood is 3 h ahead of HW


def test_a_sound_runs_to_the_end_with_the_later_tide_and_friction_makes_it_turn_earlier():
    heights = sea()
    heights[:, 20:41] = 10.0
    heights[18:23, 20:41] = -30.0
    field = waters.HeightField(heights, 0.0, 0.0, 100.0)
    sound = (Sound(((1800.0, 2000.0), (4200.0, 2000.0)), 20.0, 1.0, 600.0),)
    smooth, rough = (
        make_streams(field, Offshore(0, 0.0, 0.0, 0.0, drag), **MAKE, sounds=sound)[0, 20, 30]
        for drag in (0.0, 0.0025)
    )
    assert abs(rough) < abs(smooth)
    assert 0 < np.angle(rough) < np.pi / 2  # flows on ahead of high water
    assert abs(np.angle(smooth)) < 0.1


@BOTH
def test_no_stream_flows_over_land(water):
    west, south, east, north = water.bounds
    e, n = np.random.default_rng(1).uniform((west, south), (east, north), (4000, 2)).T
    rate = np.hypot(*water.tides.velocity((e, n), WEEK[0]))
    land = np.asarray(water.height_field.at(e, n)) >= water.tides.standard.mean_level
    assert land.sum() > 400
    assert not rate[land].any()
    assert (rate[~land] > 0).mean() > 0.98
    with pytest.raises(waters.OutsideWaters):
        water.tides.velocity((0.0, 0.0), WEEK[0])


def test_the_rates_are_those_that_the_exercises_need():
    def greatest(diamond):
        return max(row.spring_kn for row in TIDES.rows(diamond))

    assert 4.0 <= greatest(NARROWS) <= 5.0
    assert 3.0 <= greatest(MOUTH) <= 4.0
    assert 0.6 <= greatest(WEST) <= 1.2
    harbour = TIDES.feature_of(TIDES.standard)
    e, n = KESSORAY.feature(harbour).place
    assert np.hypot(*TIDES.velocity((e + 150, n - 150), WEEK[0])) < 0.3
    assert max(row.spring_kn for row in ORRIMER.tides.rows(ORRIMER.tides.diamond("B"))) > 2.5


# Diamonds, atlas and the trade's way ------------------------------------------------------------


@BOTH
def test_diamonds_lie_in_water_deep_enough(water):
    for diamond in water.tides.diamonds:
        assert water.height(diamond.place) < -1


def test_a_stream_follows_the_rise_of_the_water_at_the_standard_port():
    """The half-daily rise, differenced from the prediction of those constituents alone."""
    port = TIDES.standard
    half_daily = {k: v for k, v in port.constituents.items() if k in ("M2", "S2", "N2", "K2")}
    alone = waters.tide_model.Port(0.0, half_daily)
    times = np.datetime64("2026-11-01", "us") + np.arange(0, 1000, 37) * np.timedelta64(1, "m")
    rise = (1j * OMEGA * 3600 * port.constituents["M2"][0] * turning(port, times)).real
    assert_allclose(rise, alone.rates(times), atol=1e-9)


def test_mean_springs_and_neaps_turn_with_the_mean_range():
    springs, neaps = (abs(mean_turning(TIDES.standard, 0.0, s2)) for s2 in (0, 180))
    levels = TIDES.levels
    assert springs / neaps == pytest.approx(levels.spring_range / levels.neap_range, rel=0.04)


def test_rows_are_the_streams_of_a_day_of_mean_springs():
    """A spring tide whose range is within 5 cm of the mean: rows and stream agree to 0.35 kn."""
    turns = TIDES.standard.extremes(*YEAR)
    days = [
        b
        for a, b, c in zip(turns, turns[1:], turns[2:], strict=False)
        if b.kind == Water.HIGH
        and abs(b.height - a.height - TIDES.levels.spring_range) < 0.05
        and abs(b.height - c.height - TIDES.levels.spring_range) < 0.05
    ]
    assert days
    for high in days[:3]:
        for diamond in TIDES.diamonds:
            for row in TIDES.rows(diamond):
                real = hour_mean(TIDES, diamond.place, high.time + timedelta(hours=row.hour))
                angle = np.radians(row.set_to)
                table = row.spring_kn * np.array([np.sin(angle), np.cos(angle)])
                assert np.hypot(*(table - real)) < 0.35 * max(1, row.spring_kn / 3)


def test_the_trades_rule_keeps_near_the_model():
    """Over a quarter: 95 in 100 within 0.45 kn in The Narrows, 0.15 kn in the open (ours)."""
    quarter = TIDES.standard.extremes(YEAR[0], YEAR[0] + timedelta(days=90))
    highs = [turn for turn in quarter if turn.kind == Water.HIGH][3:-3:9]
    for diamond, most in ((NARROWS, 0.45), (WEST, 0.15)):
        off = []
        for high in highs:
            for hour in (-4, -1, 2, 4):
                when = high.time + timedelta(hours=hour)
                set_to, rate = TIDES.rate_on(diamond, when)
                angle = np.radians(set_to)
                along = hour_mean(TIDES, diamond.place, when) @ [np.sin(angle), np.cos(angle)]
                off.append(abs(along - rate))
        assert np.percentile(off, 95) < most


def test_the_narrows_reverse_and_the_open_west_goes_round_through_north():
    there, back = TIDES.rows(NARROWS)[3], TIDES.rows(NARROWS)[9]
    assert abs(signed_difference(there.set_to, back.set_to)) == pytest.approx(180, abs=5)
    sets = [row.set_to for row in TIDES.rows(WEST)]
    turned = [signed_difference(b, a) for a, b in pairwise(sets)]
    assert all(turn > 0 for turn in turned)  # to the right, as north of the equator
    assert 330 < sum(turned) < 390
    assert any(a > 270 and b < 90 for a, b in pairwise(sets))  # from 3xx to 0xx
    open_sea = [row.set_to for row in ORRIMER.tides.rows(ORRIMER.tides.diamond("D"))]
    assert all(signed_difference(b, a) < 0 for a, b in pairwise(open_sea))


@BOTH
def test_the_atlas_is_the_diamonds_table_at_its_places(water):
    tides = water.tides
    west, south, east, north = water.bounds
    assert 70 <= len(tides.spots) <= 110
    assert (np.asarray(water.height_field.at(*tides.spots.T)) < 0).all()
    assert (tides.spots > [west, south]).all()
    assert (tides.spots < [east, north]).all()
    gaps = np.hypot(*(tides.spots[:, None] - tides.spots).T)
    assert gaps[gaps > 0].min() > (east - west) / 25  # 6.8 mm on a page 170 mm wide
    for hour in (-6, 0, 3):
        page = tides.atlas(hour)
        assert len(page) == len(tides.spots)
        for arrow in page[::20]:
            row = tides.rows(arrow.place)[hour + 6]
            assert (row.hour, row.set_to) == (hour, pytest.approx(arrow.set_to))
            assert (row.spring_kn, row.neap_kn) == pytest.approx((arrow.spring_kn, arrow.neap_kn))
    with pytest.raises(ValueError, match="from -6 to 6"):
        tides.atlas(7)


def test_a_row_covers_half_an_hour_each_side():
    high = next(t for t in TIDES.standard.extremes(*WEEK) if t.kind == Water.HIGH)
    for minutes, hour in ((0, 0), (29, 0), (31, 1), (91, 2), (149, 2), (-31, -1), (-29, 0)):
        when = high.time + timedelta(minutes=minutes)
        assert TIDES.hours_from_high_water(when) == (hour, high)


@given(st.integers(0, 365 * 24 * 60))
@settings(max_examples=60)
def test_every_time_has_a_row_from_the_nearest_high_water(minutes):
    when = YEAR[0] + timedelta(minutes=minutes)
    for tides in (TIDES, ORRIMER.tides):
        hour, high = tides.hours_from_high_water(when)
        away = (when - high.time) / timedelta(hours=1)
        assert -6 <= hour <= 6
        assert abs(away - hour) <= 0.5 or abs(away) > 6
    assert abs(away) < 8


def test_todays_rate_by_hand():
    when = datetime(2026, 11, 3, 15, 0, tzinfo=UTC)
    hour, _ = TIDES.hours_from_high_water(when)
    row, levels = TIDES.rows(NARROWS)[hour + 6], TIDES.levels
    part = TIDES.standard_range_on(date(2026, 11, 3)) - levels.neap_range
    part /= levels.spring_range - levels.neap_range
    by_hand = row.neap_kn + (row.spring_kn - row.neap_kn) * part
    assert TIDES.rate_on(NARROWS, when) == (row.set_to, pytest.approx(by_hand))


# Gates ------------------------------------------------------------------------------------------


def test_slack_is_when_nothing_flows_and_not_at_high_or_low_water():
    slacks = TIDES.slack_times(NARROWS.place, *WEEK)
    turns = TIDES.standard.extremes(WEEK[0] - timedelta(days=1), WEEK[1] + timedelta(days=1))
    assert 26 <= len(slacks) <= 28
    for when in slacks:
        assert when.second == 0
        assert TIDES.stream(NARROWS.place, when)[1] < 0.06
        before, after = (
            TIDES.stream(NARROWS.place, when + timedelta(minutes=m))[0] for m in (-15, 15)
        )
        assert abs(signed_difference(before, after)) > 170
    off = [min(abs(when - turn.time) for turn in turns) for when in slacks]
    assert min(off) > timedelta(minutes=5)
    assert sorted(off)[len(off) // 2] > timedelta(minutes=25)
    inland = KESSORAY.feature("ben-kessoray").place
    assert TIDES.slack_times(inland, *WEEK) == ()


def test_a_gate_is_open_while_the_rate_is_below_what_is_asked():
    windows = TIDES.windows_below(NARROWS.place, 1.0, *WEEK)
    assert len(windows) >= 25
    for window in windows:
        middle = window.start + window.duration / 2
        rates = [TIDES.stream(NARROWS.place, t)[1] for t in (window.start, middle, window.end)]
        assert max(rates) <= 1.0
        if window.opens:
            assert TIDES.stream(NARROWS.place, window.start - timedelta(minutes=2))[1] > 1.0
    assert TIDES.windows_below(NARROWS.place, 9.0, *WEEK)[0].duration == timedelta(days=7)


def test_one_place_and_time_give_floats_and_many_arrays():
    times = np.array(["2026-11-01T00", "2026-11-01T06"], "M8[us]")
    e, n = np.array([WEST.place, NARROWS.place, MOUTH.place]).T
    set_to, rate = TIDES.stream(WEST.place, times[1])
    assert type(set_to) is float
    assert type(rate) is float
    sets, rates = TIDES.stream((e, n), times)
    assert sets.shape == rates.shape == (3, 2)
    assert (sets[0, 1], rates[0, 1]) == pytest.approx((set_to, rate))


def test_streams_are_named_by_true_north():
    """Grid north lies 4.49 degrees west of true north at 58 48 N, 7 15 W (see test_grids)."""
    place = (96_800, 998_000)
    assert KESSORAY.lat_lon(place) == pytest.approx((58.77, -7.24), abs=0.02)
    grid, true = TIDES.field.at(*place), TIDES.amplitudes(place)
    turn = np.degrees(np.angle((true[0] + 1j * true[1]) / (grid[0] + 1j * grid[1])))
    assert turn == pytest.approx(4.49, abs=0.03)  # to the left: set true = set on the grid - 4.49


# Files ------------------------------------------------------------------------------------------


@pytest.fixture
def own(tmp_path):
    """A copy of a shipped water, to be spoilt."""
    return shutil.copytree(waters.reader._SHIPPED / "orrimer", tmp_path / "own")


DIAMOND = ("streams", "diamonds", 0)
FAULTS = [
    (("standard", "mean_level"), "high", "“standard.mean_level” should be a number"),
    (("standard", "feature"), "nowhere", "should be the id of a feature.*no “nowhere”"),
    (("standard", "zone"), "Summer", "no time zone is called “Summer”"),
    (("standard", "constituents", "M2"), [0.4], r"should be a list such as \[1.45, 204\]"),
    (("standard", "constituents", "M2"), [-1, 120], "M2 has amplitude -1"),
    (("standard", "constituents", "Z9"), [1, 120], "unknown constituent Z9"),
    (("standard", "constituents"), {"M2": [1, 2]}, "should have M2 and S2"),
    (("secondary", 0, "high", "hours"), [0, 12], "twelve hours apart"),
    (("secondary", 0, "low", "metres"), None, "“secondary.0.low.metres” is missing"),
    (("streams", "spacing"), 0, "should be above zero"),
    (("streams", "spacing"), 200, "4 panels of .* make it anew"),
    (("streams", "file"), "none.png", "has no none.png"),
    (("streams", "offshore"), {"flod": 70}, "“streams.offshore.flood” is missing"),
    (("streams", "sounds"), [{"line": [[1, 2]]}], "“streams.sounds.0.line” should have two places"),
    ((*DIAMOND, "place"), "here", r"list such as \[95500, 1004200\]"),
    ((*DIAMOND, "place"), [0, 0], "diamond A lies off this water"),
    ((*DIAMOND, "letter"), "B", "two diamonds have one letter"),
]


@pytest.mark.parametrize(("where", "to", "says"), FAULTS, ids=[f[2][:30] for f in FAULTS])
def test_faults_in_a_coachs_tides_are_named(own, where, to, says):
    path = own / "tides.json"
    data = inner = json.loads(path.read_text())
    for step in where[:-1]:
        inner = inner[step]
    if to is None:
        del inner[where[-1]]
    else:
        inner[where[-1]] = to
    path.write_text(json.dumps(data))
    with pytest.raises(waters.WatersError, match=says):
        waters.load(own)


def test_tides_that_are_missing_or_no_json_are_named(own):
    (own / "tides.json").write_text("{")
    with pytest.raises(waters.WatersError, match=r"tides\.json is not JSON"):
        waters.load(own)
    (own / "tides.json").unlink()
    waters.load.cache_clear()
    with pytest.raises(waters.WatersError, match=r"no tides\.json"):
        _ = waters.load(own).tides
    with pytest.raises(KeyError, match="There are: A, B, C, D, E"):
        TIDES.diamond("Q")
