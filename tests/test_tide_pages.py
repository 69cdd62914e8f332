import hashlib
import itertools
import re
import subprocess
import sys
from datetime import UTC, date, datetime, timedelta
from decimal import ROUND_FLOOR, Decimal
from functools import cache
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from drawing import MM, group
from matplotlib.textpath import TextPath

import navlib.waters as waters
from navlib.sheets import pages
from navlib.sheets.pages import curves, printed, shores
from navlib.sheets.pages.atlas import ROOM
from navlib.tides import day_range, mean_curves

MINUS = "\N{MINUS SIGN}"
WATERS = {name: waters.load(name) for name in waters.shipped()}
KESSORAY = WATERS["kessoray"]
STANDARD = KESSORAY.tides.standard
OCTOBER = (2026, 10)  # clocks go back on the 25th
MARCH = (2026, 3)  # clocks go forward on the 29th


@cache
def page(name, kind, *more):
    """A page of a water, drawn once for all tests."""
    water = WATERS[name]
    port = water.tides.standard
    day = water.settings.sheet_date
    return {
        "table": lambda: pages.tide_table(water, port, day.year, day.month),
        "secondary table": lambda: pages.tide_table(water, water.tides.secondary[0], *OCTOBER),
        "short table": lambda: pages.tide_table(water, port, 2027, 2),
        "month": lambda: pages.tide_table(water, port, *more),
        "curve": lambda: pages.tide_curve(water, port),
        "filled curve": lambda: pages.tide_curve(water, water.tides.secondary[0], day),
        "day": lambda: pages.day_curve(water, port, day),
        "long day": lambda: pages.day_curve(water, port, date(2026, 10, 25)),
        "secondary day": lambda: pages.day_curve(water, water.tides.secondary[0], day),
        "differences": lambda: pages.differences_page(water),
        "diamonds": lambda: pages.diamonds_page(water),
        "gate": lambda: pages.gate_page(water, day.year, day.month),
        "atlas": lambda: atlas(name)[more[0] + 6],
    }[kind]()


@cache
def atlas(name):
    return [pages.stream_atlas(WATERS[name], hour) for hour in range(-6, 7)]


KINDS = [
    *[("table",), ("secondary table",), ("short table",), ("curve",), ("filled curve",)],
    *[("day",), ("long day",), ("secondary day",), ("differences",), ("diamonds",), ("gate",)],
    *[("atlas", hour) for hour in range(-6, 7)],
]
EVERY = [(name, *kind) for name in WATERS for kind in KINDS]


def texts(page):
    return page._figure.axes[0].texts


def written(page):
    return " | ".join(t.get_text() for t in texts(page))


@cache
def letters(text, font):
    """Left, bottom, right and top of a text's letters about where it begins, in millimetres."""
    return np.array(TextPath((0, 0), text, prop=font).get_extents().extents) * MM


def ink(text):
    """Left, top, right and bottom of a text's letters, in millimetres on the page."""
    x0, y0, x1, y1 = letters(text.get_text(), text.get_fontproperties())
    x, y = text.get_position()
    left = x - {"left": 0, "center": (x1 - x0) / 2, "right": x1 - x0}[text.get_ha()]
    assert text.get_va() in ("baseline", "center")
    down = (y1 + y0) / 2 if text.get_va() == "center" else 0
    return left, y + down - y1, left + x1 - x0, y + down - y0


def tenth(value):
    """A value to the tenth, a half up, by decimal arithmetic."""
    tenths = (Decimal(f"{float(value):.9f}") * 10 + Decimal("0.5")).to_integral_value(ROUND_FLOOR)
    return ("" if tenths >= 0 else MINUS) + f"{abs(tenths) / 10:.1f}"


def printed_table(page):
    """What a month's page prints: each day's (time, height, bold), in order down the page."""
    all_texts = texts(page)
    numbers = [t for t in all_texts if t.get_size() == 17]
    days = {}
    for number in numbers:
        x, y = number.get_position()
        cell = [t for t in all_texts if 0 <= t.get_position()[0] - x < 56]
        cell = [t for t in cell if -7.6 <= t.get_position()[1] - y < 12.4]
        times = [t for t in cell if re.fullmatch(r"\d{4}", t.get_text())]
        rows = []
        for time in sorted(times, key=lambda t: t.get_position()[1]):
            (height,) = (
                t
                for t in cell
                if t.get_position()[1] == time.get_position()[1] and t.get_ha() == "right"
            )
            rows.append((time.get_text(), height.get_text(), time.get_weight() == "bold"))
        days[int(number.get_text())] = rows
    return days


