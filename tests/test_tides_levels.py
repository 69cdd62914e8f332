"""Tidal levels, springs and neaps: against NOAA's published datums, the trade's rule, the sky."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from tide_ports import INVENTED, STATIONS, published_port

from navlib.tides import Levels, Port, springs_and_neaps, tidal_levels

YEAR = datetime(2026, 1, 1, tzinfo=UTC), datetime(2027, 1, 1, tzinfo=UTC)


@pytest.mark.parametrize("key", ["9449880", "9710441", "1612340"])
def test_highest_and_lowest_tide_are_those_noaa_publishes(key):
    # NOAA CO-OPS datums page: HAT and LAT over the tidal datum epoch 1983 to 2001, printed to a
    # millimetre above station datum; the constants are newer than the datums, so a centimetre.
    datums = STATIONS[key]["datums_m"]
    found = tidal_levels(published_port(key), (1983, 2001))
    assert found.hat == pytest.approx(datums["HAT"] - datums["MLLW"], abs=0.01)
    assert found.lat == pytest.approx(datums["LAT"] - datums["MLLW"], abs=0.01)
    assert found.msl == pytest.approx(datums["MSL"] - datums["MLLW"], abs=0.001)


def test_highest_and_lowest_are_among_the_extremes():
    heights = [turn.height for turn in INVENTED.extremes(*YEAR)]
    found = tidal_levels(INVENTED, (2026, 2026))
    assert (found.lat, found.hat) == pytest.approx((min(heights), max(heights)), abs=0.001)


def test_mean_levels_by_the_rule_of_two_constituents():
    # Worked by hand from the rule (common practice): mean level 2.79, M2 1.46, S2 0.59.
    found = tidal_levels(INVENTED)
    assert (found.mhws, found.mhwn, found.msl, found.mlwn, found.mlws) == pytest.approx(
        (4.84, 3.66, 2.79, 1.92, 0.74)
    )
    assert (found.spring_range, found.neap_range) == pytest.approx((4.10, 1.74))
    assert found.lat < found.mlws < found.mlwn < found.mhwn < found.mhws < found.hat


def test_levels_are_worked_once_for_a_port():
    again = Port(
        INVENTED.mean_level, dict(INVENTED.constituents), INVENTED.name, zone=INVENTED.zone
    )
    assert tidal_levels(again) is tidal_levels(INVENTED)


LEVELS = Levels(hat=5.4, mhws=4.8, mhwn=3.7, msl=2.8, mlwn=2.0, mlws=0.7, lat=0.0)


@pytest.mark.parametrize(
    ("tide_range", "fraction", "words"),
    [
        (4.1, 1.0, "springs"),
        (1.7, 0.0, "neaps"),
        (2.9, 0.5, "between"),
        (4.6, 1.25 - 0.1 / 2.4, "springs"),
        (1.4, -0.125, "neaps"),
    ],
)
def test_springs_or_neaps_by_range(tide_range, fraction, words):
    # Worked by hand from the definition (r - rn) / (rs - rn); ranges 4.1 and 1.7 m.
    assert LEVELS.spring_fraction(tide_range) == pytest.approx(fraction)
    assert LEVELS.spring_or_neap(tide_range) == words


def test_springs_follow_new_and_full_moon_and_neaps_the_quarters():
    # Phases of the moon 2026, UTC, almanac, from memory to the hour: full 3 January 1003, new
    # 18 January 1952, full 1 February 2209. The mean moon that tides follow runs up to 14 hours
    # from the true one. Age of the tide: (212 - 176) / 1.0159 = 35.4 hours.
    syzygies = [
        datetime(2026, 1, 3, 10, tzinfo=UTC),
        datetime(2026, 1, 18, 20, tzinfo=UTC),
        datetime(2026, 2, 1, 22, tzinfo=UTC),
    ]
    dates = springs_and_neaps(INVENTED, YEAR[0], datetime(2026, 2, 8, tzinfo=UTC))
    springs = [time for time, word in dates if word == "springs"]
    age = timedelta(hours=36 / 1.0159)
    for moon, spring in zip(syzygies, springs, strict=True):
        assert abs(spring - moon - age) < timedelta(hours=18)


def test_springs_come_every_14_8_days_with_neaps_between_and_ranges_agree():
    dates = springs_and_neaps(INVENTED, *YEAR)
    words = [word for _, word in dates]
    assert set(words[::2]) | set(words[1::2]) == {"springs", "neaps"}
    assert len(set(words[::2])) == len(set(words[1::2])) == 1
    days = np.diff([time.timestamp() for time, _ in dates]) / 86400
    assert days.mean() == pytest.approx(14.765 / 2, abs=0.02)  # synodic month 29.53 d, quartered
    near = timedelta(hours=13)

    def mean_range(word):
        return np.mean(
            [
                np.abs(
                    np.diff([t.height for t in INVENTED.extremes(time - near, time + near)])
                ).mean()
                for time, kind in dates
                if kind == word
            ]
        )

    assert mean_range("springs") == pytest.approx(4.1, abs=0.15)
    assert mean_range("neaps") == pytest.approx(1.74, abs=0.3)


def test_no_springs_without_both_tides():
    with pytest.raises(ValueError, match="lagoon has no S2"):
        tidal_levels(Port(1.0, {"M2": (1.0, 0)}, name="lagoon"))
    with pytest.raises(ValueError, match="this port has no M2"):
        springs_and_neaps(Port(1.0, {"S2": (1.0, 0)}), *YEAR)
