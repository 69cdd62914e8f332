"""The chain: one definition from which answers, bands, workings and wrong ways derive."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib.chain.chain import Chain, band
from navlib.chain.question import NoFairNumbers, QuestionType
from navlib.chain.step import Error, Slip, Step
from navlib.kinds.numbers import Number

MONEY = Number(rounding=1.0)

# A chain that has nothing to do with navigation: what a boatyard's bill comes to.
PLANKS = Step(
    "wood",
    MONEY,
    lambda planks, price: planks * price,
    how="Planks times price.",
    line="{planks} at {price} is {wood}",
    check="More planks, more money?",
    slips=(
        Slip("added", lambda planks, price: planks + price, "{yours} adds {planks} and {price}."),
    ),
    errors=(Error("miscounting", lambda price: price / 2),),
)
DISCOUNT = Step(
    "bill",
    MONEY,
    lambda wood, off: wood - off,
    how="Take the discount off.",
    line="{wood} less {off} is {bill}",
    slips=(
        Slip("put-on", lambda wood, off: wood + off, "{yours} puts {off} on."),
        Slip("left-out", lambda wood: wood, "{yours} leaves the discount out."),
        Slip("no-such-way", lambda: None, "never"),
    ),
    errors=(Error("small change", 2.0),),
)
BILL = Chain({"planks": MONEY, "price": MONEY, "off": MONEY}, (PLANKS, DISCOUNT))
GIVENS = {"planks": 20.0, "price": 30.0, "off": 80.0}

TYPE = QuestionType(
    "yard.bill",
    "The bill",
    "yard",
    1,
    BILL,
    lambda source: {"planks": source.randint(10, 90), "price": 30, "off": source.randint(1, 99)},
    "{planks} planks at {price}, {off} off.",
    {"wood": "Wood", "bill": "Bill"},
)


def test_answer_working_and_hints_come_from_one_definition():
    question = TYPE.with_givens(GIVENS)
    assert question.text == "20 planks at 30, 80 off."
    assert question.answers == {"wood": "600", "bill": "520"}
    assert question.working() == ("20 at 30 is 600", "600 less 80 is 520")
    assert question.hints("wood") == (
        "More planks, more money?",
        "Planks times price.",
        "20 at 30 is …",
    )
    assert question.hints("bill")[1] == "Take the discount off."


@given(*(st.floats(1, 100) for _ in range(3)))
def test_errors_add_as_root_sum_of_squares_of_the_responses(planks, price, off):
    givens = {"planks": planks, "price": price, "off": off}
    assert BILL.sigma(givens, "wood") == pytest.approx(price / 2)
    assert BILL.sigma(givens, "bill") == pytest.approx(math.hypot(price / 2, 2))
    # Going on from a learner's own wood, only the errors after it are left.
    assert BILL.sigma(givens, "bill", fixed={"wood": 7.0}) == pytest.approx(2)


@pytest.mark.parametrize(
    # Two standard deviations and half a unit, to the nearest unit, never below one: common practice.
    ("sigma", "rounding", "full"),
    [(0, 1, 1), (1.77, 1, 4), (0.95, 1, 2), (0.77, 1, 2), (0.72, 1, 2), (0.02, 0.1, 0.1)],
)
def test_band_widths(sigma, rounding, full):
    assert band(sigma, rounding).full == pytest.approx(full)
    assert band(sigma, rounding).part == pytest.approx(2 * full)


def test_rest_of_the_chain_follows_from_a_learners_own_answer():
    assert BILL.run(GIVENS, fixed={"wood": 500.0})["bill"] == 420


def test_wrong_ways_are_each_slip_and_each_pair_that_says_more():
    ends = {tuple(s.name for _, s in r.slips): r.value for r in BILL.routes(GIVENS, "bill")}
    assert ends == {
        ("added",): -30,
        ("put-on",): 680,
        ("left-out",): 600,
        ("added", "put-on"): 130,
        ("added", "left-out"): 50,
    }
    nothing_off = {**GIVENS, "off": 0.0}
    pairs = [r for r in BILL.routes(nothing_off, "bill") if len(r.slips) == 2]
    assert pairs == []  # with nothing off, the second slip changes nothing


def test_fair_numbers_keep_every_slip_beyond_the_part_band():
    assert BILL.separable(GIVENS, "bill")
    assert not BILL.separable({**GIVENS, "off": 50.0}, "bill")  # part band of wood's error: 60
    for question in map(TYPE.make, range(20)):
        wood = {"wood": question.values["wood"]}
        for asked, before in (("wood", {}), ("bill", wood)):
            part = BILL.band(question.givens, asked, before).part
            for route in BILL.routes(question.givens, asked, before, most=1):
                assert abs(route.value - question.values[asked]) > part


def test_same_seed_same_question_other_seed_other_numbers():
    assert TYPE.make(7).text == TYPE.make(7).text
    assert len({TYPE.make(seed).text for seed in range(20)}) > 15


def test_type_that_never_draws_fair_numbers_says_so():
    lazy = QuestionType(
        "yard.free", "Free", "yard", 1, BILL, lambda _: {**GIVENS, "off": 0}, "", {"bill": ""}
    )
    with pytest.raises(NoFairNumbers, match=r"yard\.free, seed 3"):
        lazy.make(3)


def test_chain_refuses_a_step_that_takes_what_does_not_come_before_it():
    with pytest.raises(ValueError, match="step “bill”: its work takes wood"):
        Chain({"planks": MONEY, "price": MONEY, "off": MONEY}, (DISCOUNT, PLANKS))
    with pytest.raises(ValueError, match="used twice"):
        Chain({"wood": MONEY, "planks": MONEY, "price": MONEY}, (PLANKS,))
