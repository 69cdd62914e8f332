"""Kinds of answer that are quantities, times, choices and orders: read, written, compared."""

from datetime import UTC, date, datetime, timedelta
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from navlib.chain.kind import Verdict
from navlib.kinds.choices import Choice, Order
from navlib.kinds.numbers import Number, decimals, to_step
from navlib.kinds.quantities import Distance, Height, Length, Speed
from navlib.kinds.times import Clock, Duration
from navlib.units import NM

ACCEPT, NOTE, QUERY, REJECT = Verdict.ACCEPT, Verdict.NOTE, Verdict.QUERY, Verdict.REJECT

LONDON, JUNE = "Europe/London", date(2026, 6, 15)
TREND = Choice({"a": "rising", "b": "falling", "c": "slack"})
TIDES = Choice({"springs": "Springs", "neaps": "Neaps"})
SAFE = Choice({"yes": "yes", "no": "no"})
STAGES = Order({"a": "appraise", "b": "plan", "c": "carry out"})

# Forms in common use, with the verdict of a fair marker.
READINGS = [
    (Distance(), ACCEPT, 0.7 * NM,
     ["0.7 NM", "0.7 nm", "0.7M", "7 cables", "7 ca", ".7 NM", "0·7 NM", "0,7 NM", "0.7nmi",
      "0.7 nautical miles", "7/10 NM", "1296.4 m", "1.2964 km", "~0.7 NM"]),
    (Distance(), ACCEPT, 1300.0, ["1.3 km", "1300 m", "1 300 m", "1300 metres"]),
    (Distance(), NOTE, 0.7 * NM, ["0.7 miles", "0.70 NM"]),
    (Distance(), QUERY, None,
     ["0.7", "7", "0.7 m", "50 m", "0.7 mi", "1300 M", "1,300 m", "seven cables", "0.7 leagues",
      ""]),
    (Distance(), REJECT, None, ["-0.7 NM"]),
    (Distance(unit_asked=True), NOTE, 0.7 * NM, [".7", "0,7", "7 cables"]),
    (Distance("m", 50), ACCEPT, 50.0, ["50 m"]),
    (Distance("km", 0.1), QUERY, None, ["5 miles", "5"]),
    (Length(), ACCEPT, 0.072, ["72 mm", "7.2 cm", "72mm", "7,2 cm", "72 millimetres"]),
    (Length(), QUERY, None, ["72", "7.2"]),
    (Speed(), ACCEPT, 4.0, ["4.0 kn", "4 kn", "4kt", "4 knots", "7.408 km/h", "4 NM/h"]),
    (Speed(), NOTE, 4.0, ["4", "4.0", "4.00 kn"]),
    (Speed(), NOTE, 3.98, ["3.98"]),
    (Speed(), REJECT, None, ["-4 kn"]),
    (Height(), ACCEPT, 3.2, ["3.2 m", "3.2m", "3m2", "+3.2 m", "3,2 m", "32 dm"]),
    (Height(), NOTE, 3.2, ["3.2", "+3.2", "3.20 m"]),
    (Height(), ACCEPT, -0.2, ["-0.2 m", "−0.2m", "-0m2"]),
    (Height(), QUERY, None, ["32", "10 ft", "10 feet", "about three"]),
    (Height(rounding=1), NOTE, 284.0, ["284"]),
    (Number(), ACCEPT, 12.0, ["12", "12.", " 12 "]),
    (Number("%"), ACCEPT, 12.0, ["12", "12%", "12 %"]),
    (Number(), QUERY, None, ["12 x", "dozen"]),
    (Duration(), ACCEPT, 105.0, ["1h45", "1:45", "1 h 45 min", "105 min", "1.75 h", "1¾ h"]),
    (Duration(), NOTE, 105.0, ["105"]),
    (Duration(), QUERY, None, ["1.45", "20"]),
    (Duration("min"), NOTE, 20.0, ["20"]),
    (TREND, ACCEPT, "b", ["b", "B", "b)", "(b)", "falling", "FALLING", "b) falling", "fall", "f"]),
    (TREND, QUERY, None, ["a or b", "up", "", "()"]),
    (TREND, REJECT, None, ["d", "1"]),
    (TIDES, ACCEPT, "springs", ["springs", "Sp", "spr", "a", "A.", "a) Springs"]),
    (SAFE, ACCEPT, "yes", ["yes", "Y", "YES!", "true"]),
    (SAFE, ACCEPT, "no", ["no", "N", "false"]),
    (SAFE, QUERY, None, ["perhaps"]),
    (STAGES, ACCEPT, ("b", "a", "c"),
     ["b a c", "B, A, C", "bac", "b > a > c", "b->a->c", "b-a-c", "plan, appraise, carry out",
      "plan then appraise then carry out"]),
    (STAGES, QUERY, None, ["ba", "b a d", "", "hm"]),
    (STAGES, REJECT, None, ["b a b", "bab"]),
]  # fmt: skip
FLAT = [(kind, verdict, value, text) for kind, verdict, value, texts in READINGS for text in texts]


