"""Item analysis: published examples, reference libraries, and what a class is told."""

import json
import math
from pathlib import Path

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from scipy import stats

from navlib.paper import analysis, sentences
from navlib.paper.findings import findings

PUBLISHED = json.loads(
    (Path(__file__).parent / "data" / "item_analysis.json").read_text(encoding="utf-8")
)

marks = st.tuples(st.integers(1, 12), st.integers(1, 6)).flatmap(
    lambda shape: arrays(float, shape, elements=st.integers(0, 10).map(lambda n: n / 2))
)


def right(rows: list[str]) -> np.ndarray:
    return np.array([[float(mark) for mark in row] for row in rows])


# Published examples


def test_kr20_of_ten_students_is_that_of_the_printed_table():
    table = PUBLISHED["kr20"]
    shares = right(table["rows"])
    assert shares.sum(axis=1).tolist() == table["totals"]
    assert analysis.facility(shares) == pytest.approx(table["p"])
    by_hand = 10 / 9 * (1 - sum(table["pq"]) / table["variance"])
    assert analysis.kr20(shares) == pytest.approx(by_hand, abs=1e-12)


def test_alpha_of_three_questions_is_the_printed_one():
    table = PUBLISHED["alpha"]
    assert analysis.alpha(np.array(table["columns"], float).T) == pytest.approx(table["alpha"])


@pytest.mark.parametrize("table", PUBLISHED["point_biserial"], ids=lambda t: t["source"][:30])
def test_point_biserial_is_the_printed_one(table):
    r = analysis.correlation(table["right"], table["score"])
    assert r == pytest.approx(table["r"], abs=table["half_digit"])


@pytest.mark.parametrize(("said", "times"), [("11100001", 17), ("11110000", 1)])
def test_chance_of_tasting_tea_is_fishers(said, times):
    # Groups of four may part either way, so each of Fisher's ways has its mirror image.
    cups = right([said]).T
    apart = analysis.compare_groups(cups, [1] * 4 + [2] * 4)
    assert (apart.exact, apart.ways) == (True, PUBLISHED["tea"]["ways"])
    assert apart.chance[0] == pytest.approx(2 * times / 70)


# Against reference libraries


@settings(max_examples=40)
@given(marks)
def test_correlation_and_alpha_agree_with_scipy_and_pandas(matrix):
    frame = pd.DataFrame(matrix)
    rest = frame.rsub(frame.sum(axis=1), axis=0)
    for column, r in enumerate(analysis.discrimination(matrix)):
        if r is None:
            assert frame[column].nunique() == 1 or rest[column].nunique() == 1
        else:
            assert r == pytest.approx(stats.pearsonr(frame[column], rest[column])[0], abs=1e-9)
    covariance = frame.cov().to_numpy() if len(frame) > 1 else np.zeros((1, 1))
    whole, k = covariance.sum(), frame.shape[1]
    alpha = analysis.alpha(matrix)
    if alpha is None:
        assert len(frame) < 2 or k < 2 or whole == pytest.approx(0)
    else:
        assert alpha == pytest.approx(k / (k - 1) * (1 - np.trace(covariance) / whole))


@settings(max_examples=40)
@given(arrays(bool, 9), arrays(float, 9, elements=st.integers(0, 60)))
def test_correlation_with_right_and_wrong_is_point_biserial(column, totals):
    r = analysis.correlation(column, totals)
    if r is not None:
        assert r == pytest.approx(stats.pointbiserialr(column, totals)[0], abs=1e-9)


@settings(max_examples=25)
@given(arrays(float, (7, 1), elements=st.integers(0, 10)))
def test_chance_agrees_with_scipys_exact_permutation_test(values):
    apart = analysis.compare_groups(values, [1, 1, 1, 2, 2, 2, 2])
    reference = stats.permutation_test(
        (values[:3, 0], values[3:, 0]),
        lambda a, b: abs(np.mean(a) - np.mean(b)),
        alternative="greater",
    )
    assert apart.chance[0] == pytest.approx(reference.pvalue)


def test_quartiles_and_bounds_agree_with_pandas_and_scipy():
    totals = pd.Series([12.5, 33, 40, 41, 41, 47.5, 58])
    spread = analysis.spread(totals)
    assert (spread.lower, spread.median, spread.upper) == tuple(totals.quantile([0.25, 0.5, 0.75]))
    assert (spread.mean, spread.sd) == pytest.approx((totals.mean(), totals.std()))
    interval = stats.pearsonr([1, 2, 3, 4, 5, 6], [2, 1, 4, 3, 6, 5]).confidence_interval(0.95)
    r = analysis.correlation([1, 2, 3, 4, 5, 6], [2, 1, 4, 3, 6, 5])
    assert analysis.bounds(r, 6) == pytest.approx(tuple(interval), abs=1e-4)  # 1.96 is rounded


# What holds whatever the marks


@settings(max_examples=30)
@given(marks, st.randoms(use_true_random=False))
def test_order_of_the_candidates_is_of_no_account(matrix, source):
    turned = source.sample(range(len(matrix)), len(matrix))
    one, other = (findings(m, [5] * m.shape[1]) for m in (matrix, matrix[turned]))
    for mine, theirs in zip(one.questions, other.questions, strict=True):
        assert mine.outer == pytest.approx(theirs.outer) if mine.outer else theirs.outer is None
        assert mine.discrimination.value == pytest.approx(theirs.discrimination.value)