# Held against published standards ---------------------------------------------------------------


def test_pages_are_a4():
    # ISO 216:2007, table 1: A4 is 210 mm x 297 mm.
    p = page("kessoray", "table")
    assert (p.width_mm, p.height_mm) == (210, 297)
    assert 'width="210mm"' in p.svg()
    assert 'height="297mm"' in p.svg()


@pytest.mark.parametrize(
    ("zone", "clock", "month", "words"),
    [
        # The United Kingdom's summer time begins on the last Sunday of March and ends on the last
        # of October, both at 0100 GMT: Summer Time Order 2002 (S.I. 2002/262), from memory.
        (
            "UT",
            "Europe/London",
            OCTOBER,
            "Times are UT. Clock time here is BST: add 1 hour until 0100 UT on Sunday 25 October; "
            "then GMT: the same as the table.",
        ),
        (
            "UT",
            "Europe/London",
            MARCH,
            "Times are UT. Clock time here is GMT: the same as the table until 0100 UT on Sunday "
            "29 March; then BST: add 1 hour.",
        ),
        ("UT", "Europe/London", (2026, 7), "Times are UT. Clock time here is BST: add 1 hour."),
        (
            "Europe/London",
            "Europe/London",
            OCTOBER,
            "Times are clock time here: BST; GMT from 0100 UT on Sunday 25 October.",
        ),
        # New Zealand daylight time is 13 h ahead, Newfoundland standard time 3 h 30 min behind
        # (IANA time zone database).
        (
            "UTC",
            "Pacific/Auckland",
            (2026, 1),
            "Times are UT. Clock time here is NZDT: add 13 hours, and mind the date.",
        ),
        (
            "UT",
            "America/St_Johns",
            (2026, 1),
            "Times are UT. Clock time here is NST: take off 3 hours 30 minutes.",
        ),
    ],
)
def test_the_clock_note_names_the_instant_of_a_change(zone, clock, month, words):
    assert printed.clock_note(zone, clock, *printed.month_of(*month)) == words


@pytest.mark.parametrize(
    ("metres", "signed", "words"),
    [
        (4.75, False, "4.8"),
        (0.25, False, "0.3"),
        (2.949999, False, "2.9"),
        (-0.04, False, "0.0"),
        (-0.15, False, f"{MINUS}0.1"),
        (-0.6, True, f"{MINUS}0.6"),
        (0.2, True, "+0.2"),
        (0.0, True, "0.0"),
    ],
)
def test_a_half_decimetre_goes_up(metres, signed, words):
    assert printed.decimetre(metres, signed) == words


# Tables -----------------------------------------------------------------------------------------


@cache
def midnight_month():
    """A month in which a high water falls in the last half minute of a day, table time."""
    start = datetime(2026, 1, 1, tzinfo=UTC)
    turns = STANDARD.extremes(start, start + timedelta(days=3650))
    late = [t.time for t in turns if t.kind == "high"]
    zone = ZoneInfo(STANDARD.zone) if STANDARD.zone != "UT" else UTC
    found = next(t.astimezone(zone) for t in late if f"{t.astimezone(zone):%H%M%S}" >= "235930")
    next_day = found + timedelta(days=1)
    return next_day.year, next_day.month, next_day.day