@pytest.mark.parametrize(("kind", "verdict", "value", "text"), FLAT)
def test_verdict_and_value_of_a_written_answer(kind, verdict, value, text):
    reading = kind.read(text)
    assert reading.verdict is verdict
    assert reading.value == (pytest.approx(value) if isinstance(value, float) else value)
    assert bool(reading.says) is (verdict is not ACCEPT)


SUMMER = Clock(LONDON, JUNE)


@pytest.mark.parametrize(
    ("kind", "text", "verdict", "utc"),
    [
        (SUMMER, "1445", ACCEPT, "1345"), (SUMMER, "1445 BST", ACCEPT, "1345"),
        (SUMMER, "14:45 LT", ACCEPT, "1345"), (SUMMER, "2.45 pm", NOTE, "1345"),
        (SUMMER, "1345 UT", NOTE, "1345"), (SUMMER, "1345Z", NOTE, "1345"),
        (SUMMER, "2:45", QUERY, None), (SUMMER, "1445 CEST", QUERY, None),
        (SUMMER, "0860", REJECT, None),
        (Clock(), "1445", ACCEPT, "1445"), (Clock(), "1445 LT", QUERY, None),
        (Clock(), "1445 BST", QUERY, None),
        (Clock(ashore=LONDON), "1545 BST", NOTE, "1445"),
        (Clock(zone_needed=True), "1445", QUERY, None),
        (Clock(zone_needed=True), "1445 GMT", ACCEPT, "1445"),
        (Clock(LONDON, date(2026, 3, 29)), "0130", REJECT, None),
        (Clock(LONDON, date(2026, 10, 25)), "0130", QUERY, None),
        (Clock(LONDON, date(2026, 10, 25)), "0130 BST", ACCEPT, "0030"),
    ],
)  # fmt: skip
def test_verdict_on_a_clock_time_and_its_zone(kind, text, verdict, utc):
    reading = kind.read(text)
    assert reading.verdict is verdict
    assert (reading.value and f"{reading.value.astimezone(UTC):%H%M}") == utc


@pytest.mark.parametrize(
    ("key", "text", "minutes"),
    [
        (datetime(2026, 7, 1, 23, 5, tzinfo=UTC), "0005", 0),
        (datetime(2026, 7, 1, 23, 5, tzinfo=UTC), "2355 BST", -10),
        (datetime(2026, 7, 1, 23, 5, tzinfo=UTC), "0005 UT", 60),
        (datetime(2026, 12, 1, 14, 45, tzinfo=UTC), "1445 LT", 0),
        (datetime(2026, 3, 29, 1, 33, tzinfo=UTC), "0233", 0),  # the night the clocks go forward
        (datetime(2026, 3, 29, 1, 33, tzinfo=UTC), "0133 UT", 0),
        (datetime(2026, 3, 29, 1, 33, tzinfo=UTC), "0233 GMT", 60),
    ],
)
def test_clock_times_are_compared_across_midnight_and_clock_changes(key, text, minutes):
    undated, dated = Clock(LONDON), Clock(LONDON, key.date())
    assert undated.apart(undated.read(text).value, key) == minutes
    assert dated.apart(dated.read(text).value, key) == minutes


def test_clock_rounds_to_the_safe_side_on_its_own_date():
    when = datetime(2026, 6, 1, 12, 22, 34, tzinfo=UTC)
    assert Clock(side="earlier").write(when) == "1222 UT"
    assert Clock(side="later", rounding=5).write(when) == "1225 UT"
    assert Clock().rounded(when) == datetime(2026, 6, 1, 12, 23, tzinfo=UTC)


def test_quantities_round_to_the_safe_side():
    assert [Height(side=side).write(3.27) for side in ("near", "down", "up")] == [
        "3.3 m", "3.2 m", "3.3 m",
    ]  # fmt: skip
    assert Height(side="down").write(3.2) == Height(side="up").write(3.2) == "3.2 m"
    assert [to_step(x, 0.1) for x in (0.25, -0.04)] == [pytest.approx(0.3), 0]
    assert Height().write(-0.04) == "0.0 m"
    assert [decimals(step) for step in (0.1, 0.05, 1, 50, 2.5)] == [1, 2, 0, 0, 1]
    assert Duration(rounding=5, side="up").write(61) == "1 h 05"


def test_answers_written_in_the_unit_asked():
    assert Distance("m", 50).write(1310) == "1300 m"
    assert [Distance("cable", 1).write(c * 185.2) for c in (1, 7)] == ["1 cable", "7 cables"]
    assert [Duration().write(68), Duration("min").write(68)] == ["1 h 08", "68 min"]
    assert [TREND.write("b"), TIDES.write("springs"), SAFE.write("no")] == [
        "b) falling", "a) Springs", "no",
    ]  # fmt: skip
    with pytest.raises(ValueError, match="no unit of a distance"):
        Distance("furlong")
    with pytest.raises(ValueError, match="no unit of a duration"):
        Duration("days")