@pytest.mark.parametrize(
    "matrix",
    [np.zeros((0, 4)), np.full((1, 4), 3.0), np.zeros((9, 4)), np.full((9, 4), 5.0), np.eye(4)],
    ids=["nobody", "one", "all-nothing", "all-everything", "one-each"],
)
def test_figures_that_marks_cannot_give_are_none_and_never_nan(matrix):
    found = findings(matrix, [5] * 4, variants=[n % 2 for n in range(len(matrix))], pass_mark=12)
    every = [found.middle, found.reliability, found.error, found.variants]
    every += [f for q in found.questions for f in (q.facility, q.discrimination, q.variants)]
    for one in every:
        assert one.value is None or math.isfinite(one.value)
        assert one.says
        assert "nan" not in one.says.split()


# What the coach is told


@pytest.mark.parametrize(
    ("value", "words", "review"),
    [
        (0.25, "three in four of these marks were lost. Under 0.3 goes to review", True),
        (0.3, "of these marks were earned", False),
        (0.9, "nine in ten of these marks were earned.", False),
        (0.97, "nearly all of these marks were earned. It is easy", False),
        (0.0, "all of these marks were lost", True),
    ],
)
def test_facility_says_how_many_marks_were_lost(value, words, review):
    found = sentences.facility(value, 40)
    assert words in found.says
    assert (found.review, found.few) == (review, "")


def test_too_few_candidates_are_told_with_their_number_and_why():
    assert "Only 6 candidates" in sentences.facility(0.5, 6).few
    assert "0.17" in sentences.facility(0.5, 6).few
    assert "From 24 candidates" in sentences.discrimination(0.4, (0.9, 0.4), 24).few
    assert sentences.discrimination(0.4, (0.9, 0.4), 30).few == ""
    assert "5 are wanted" in sentences.reliability(0.5, 40, 4).few


def sitting(source: np.random.Generator, count: int, questions: int = 11) -> np.ndarray:
    """Return marks out of 5 of candidates who differ, on questions that differ."""
    able = source.normal(0, 1.2, (count, 1))
    chance = 1 / (1 + np.exp(source.normal(-0.7, 0.6, questions) - able))
    return source.binomial(5, chance).astype(float)


def test_a_question_that_the_strong_get_wrong_is_flagged_and_the_others_are_not():
    matrix = sitting(np.random.default_rng(5), 40)
    matrix[:, 3] = 5 - matrix[:, 3]
    matrix[:, 6] = np.minimum(matrix[:, 6], 1)
    found = findings(matrix, [5] * 11)
    assert [q.number for q in found.questions if q.review] == [4, 7]
    assert "wrong key" in found.questions[3].discrimination.says
    assert "goes to review" in found.questions[6].facility.says


def test_equal_variants_are_seldom_called_unequal():
    flagged = 0
    for seed in range(15):
        matrix = sitting(np.random.default_rng(seed), 24)
        found = findings(matrix, [5] * 11, [n % 6 for n in range(24)])
        flagged += any(q.variants.review for q in found.questions)
    assert flagged <= 3  # one in twenty; four and more of 15 come by chance once in 180


def test_a_harder_variant_is_found_in_its_question_with_how_much():
    matrix = sitting(np.random.default_rng(11), 24)
    variants = [n % 6 for n in range(24)]
    matrix[:, 4] = 4.0
    matrix[np.equal(variants, 2), 4] = 0.0
    found = findings(matrix, [5] * 11, variants)
    assert [q.number for q in found.questions if q.variants.review] == [5]
    told = found.questions[4].variants
    assert told.variant == 2
    assert "variant 2 was harder" in told.says
    assert found.questions[4].by_variant[2] == 0
    assert "as few as 4 candidates" in found.questions[0].variants.few


def test_strong_candidates_on_one_variant_do_not_make_its_questions_easy():
    matrix = sitting(np.random.default_rng(2), 30)
    ranked = matrix[np.argsort(-matrix.sum(axis=1))]
    found = findings(ranked, [5] * 11, [1] * 10 + [2] * 20)
    assert found.variants.review
    assert "were not spread over the variants" in found.variants.says
    assert not any(q.variants.review for q in found.questions)


def test_variants_sat_by_one_each_are_not_compared():
    found = findings(np.eye(4) * 5, [5] * 4, [1, 2, 3, 4])
    assert found.variants.value is None
    assert "2 candidates each" in found.variants.few


def test_marks_that_cannot_be_name_their_place():
    with pytest.raises(ValueError, match="candidate 2 has 6 marks in question 1"):
        findings(np.array([[5.0], [6.0]]), [5])
    with pytest.raises(ValueError, match="3 variants for 2 candidates"):
        findings(np.array([[5.0], [4.0]]), [5], [1, 2, 3])
    with pytest.raises(ValueError, match="use alpha"):
        analysis.kr20(np.array([[0.5, 1.0], [1.0, 0.0]]))