def expected_table(port, year, month):
    """Each day's rows from the engine: to the minute and decimetre, halves later and higher."""
    zone = UTC if port.zone == "UT" else ZoneInfo(port.zone)
    start = datetime(year, month, 1, tzinfo=UTC)
    days = {}
    for turn in port.extremes(start - timedelta(days=2), start + timedelta(days=34)):
        seconds = turn.time.timestamp()
        minute = datetime.fromtimestamp((seconds + 30) // 60 * 60, UTC).astimezone(zone)
        if (minute.year, minute.month) == (year, month):
            row = (f"{minute:%H%M}", tenth(turn.height), turn.kind == "high")
            days.setdefault(minute.day, []).append(row)
    return days


@pytest.mark.parametrize("name", WATERS)
@pytest.mark.parametrize("month", [MARCH, OCTOBER, midnight_month()[:2], (2028, 2)])
def test_a_table_prints_the_engine_to_the_minute_and_decimetre(name, month):
    shown = printed_table(page(name, "month", *month))
    assert shown == expected_table(WATERS[name].tides.standard, *month)


def test_a_high_water_just_before_midnight_stands_on_the_next_day():
    year, month, day = midnight_month()
    first, *_ = printed_table(page("kessoray", "month", year, month))[day]
    assert first[0] == "0000"
    assert first[2]


def test_a_secondary_table_prints_the_shifted_turns():
    port = KESSORAY.tides.secondary[0]
    shown = printed_table(pages.tide_table(KESSORAY, port, *OCTOBER))
    assert shown == expected_table(port, *OCTOBER)
    assert shown != printed_table(page("kessoray", "month", *OCTOBER))


def test_printed_heights_are_the_harmonic_heights_at_the_printed_times():
    for day, rows in printed_table(page("kessoray", "month", *OCTOBER)).items():
        for time, height, _ in rows:
            when = datetime(*OCTOBER, day, int(time[:2]), int(time[2:]), tzinfo=UTC)
            assert STANDARD.heights(when) == pytest.approx(float(height), abs=0.051)


def test_springs_have_larger_ranges_than_neaps():
    days = pages.table.spring_days(KESSORAY, STANDARD, date(*OCTOBER, 1), 31)
    ranges = {kind: [] for kind in ("springs", "neaps")}
    for day, kind in days.items():
        ranges[kind].append(day_range(STANDARD, day))
    assert min(ranges["springs"]) > max(ranges["neaps"])
    words = [t.get_text() for t in texts(page("kessoray", "month", *OCTOBER))]
    assert words.count("springs") == len(ranges["springs"])
    assert words.count("neaps") == len(ranges["neaps"])


# Curves -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", WATERS)
@pytest.mark.parametrize("kind", ["spring", "neap"])
def test_the_drawn_curve_is_the_mean_curve(name, kind):
    mean = getattr(mean_curves(WATERS[name].tides.standard), kind)
    (line,) = group(page(name, "curve").svg(), f"{kind}-curve")
    hours = (line[:, 0] - curves.ZERO_X) / curves.HOUR_MM
    factor = (curves.BASE_Y - line[:, 1]) / curves.FACTOR_MM
    assert hours[0] == pytest.approx(mean.hours[0], abs=0.1 / curves.HOUR_MM)
    assert hours[-1] == pytest.approx(mean.hours[-1], abs=0.1 / curves.HOUR_MM)
    dense = np.linspace(hours[0], hours[-1], 2000)
    drawn = np.interp(dense, hours, factor)
    assert np.abs(mean.factor(dense) - drawn).max() < 0.1 / curves.FACTOR_MM


def test_the_hours_and_factors_stand_at_their_lines():
    at = {t.get_text(): t.get_position() for t in texts(page("kessoray", "curve"))}
    assert at["+3"][0] == pytest.approx(curves.ZERO_X + 3 * curves.HOUR_MM)
    assert at["0.7"][1] == pytest.approx(curves.BASE_Y - 0.7 * curves.FACTOR_MM, abs=1.2)


@pytest.mark.parametrize("day", [date(2026, 7, 12), date(2026, 10, 25), date(2026, 3, 29)])
def test_the_day_is_drawn_as_the_harmonics_have_it(day):
    p = pages.day_curve(KESSORAY, STANDARD, day)
    (line,) = group(p.svg(), "day-curve")
    zone = ZoneInfo(KESSORAY.settings.clock)
    start = datetime(day.year, day.month, day.day, tzinfo=zone).astimezone(UTC)
    after = day + timedelta(days=1)
    end = datetime(after.year, after.month, after.day, tzinfo=zone).astimezone(UTC)
    figures = {t.get_text(): t.get_position() for t in texts(p) if t.get_size() == 8.5}
    metre = (figures["0"][1] - figures["5"][1]) / 5
    hour = np.ptp(line[:, 0]) / ((end - start) / timedelta(hours=1))
    zero = figures["0"][1] - 1.1
    when = [start + timedelta(hours=float(h)) for h in (line[:, 0] - line[0, 0]) / hour]
    heights = STANDARD.heights(when)
    assert np.abs(zero - heights * metre - line[:, 1]).max() < 0.1


# Differences ------------------------------------------------------------------------------------


def test_differences_are_printed_as_the_model_has_them():
    words = [t.get_text() for t in texts(page("kessoray", "differences"))]
    for port in KESSORAY.tides.secondary:
        assert port.name in words
        for half in (port.high, port.low):
            for minutes in half.minutes:
                hours, left = divmod(round(abs(minutes)), 60)
                assert f"{MINUS if minutes < 0 else '+'}{hours:02d}{left:02d}" in words
            for metres in half.metres:
                sign = "+" if tenth(metres) not in ("0.0",) and metres > 0 else ""
                assert sign + tenth(metres) in words


def test_the_example_can_be_worked_from_the_printed_figures():
    from navlib.sheets.pages.differences import example

    text = example(KESSORAY).replace(MINUS, "-")
    pattern = (
        r"(\d{4}), ([\d.]+) m\. Time difference ([-+]\d{4}), height difference ([-+]?[\d.]+) m"
    )
    time, height, minutes, metres = re.search(pattern, text).groups()
    found, level = re.search(r"(\d{4}), ([\d.]+) m\.$", text).groups()
    shift = int(minutes[0] + "1") * (int(minutes[1:3]) * 60 + int(minutes[3:]))
    total = (int(time[:2]) * 60 + int(time[2:]) + shift) % 1440
    assert found == f"{total // 60:02d}{total % 60:02d}"
    assert float(level) == pytest.approx(float(height) + float(metres))


# Streams ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", WATERS)
def test_diamonds_print_the_rows_of_the_model(name):
    water, p = WATERS[name], page(name, "diamonds")
    rows = {}
    for t in texts(p):
        if t.get_size() == 9 and t.get_ha() == "right" and t.get_weight() == "normal":
            rows.setdefault(round(t.get_position()[1], 3), []).append(t)
    shown = [
        [t.get_text() for t in sorted(line, key=lambda t: t.get_position()[0])]
        for _, line in sorted(rows.items())
    ]
    bands = [water.tides.diamonds[k : k + 5] for k in range(0, len(water.tides.diamonds), 5)]
    expected = []
    for band in bands:
        for k in range(13):
            line = []
            for diamond in band:
                row = water.tides.rows(diamond)[k]
                spring, neap = tenth(row.spring_kn), tenth(row.neap_kn)
                set_to = f"{int(row.set_to + 0.5) % 360:03d}"
                line += ["–" if spring == neap == "0.0" else set_to, spring, neap]
            expected.append(line)
    assert shown == expected
    assert water.tides.standard.name in written(p)


@pytest.mark.parametrize("name", WATERS)
@pytest.mark.parametrize("hour", [-6, -3, 0, 1, 4])
def test_atlas_arrows_set_true_and_figures_are_the_models(name, hour):
    water, p = WATERS[name], page(name, "atlas", hour)
    window = shores.atlas_window(water, ROOM)
    model = {tuple(np.round(window.place(*a.place), 2)): a for a in water.tides.atlas(hour)}
    arrows = group(p.svg(), "streams")
    figures = [t for t in texts(p) if re.fullmatch(r"\d{2,3},\d{2,3}", t.get_text())]
    figures = [t for t in figures if window.frame.holds(*t.get_position())]
    assert len(arrows) == len(figures) >= 0.5 * sum(a.spring_kn >= 0.25 for a in model.values())
    places = np.array(list(model))
    for outline, text in zip(arrows, figures, strict=True):
        left, _, right, _ = ink(text)
        neap, spring = text.get_text().split(",")
        comma = left + (right - left) * len(neap + ".") / len(neap + ".." + spring)
        away = np.hypot(places[:, 0] - comma, places[:, 1] - (text.get_position()[1] - 0.95))
        assert away.min() < 0.6
        arrow = model[tuple(places[away.argmin()])]
        assert (neap, spring) == tuple(
            f"{int(float(tenth(v)) * 10 + 0.5):02d}" for v in (arrow.neap_kn, arrow.spring_kn)
        )
        across, down = outline[0] - outline[3:5].mean(axis=0)
        bearing = np.degrees(np.arctan2(across, -down))
        assert (bearing - arrow.set_to + 180) % 360 - 180 == pytest.approx(0, abs=0.5)


@pytest.mark.parametrize("name", WATERS)
def test_a_set_on_the_atlas_runs_along_the_ground_it_names(name):
    # A step of 500 m by pyproj's geodesic along the arrow's set lies on the arrow's line.
    from pyproj import Geod

    from navlib.grids import to_grid

    water = WATERS[name]
    window = shores.atlas_window(water, ROOM)
    for arrow in water.tides.atlas(2)[::7]:
        lat, lon = water.lat_lon(arrow.place)
        far_lon, far_lat, _ = Geod(ellps="WGS84").fwd(lon, lat, arrow.set_to, 500.0)
        start = np.array(window.place(*arrow.place))
        end = np.array(window.place(*to_grid(far_lat, far_lon, water.settings.grid)))
        bearing = np.degrees(np.arctan2(end[0] - start[0], start[1] - end[1]))
        assert (bearing - arrow.set_to + 180) % 360 - 180 == pytest.approx(0, abs=0.1)


def test_the_atlas_has_thirteen_pages_and_no_others():
    with pytest.raises(ValueError, match="-6 to 6, not 7"):
        pages.stream_atlas(KESSORAY, 7)
    assert f"2 hours after HW {STANDARD.name}" in written(page("kessoray", "atlas", 2))
    assert f"1 hour before HW {STANDARD.name}" in written(page("kessoray", "atlas", -1))


@pytest.mark.parametrize("name", WATERS)
def test_gate_times_are_when_the_stream_is_least(name):
    water = WATERS[name]
    gate = pages.gate.main_gate(water)
    day = water.settings.sheet_date.replace(day=1)
    zone = water.tides.standard.zone
    clock = UTC if zone == "UT" else ZoneInfo(zone)
    shown = printed_table(page(name, "gate"))
    slacks = [
        datetime(day.year, day.month, d, int(t[:2]), int(t[2:]), tzinfo=clock)
        for d, rows in shown.items()
        for t, _, _ in rows
    ]
    assert len(slacks) >= 28
    for when in slacks[::5]:
        around = [when + timedelta(minutes=m) for m in (-40, 0, 40)]
        _, rates = water.tides.stream(gate.place, around)
        assert rates[1] < min(rates[0], rates[2])


# Every page -------------------------------------------------------------------------------------


@pytest.mark.parametrize("which", EVERY, ids=lambda w: " ".join(map(str, w)))
def test_no_text_runs_over_another_or_off_the_page(which):
    boxes = [(t.get_text(), ink(t)) for t in texts(page(*which))]
    for text, (left, top, right, bottom) in boxes:
        assert left >= 12, text
        assert right <= 198 or "TRAINING" in text, text
        assert top >= 0, text
        assert bottom <= 292, text
    for (one, a), (other, b) in itertools.combinations(boxes, 2):
        across = min(a[2], b[2]) - max(a[0], b[0])
        down = min(a[3], b[3]) - max(a[1], b[1])
        assert across <= 0 or down <= 0 or across * down <= 0.05, (one, other)


@pytest.mark.parametrize("which", EVERY, ids=lambda w: " ".join(map(str, w)))
def test_every_page_warns_and_can_be_read(which):
    p = page(*which)
    assert "TRAINING – INVENTED PLACE – NOT FOR NAVIGATION" in written(p)
    assert "not for navigation" in p.alt
    assert len(p.alt) > 80
    assert min(t.get_size() for t in texts(p)) >= 7
    assert not any(t.get_parse_math() for t in texts(p))


@pytest.mark.parametrize("kind", [("curve",), ("day",), ("atlas", 0)])
def test_pages_to_measure_on_have_a_true_check_bar(kind):
    bar = np.vstack(group(page("kessoray", *kind).svg(), "check-bar"))
    assert np.ptp(bar[:, 0]) == pytest.approx(100, abs=0.02)


def test_the_same_page_has_the_same_bytes_each_time():
    def all_bytes(made):
        return hashlib.sha256(made.svg().encode() + made.png(60) + made.pdf()).hexdigest()

    code = (
        "import hashlib, navlib.waters as w; from navlib.sheets import pages; k = w.load();"
        f"s = [pages.tide_table(k, k.tides.standard, *{OCTOBER}), pages.stream_atlas(k, 1)];"
        "b = [p.svg().encode() + p.png(60) + p.pdf() for p in s];"
        "print(*[hashlib.sha256(x).hexdigest() for x in b])"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    here = [page("kessoray", "month", *OCTOBER), page("kessoray", "atlas", 1)]
    assert run.stdout.split() == [all_bytes(p) for p in here]