def test_orders_differ_by_the_pairs_turned_round():
    assert STAGES.apart(("a", "b", "c"), ("a", "b", "c")) == 0
    assert STAGES.apart(("b", "a", "c"), ("a", "b", "c")) == 1
    assert STAGES.apart(("c", "b", "a"), ("a", "b", "c")) == 3
    assert TREND.apart("a", "a") == 0
    assert TREND.apart("a", "b") > 2 * TREND.rounding


NUMBERS = [
    Distance(), Distance("km"), Distance("m", 50), Distance("cable", 1), Distance(side="down"),
    Length(), Length("cm", 0.1), Speed(), Speed("km/h"), Height(), Height(rounding=1), Number(),
    Number("%", 0.5), Duration(), Duration("min"), Duration(side="up", rounding=5),
]  # fmt: skip
CLOCKS = [Clock(), Clock(LONDON, JUNE), Clock(LONDON), Clock(zone_needed=True)]
ALL = [*NUMBERS, *CLOCKS, TREND, TIDES, SAFE, STAGES]


@given(st.sampled_from(NUMBERS), st.floats(0, 500))
def test_what_is_written_reads_back_rounded(kind, amount):
    value = kind.shift(0.0, amount)
    reading = kind.read(kind.write(value))
    assert reading.verdict is ACCEPT
    off = kind.apart(reading.value, value)
    slack = 1e-6
    reach = {"near": (-0.5, 0.5), "down": (-1, 0), "up": (0, 1)}[kind.side]
    assert reach[0] * kind.rounding - slack <= off <= reach[1] * kind.rounding + slack
    assert kind.write(reading.value) == kind.write(value)


@given(st.sampled_from(CLOCKS), st.integers(0, 1439), st.floats(-700, 700))
def test_clock_times_read_back_and_shift(kind, minute, by):
    when = datetime(2026, 6, 15, tzinfo=UTC) + timedelta(minutes=minute)
    reading = kind.read(kind.write(when))
    assert reading.verdict is ACCEPT
    assert kind.apart(reading.value, when) == 0
    for value in (when, reading.value):
        assert kind.apart(kind.shift(value, by), value) == pytest.approx(by, abs=1e-6)


@given(st.sampled_from(NUMBERS), st.floats(0, 1e5), st.floats(-100, 100))
def test_shift_and_apart_share_one_measure(kind, value, by):
    assert kind.apart(kind.shift(value, by), value) == pytest.approx(by, abs=1e-6)


@given(st.integers(1, 400))
def test_every_way_of_writing_a_distance_reads_the_same(cables):
    whole, tenth = divmod(cables, 10)
    forms = [
        f"{whole}.{tenth} NM", f"{whole},{tenth}nm", f"{whole}·{tenth} M", f"{cables} cables",
        f"{cables} ca", f"{whole}.{tenth} Nautical Miles", f"{cables * 0.1852:.4f} km",
        f"{whole} {tenth}/10 NM" if tenth else f"{whole} NM",
    ]  # fmt: skip
    for form in forms:
        reading = Distance().read(form)
        assert reading.verdict is ACCEPT
        assert reading.value == pytest.approx(cables * 185.2)


@given(st.integers(-9, 150))
def test_every_way_of_writing_a_height_reads_the_same(tenths):
    metres, tenth = divmod(abs(tenths), 10)
    sign = "-" if tenths < 0 else ""
    for form in ("{0}{1}.{2} m", "{0}{1}m{2}", "{0}{1},{2}m", "{0} {1}·{2} M", "{0}{1}.{2}"):
        assert Height().read(form.format(sign, metres, tenth)).value == pytest.approx(tenths / 10)


@given(st.permutations("abcd"), st.sampled_from([" ", ", ", "", ">", " -> ", "-", "; "]))
def test_every_way_of_writing_an_order_reads_the_same(letters, between):
    kind = Order(dict(zip("abcd", ("read", "apply", "plot", "check"), strict=True)))
    for text in (between.join(letters), between.join(letters).upper(), kind.write(tuple(letters))):
        assert kind.read(text).value == tuple(letters)


def test_every_option_and_order_reads_back():
    for choice in (TREND, TIDES, SAFE):
        assert [choice.read(choice.write(key)).value for key in choice.options] == [*choice.options]
    for order in permutations("abc"):
        assert STAGES.read(STAGES.write(order)).value == order


TYPED = st.text(max_size=200) | st.text("0123456789 ½¾.,:/+-'()ahmnkcNMUTBSpdey%", max_size=14)


@settings(max_examples=200)
@given(TYPED)
def test_no_text_whatever_raises(text):
    for kind in ALL:
        reading = kind.read(text)
        assert (reading.value is None) == (reading.verdict in (QUERY, REJECT))
