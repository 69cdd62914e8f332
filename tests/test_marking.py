"""The marker: reads what people write, names the slip, follows through, refuses politely."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from navlib import questions
from navlib.chain.kind import Verdict
from navlib.marking import Outcome, mark
from navlib.questions.bearings import convert
from navlib.questions.bearings.words import variation_words


def of_kind(kind, **givens):
    """Return a question of this kind with givens of our choosing."""
    words = variation_words(givens["variation"]) if "variation" in givens else {}
    return questions.question_type(kind).with_givens({**givens, **words})


def only(marked):
    (part,) = marked.parts
    return part


# Worked by hand from the definitions: C 118, deviation 3 E is M 121; D 6 W makes it T 115.
WEST_6 = of_kind("bearings.magnetic-to-true", magnetic=121.0, variation=-6.0)


@pytest.mark.parametrize(
    "text", ["115°T", "115T", "115 (T)", "T115", "115 true", "one one five true", "S65E"]
)
def test_right_answer_in_every_accepted_form(text):
    assert only(mark(WEST_6, text)).outcome is Outcome.RIGHT


def test_missing_suffix_is_right_with_a_note():
    part = only(mark(WEST_6, "115"))
    assert part.outcome is Outcome.RIGHT
    assert part.noted
    assert "115°T" in part.says[0]


@pytest.mark.parametrize(
    ("text", "slip", "evidence"),
    [
        ("127 T", "variation-sign", "Yours, 127 T, is what you get with the variation of 6°W"),
        ("121 T", "variation-forgotten", "is the compass bearing unchanged"),
        ("125°T", "ten-out", "exactly ten out"),
    ],
)
def test_slip_is_named_with_its_evidence(text, slip, evidence):
    part = only(mark(WEST_6, text))
    assert part.outcome is Outcome.WRONG
    assert part.diagnosis.slips == (slip,)
    assert evidence in part.says[0]


@pytest.mark.parametrize(
    ("text", "verdict", "word"),
    [
        ("115 M", Verdict.QUERY, "magnetic"),
        ("0115", Verdict.QUERY, "042°T"),
        ("", Verdict.QUERY, "042°T"),
        ("412", Verdict.REJECT, "360"),
        ("__import__('os').abort()", Verdict.QUERY, "042°T"),
        ("9**9**9**9**9", Verdict.QUERY, "042°T"),
    ],
)
def test_what_cannot_be_judged_costs_nothing_and_says_what_was_expected(text, verdict, word):
    part = only(mark(WEST_6, text))
    assert part.outcome is Outcome.UNREAD
    assert part.reading.verdict is verdict
    assert word in " ".join(part.says)


def test_answer_that_no_slip_explains_accuses_nobody():
    part = only(mark(WEST_6, "203 T"))
    assert part.outcome is Outcome.WRONG
    assert part.diagnosis.ways == ()
    assert "cannot see the route" in part.says[0]


BACK = of_kind("bearings.back-bearing", true=40.0, variation=-8.0)


def test_later_part_is_carried_from_a_wrong_earlier_one():
    marked = mark(BACK, {"magnetic": "032 M", "back": "212 M"})
    assert [part.outcome for part in marked.parts] == [Outcome.WRONG, Outcome.CARRIED]
    assert marked.slips == ("variation-sign",)
    assert marked.marks == 1


def test_slip_in_a_later_part_is_sought_from_the_learners_own_earlier_answer():
    marked = mark(BACK, {"magnetic": "032 M", "back": "032 M"})
    assert marked.slips == ("variation-sign", "back-forgotten")


def test_learner_who_comes_back_to_the_key_is_right():
    marked = mark(BACK, {"magnetic": "032 M", "back": "228 M"})
    assert [part.outcome for part in marked.parts] == [Outcome.WRONG, Outcome.RIGHT]


def test_two_slips_in_one_answer_are_found_together():
    # In arithmetic, with no instrument in it, an answer two slips away is told as both.
    # G 100, convergence 4 W, D 10 W: T 096, M 106; both put on the wrong way: 094.
    question = of_kind("bearings.three-norths", grid=100.0, convergence=-4.0, variation=-10.0)
    assert only(mark(question, "106 M")).outcome is Outcome.RIGHT
    part = only(mark(question, "094 M"))
    assert part.diagnosis.slips == ("convergence-sign", "variation-sign")
    assert " And: " in part.says[0]


def test_slip_is_told_at_its_own_figure_and_nobody_is_accused_beside_it():
    # In arithmetic, with no instrument in it. 086 is where the slip ends; 089 is a degree from a pair.
    question = of_kind("bearings.three-norths", grid=100.0, convergence=-4.0, variation=-10.0)
    told = {
        text: only(mark(question, text)).diagnosis.slips for text in ("086 M", "087 M", "089 M")
    }
    assert told == {"086 M": ("variation-sign",), "087 M": (), "089 M": ()}


def test_forgotten_correction_does_not_hide_in_the_band_of_the_measurement():
    # The grid bearing is measured to 2°; from the learner's own 110 on it is arithmetic.
    question = of_kind(
        "bearings.map-to-compass",
        **{"a": "A", "b": "B", "line": 110.0, "length_mm": 60.0, "window": None},
        gma=-2.0,
        **variation_words(-2.0),
    )
    assert question.band("magnetic").full == 2
    kept = mark(question, {"grid": "110 G", "magnetic": "112 M"})
    assert kept.right
    forgot = mark(question, {"grid": "110 G", "magnetic": "110 M"})
    assert [part.outcome for part in forgot.parts] == [Outcome.RIGHT, Outcome.NEAR]


def test_two_slips_that_end_together_are_told_as_either_or():
    # Due east with a variation of 5 W: nobody could tell “left out, ten on” from “wrong way, five…”
    question = of_kind("bearings.true-to-magnetic", true=90.0, variation=-5.0)
    part = only(mark(question, "085 M"))  # 095 is right; 085 is the wrong sign, and ten out
    assert part.diagnosis.ways
    assert not part.diagnosis.sure
    assert part.says[0].startswith("Either: ")


any_kind = st.sampled_from(questions.kinds())
any_seed = st.integers(0, 10_000)


@settings(max_examples=150)
@given(any_kind, any_seed)
def test_every_questions_own_answer_is_right(kind, seed):
    question = questions.make(kind, seed)
    marked = mark(question, question.answers)
    assert marked.right
    assert not marked.slips


@settings(max_examples=200)
@given(any_kind, st.integers(0, 20), st.lists(st.text(max_size=300), min_size=1, max_size=3))
def test_garbage_gets_a_polite_reply_and_never_an_error(kind, seed, texts):
    question = questions.make(kind, seed)
    answers = dict(zip(question.asks, texts, strict=False))
    for part in mark(question, answers).parts:
        assert part.outcome is not Outcome.UNREAD or part.says


def test_mark_reads_a_question_only_through_its_chain():
    """The type's own slip sentences put in every value they name, for both signs of variation."""
    for kind in convert.TYPES:
        for seed in range(12):
            question = kind.make(seed)
            for step in question.steps:
                for slip in step.slips:
                    said = slip.says.format_map({**question.written, "yours": "mine"})
                    assert "{" not in said
                    assert "mine" in said
