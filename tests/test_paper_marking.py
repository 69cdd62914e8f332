"""What scripts earn: as a fair marker would award it, whoever the candidate and whatever is written."""

import json
import random
import re
from dataclasses import asdict, replace

import papers_by_hand as by_hand
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from navlib import questions
from navlib.chain.step import needs
from navlib.kinds.angles import Bearing
from navlib.paper.awards import award, labels, script, split
from navlib.paper.scripts import Overrule, to_halves, write_marks

KINDS = questions.kinds()
PAPER = by_hand.papers(1)[0]


def of_kind(kind, marks=6, working=2, **givens):
    """Return an item with givens of our choosing, those that only its words need left empty."""
    made = questions.question_type(kind)
    question = made.with_givens({**dict.fromkeys(made.chain.givens, ""), **givens})
    return replace(by_hand.item(kind, marks=marks, working=working), question=question)


def right(paper=PAPER):
    return {
        label: item.question.answers[name]
        for item in paper.items
        for label, name in labels(item).items()
    }


# Worked by hand by the rules of the trade (common practice): a mark is lost once, where the slip
# was; T 040, D 8 W is M 048, back 228. Six marks: two for working, two for each part.
BACK = of_kind("bearings.back-bearing", true=40.0, variation=-8.0)


@pytest.mark.parametrize(
    ("magnetic", "back", "parts", "working"),
    [
        ("048 M", "228 M", (2, 2), 2),
        ("032 M", "212 M", (0, 2), 1),  # variation put on the wrong way, then rightly on
        ("032 M", "228 M", (0, 2), 1),  # came back to the key
        ("048 M", "048 M", (2, 0), 1),  # not turned round
        ("032 M", "032 M", (0, 0), 0),  # both
        ("049 M", "229 M", (2, 2), 2),  # within the band of what was worked
        ("050 M", "230 M", (1, 2), 2),  # near: half, and what follows is not taken twice
        ("", "228 M", (0, 2), 1),
        ("048 M", "-", (2, 0), 1),
        ("111 M", "291 M", (0, 2), 1),  # nobody knows how, and the second follows from it
    ],
)
def test_a_mark_is_lost_once_where_the_slip_was(magnetic, back, parts, working):
    earned = award(BACK, {"magnetic": magnetic, "back": back})
    assert tuple(part.marks for part in earned.parts) == parts
    assert earned.working == working
    assert earned.suggested


def test_marks_lie_evenly_and_what_is_over_with_the_longest_part_of_them_the_later():
    eta = by_hand.item("speed.round-the-point", marks=7, working=2)  # two steps to each part
    assert split(eta).parts == {"first": 1, "second": 2, "eta": 2}
    diamond = by_hand.item("tides.diamond", marks=6, working=2)  # two, one and three steps
    assert split(diamond).parts == {"hour": 1, "set": 1, "rate": 2}
    few = by_hand.item("tides.diamond", marks=3, working=1)
    assert split(few).parts == {"hour": 0.5, "set": 0.5, "rate": 1}


STYLES = (
    str,
    str.casefold,
    lambda text: f"  {text} ",
    lambda text: re.sub(r"^(\d{3})°([TMGC])$", r"\1 (\2)", text),
    lambda text: re.sub(r"^(\d+)\.(\d+) (NM|km|kn|m)$", r"\1,\2\3", text),
    lambda text: text.replace("'", "′").replace("°", "º"),
)


@pytest.mark.parametrize("kind", KINDS)
def test_who_knows_earns_all_however_it_is_written(kind):
    item = by_hand.item(kind)
    assert sum(split(item).parts.values()) + split(item).working == 6
    for style in STYLES:
        earned = award(item, {n: style(text) for n, text in item.question.answers.items()})
        assert earned.marks == 6, earned
        assert not earned.notation
        assert not earned.decide


def slipping(question, step, slip):
    """Return the answers of someone who makes one slip and works on rightly; None if one cannot."""
    values = question.chain.run(question.givens, {step: slip})
    own = {}
    for name in question.asks:
        if values[name] is None:
            return None
        kind = question.chain.by_name[name].kind
        own[name] = kind.rounded(values[name])
        values = question.chain.run(question.givens, {step: slip}, fixed=own)
    return {n: question.chain.by_name[n].kind.write(value) for n, value in own.items()}


@pytest.mark.parametrize(
    "kind", [kind for kind in KINDS if len(by_hand.item(kind).question.asks) > 1]
)
def test_who_makes_a_slip_loses_that_part_and_what_follows_is_carried(kind):
    item = by_hand.item(kind)
    question, chain = item.question, item.question.chain
    first = question.asks[0]
    for step in chain.upstream(first):
        for slip in step.slips:
            answers = slipping(question, step.name, slip)
            if answers is None:
                continue
            earned = award(item, answers)
            lost = split(item).parts[first]
            assert earned.parts[0].marks == 0, (slip.name, earned)
            if not any(part.held for part in earned.parts):
                assert sum(part.marks for part in earned.parts) >= 4 - lost, (slip.name, earned)
            assert earned.marks < 6


def test_a_slip_in_a_step_that_two_parts_share_costs_its_marks_once():
    # Minutes of longitude taken for miles: both distance and bearing come from them.
    item = by_hand.item("position.between-positions")
    step = next(
        s for s in item.question.chain.steps if any(x.name == "minutes-for-miles" for x in s.slips)
    )
    slip = next(slip for slip in step.slips if slip.name == "minutes-for-miles")
    earned = award(item, slipping(item.question, step.name, slip))
    assert [part.outcome for part in earned.parts] == ["wrong", "carried"]
    assert earned.slips == ("minutes-for-miles",)


def test_nothing_is_carried_from_a_slip_that_took_the_difficulty_away():
    # V 7 E, deviation 8 E: the error is 15 E, C 072 is T 087. With an error of 0 nothing is left to do.
    item = of_kind("variation.compass-error", variation=7.0, deviation=8.0, compass=72.0)
    assert award(item, {"error": "15 E", "true": "087 T"}).marks == 6
    carried = award(item, {"error": "1 W", "true": "071 T"}).parts[1]
    assert (carried.outcome, carried.marks, carried.held) == ("carried", 2, "")
    empty = award(item, {"error": "0 E", "true": "072 T"}).parts[1]
    assert (empty.outcome, empty.marks) == ("carried", 0)
    assert "nothing left to do" in empty.says[0]


def test_without_working_nothing_is_carried_from_a_value_that_nothing_explains():
    strange = {"magnetic": "111 M", "back": "291 M"}
    assert [award(BACK, strange, ticked).parts[1].marks for ticked in (None, 1, 0)] == [2, 2, 0]
    slipped = {"magnetic": "032 M", "back": "212 M"}  # a slip says where it came from
    assert award(BACK, slipped, 0).parts[1].marks == 2


def measured(question, source):
    """Return the answers of someone who works rightly with instruments that scatter."""
    chain, values = question.chain, dict(question.givens)
    for step in chain.steps:
        value = chain.run(question.givens, fixed=values)[step.name]
        for error in step.errors:
            sigma = error.sigma
            if callable(sigma):
                sigma = sigma(**{name: values[name] for name in needs(sigma)})
            value = (error.push or step.kind.shift)(value, source.gauss(0, sigma))
        values[step.name] = step.kind.rounded(value) if step.read_off else value
    return {name: chain.by_name[name].kind.write(values[name]) for name in question.asks}


MEASURED = [
    kind for kind in KINDS if any(step.errors for step in questions.question_type(kind).chain.steps)
]


def test_who_measures_as_well_as_the_instruments_allow_is_right_19_times_in_20():
    """Full marks within two standard deviations: 95.4 % of a normal scatter, by its table."""
    source = random.Random(7)
    shares = {}
    for kind in MEASURED:
        item = by_hand.item(kind)
        earned = [award(item, measured(item.question, source)) for _ in range(12)]
        shares[kind] = sum(part.marks for one in earned for part in one.parts) / (4 * len(earned))
    # Lowest are positions: a last digit off in latitude is, just, more than a sea mile's.
    assert min(shares.values()) > 0.6, shares
    assert sum(shares.values()) / len(shares) > 0.95, shares


def test_blank_is_nothing_and_asks_nobody():
    for nothing in ("", "  ", "-", "–", "…"):
        blank = script(PAPER, "01", dict.fromkeys(right(), nothing))
        assert (blank.total, blank.undecided, blank.passed) == (0, 0, False)
        assert all(part.text == "" for item in blank.items for part in item.parts)


RUBBISH = ("#import(x)", "=1+1", "412", "x" * 10_000, "?", "1e999")


def test_what_cannot_be_read_goes_to_a_person_and_costs_nothing_yet():
    for text in RUBBISH:
        found = script(PAPER, "01", {**right(), "2a": text})
        (part,) = found.items[1].decide
        assert (part.label, part.marks) == ("2a", 0)
        assert found.total + found.undecided >= found.out_of - 1  # but for the step's working
        decided = script(PAPER, "01", {**right(), "2a": text}, {}, {2: Overrule(5.5, "210", "AB")})
        assert (decided.undecided, decided.total) == (0, found.out_of - 0.5)


def test_a_pass_that_hangs_on_a_decision_is_left_open():
    short = replace(PAPER, blueprint=replace(PAPER.blueprint, pass_mark=59))
    assert script(short, "01", right()).passed is True
    assert script(short, "01", {**right(), "2b": "21O?"}).passed is None
    assert script(short, "01", {**right(), "2b": ""}).passed is False


def bare(item):
    """Return the right answers, bearings without their north."""
    asked = item.question.chain.by_name
    return {
        label: re.sub("[TMGC]$", "", item.question.answers[name])
        if isinstance(asked[name].kind, Bearing)
        else item.question.answers[name]
        for label, name in labels(item).items()
    }


def test_a_missing_north_costs_the_notation_mark_once_a_paper():
    answers = {label: text for item in PAPER.items for label, text in bare(item).items()}
    assert sum(right()[label] != text for label, text in answers.items()) > 3
    found = script(PAPER, "01", answers)
    assert (found.notation, found.total) == (1, found.out_of - 1)
    assert script(PAPER, "01", {**right(), "1a": answers["1a"]}).total == found.total
    # Two figures are a habit of writing, and not a missing north.
    two = of_kind("bearings.magnetic-to-true", magnetic=50.0, variation=-8.0)
    assert not award(two, {"true": "42°T"}).notation
    assert award(two, {"true": "042"}).notation
    # A wrong figure has lost its marks already.
    assert not award(two, {"true": "058"}).notation


def test_marks_are_halves_between_nothing_and_all():
    assert [write_marks(marks) for marks in (0, 0.5, 1, 3.5, 10)] == ["0", "½", "1", "3½", "10"]
    for marks, kept in ((2.74, 2.5), (-1, 0), (9, 4), (float("nan"), 0), (float("inf"), 0)):
        assert to_halves(marks, 4) == kept


WRITTEN = st.one_of(
    st.text(max_size=30),
    st.sampled_from((*RUBBISH, "\0", "٣")),
    st.integers(0, 400).map("{:03} M".format),
    st.decimals(0, 30, places=1).map("{} NM".format),
    st.sampled_from(sorted({text for text in right().values()})),
)
TICKED = st.dictionaries(st.integers(1, 10), st.floats(allow_nan=True))


@settings(max_examples=40, deadline=None)
@given(st.dictionaries(st.sampled_from(sorted(right())), WRITTEN), TICKED, TICKED, st.randoms())
def test_no_script_earns_less_than_nothing_or_more_than_all(answers, ticked, given, source):
    overruled = {number: Overrule(marks, "seen", "AB") for number, marks in given.items()}
    found = script(PAPER, "01", answers, ticked, overruled)
    assert 0 <= found.total <= found.out_of == 60
    assert 0 <= found.undecided <= 60
    assert all(0 <= item.marks <= item.out_of for item in found.items)
    assert all(part.marks % 0.5 == 0 for item in found.items for part in item.parts)
    shuffled = list(answers.items())
    source.shuffle(shuffled)
    assert script(PAPER, "01", dict(shuffled), ticked, overruled) == found
    assert json.loads(json.dumps(asdict(found)))["candidate"] == "01"
