"""What to ask next: boxes, standing, choice, and the words for it."""

import json
import random
import re
from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from navlib.desk.syllabus import syllabus
from navlib.record import Attempt, words
from navlib.record.choosing import Next, Reason, next_kind
from navlib.record.progress import Entry, progress
from navlib.record.spacing import NEW
from navlib.record.words import day_words, slip_sentence, slip_words, why

TUESDAY = datetime(2026, 11, 24, 18, 0, tzinfo=UTC)
KINDS = {
    "a.easy": Entry("a", 1, frozenset({"sign", "x-forgotten"})),
    "a.other": Entry("a", 1, frozenset({"upside-down"})),
    "a.hard": Entry("a", 3, frozenset({"sign", "rare"})),
    "b.easy": Entry("b", 1, frozenset({"upside-down"})),
    "b.hard": Entry("b", 2, frozenset({"variation-sign"})),
}


def tried(kind, at=TUESDAY, *, seed=0, place="a/practice", right=True, hints=0, slips=(), can=None):
    """Return an attempt as the record would."""
    outcome = {"part": "right" if right else "wrong"}
    when = at.astimezone(UTC).isoformat(timespec="seconds")
    return Attempt(0, "me", when, place, kind, seed, {}, hints, outcome, 0.0, 1.0, slips, can)


def asked(*kinds_right, at=TUESDAY):
    """Return a first question of each kind, one a minute, right or not."""
    return [
        tried(kind, at + timedelta(minutes=n), seed=n, right=right)
        for n, (kind, right) in enumerate(kinds_right)
    ]


# --- boxes ---------------------------------------------------------------------------------------


def test_waiting_time_doubles_from_box_to_box_and_begins_again_when_it_goes_wrong():
    """S. Leitner, So lernt man lernen (1972): on one box if known, back to the first if not."""
    today, box, waits = date(2026, 11, 24), NEW, []
    for _ in range(8):
        box = box.right(today)
        waits.append((box.due - today).days)
        today = box.due
    assert waits == [1, 2, 4, 8, 16, 32, 32, 32]
    assert box.wrong(today).box == 0
    assert box.wrong(today).is_due(today)


def test_right_before_it_was_due_proves_nothing_new():
    once = NEW.right(date(2026, 11, 24))
    assert once.right(date(2026, 11, 24)) == once
    assert once.right(date(2026, 11, 25)).box == 2


# --- standing ------------------------------------------------------------------------------------


def test_several_tries_at_a_question_are_one_and_only_a_clean_first_one_makes_sure():
    attempts = [
        tried("a.easy", seed=1, right=False, slips=("sign",)),
        tried("a.easy", seed=1, right=False, slips=("sign",)),
        tried("a.easy", seed=1),
        tried("a.other", seed=2, hints=1),
        tried("a.other", seed=3),
    ]
    stand = progress(attempts, TUESDAY, KINDS)
    easy, other = stand.kind("a.easy"), stand.kind("a.other")
    assert (easy.tried, easy.right, easy.running) == (1, 1, 0)
    assert (other.tried, other.right, other.running, other.sure) == (2, 2, 1, False)
    assert stand.slips["sign"].told == 1


def test_slip_is_right_since_only_by_a_question_that_gave_it_a_chance():
    day = timedelta(days=1)
    attempts = [
        tried("a.easy", TUESDAY - 3 * day, seed=1, right=False, slips=("sign",)),
        tried("a.hard", TUESDAY - 2 * day, seed=2, can=("rare",)),
    ]
    assert progress(attempts, TUESDAY, KINDS).slips["sign"].right_since is None
    attempts.append(tried("a.hard", TUESDAY - day, seed=3, can=("rare", "sign")))
    assert progress(attempts, TUESDAY, KINDS).slips["sign"].right_since == TUESDAY - day
    # A record that did not keep chances: whatever the kind allows.
    attempts[1] = tried("a.hard", TUESDAY - 2 * day, seed=2)
    assert progress(attempts[:2], TUESDAY, KINDS).slips["sign"].right_since == TUESDAY - 2 * day


def test_days_are_counted_where_the_learner_is():
    late = datetime(2026, 11, 24, 23, 30, tzinfo=UTC)
    east = timezone(timedelta(hours=2))
    for zone, day in ((UTC, 24), (east, 25)):
        stand = progress([tried("a.easy", late)], late.astimezone(zone), KINDS)
        assert stand.last_day("a.easy").day == day


def test_order_is_that_of_time_not_of_arrival():
    """What was taken in from another machine comes in later than it was answered."""
    attempts = [
        tried("a.easy", TUESDAY, seed=2),
        tried("a.easy", TUESDAY - timedelta(days=1), seed=1, right=False, slips=("sign",)),
    ]
    stand = progress(attempts, TUESDAY, KINDS)
    assert stand.kind("a.easy").running == 1
    assert stand.slips["sign"].right_since == TUESDAY


# --- choice --------------------------------------------------------------------------------------


def choose(attempts, last="", now=TUESDAY, kinds=KINDS, seed=1):
    return next_kind(kinds, progress(attempts, now, kinds), random.Random(seed), last)


HISTORY = st.lists(
    st.tuples(
        st.sampled_from(sorted(KINDS)),
        st.booleans(),
        st.integers(0, 30),
        st.sampled_from([(), ("sign",), ("upside-down",), ("unknown-slip",)]),
    ),
    max_size=12,
)


@given(HISTORY, st.sampled_from(["", *KINDS]), st.integers(0, 99))
def test_never_the_same_kind_twice_running_and_the_same_choice_for_the_same_seed(rows, last, seed):
    attempts = [
        tried(
            kind, TUESDAY - timedelta(days=ago), seed=n, right=right, slips=() if right else slips
        )
        for n, (kind, right, ago, slips) in enumerate(rows)
    ]
    chosen = choose(attempts, last, seed=seed)
    assert chosen.kind != last
    assert chosen == choose(attempts, last, seed=seed)
    assert chosen.slip in KINDS[chosen.kind].slips or not chosen.slip


def test_slip_told_gets_its_chance_after_one_other_question():
    attempts = [tried("a.easy", right=False, slips=("sign",))]
    assert choose(attempts, "a.easy").reason is not Reason.SLIP
    attempts += asked(("b.easy", True), at=TUESDAY + timedelta(minutes=5))
    assert choose(attempts + asked(("a.other", True)), "b.easy") == Next(
        "a.easy", Reason.SLIP, "sign"
    )


def test_slip_that_stayed_away_comes_back_when_it_is_due_and_not_before():
    week = [
        tried("a.easy", TUESDAY, seed=1, right=False, slips=("sign",)),
        tried("a.hard", TUESDAY + timedelta(minutes=1), seed=2),
        tried("b.easy", TUESDAY + timedelta(minutes=2), seed=3),
    ]
    assert choose(week, "b.easy").slip == ""
    assert choose(week, "b.easy", TUESDAY + timedelta(days=1)).slip == "sign"


def test_kind_that_is_due_comes_before_new_ones_two_times_of_three():
    attempts = asked(("a.easy", True), ("a.other", True), ("b.easy", True))
    tomorrow = TUESDAY + timedelta(days=1)
    chosen = choose(attempts, "b.easy", tomorrow)
    assert (chosen.kind in ("a.easy", "a.other"), chosen.reason) == (True, Reason.DUE)
    attempts += asked(("a.hard", False), ("a.hard", False), at=TUESDAY + timedelta(hours=1))
    chosen = choose(attempts, "a.hard", tomorrow)
    assert (chosen.kind, chosen.reason) == ("b.hard", Reason.NEW)


def test_easiest_first_then_harder_then_once_more_then_the_longest_ago():
    kinds = {kind: entry for kind, entry in KINDS.items() if entry.topic == "a"}
    kinds["a.middle"] = Entry("a", 2)
    done, went = [], []
    for _ in range(9):
        last = done[-1][0] if done else ""
        chosen = choose(asked(*done), last, kinds=kinds)
        went.append((kinds[chosen.kind].level, chosen.reason))
        done.append((chosen.kind, True))
    new, more, keep = Reason.NEW, Reason.ONCE_MORE, Reason.KEEP
    assert went[:4] == [(1, new), (1, new), (2, new), (3, new)]
    assert went[4:8] == [(1, more), (1, more), (2, more), (3, more)]
    assert went[8] == (2, keep)  # level 3 has one kind, and that was the last


def test_another_topic_than_the_last_where_that_is_as_good():
    done = asked(("a.easy", True))
    assert {choose(done, "a.easy", seed=seed).kind for seed in range(20)} == {"b.easy"}


def test_nothing_to_choose_from_says_so():
    with pytest.raises(ValueError, match="at least one"):
        next_kind({}, progress([], TUESDAY, {}), random.Random(1))


# --- words ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ago", "said"),
    [
        (-1, "today"),  # a clock that was set back
        (0, "today"),
        (1, "yesterday"),
        (2, "on Sunday"),
        (6, "on Wednesday"),
        (7, "on 17 November"),
        (365, "on 24 November 2025"),
    ],
)
def test_days_are_spoken_of_as_people_do(ago, said):
    assert day_words(TUESDAY.date() - timedelta(days=ago), TUESDAY.date()) == said


def test_slips_are_told_in_sentences():
    assert slip_words("variation-sign") == "put the variation on the wrong way"
    assert slip_words("reserve-forgotten") == "forgot the reserve"
    assert slip_words("upside-down") == "divided the wrong way up"
    assert slip_words("of-last-year") == "made the slip “of last year”"
    friday = TUESDAY + timedelta(days=3)
    told = [
        tried("b.hard", TUESDAY - timedelta(days=n), seed=n, right=False, slips=("variation-sign",))
        for n in range(3)
    ]
    stand = progress(told, friday, KINDS)
    assert slip_sentence(stand.slips["variation-sign"], friday.date()) == (
        "You put the variation on the wrong way three times, the last time on Tuesday; "
        "not right since."
    )
    assert why(Next("b.hard", Reason.SLIP, "variation-sign"), stand) == (
        "You put the variation on the wrong way three times, the last time on Tuesday."
    )
    stand = progress([*told, tried("b.hard", TUESDAY + timedelta(days=1), seed=9)], friday, KINDS)
    assert slip_sentence(stand.slips["variation-sign"], friday.date()) == (
        "You put the variation on the wrong way three times; last right on Wednesday."
    )


DID = re.compile(
    r"(\w+ed|began|chose|did not|drew|forgot|found|gave|had|heard|kept|laid|left|let|lost|made|put"
    r"|ran|read|shrank|took|was|went|wrote) "
)
"""What a sentence on a slip begins with, after “You”."""
LAST = re.compile(r".*\b(one|two|three|four|five|six|ten|sixty|times|\d+)$")
"""What it must not end with, because “three times” or a day follows."""
SLIPS = sorted({slip for entry in syllabus().values() for slip in entry.slips})


@pytest.mark.parametrize("slip", SLIPS)
def test_every_slip_has_words_that_read_well_in_the_sentence(slip):
    did = slip_words(slip)
    assert DID.match(did)
    assert "slip" not in did
    assert re.fullmatch(r"[A-Za-z0-9’, -]{8,72}", did)
    assert not LAST.match(did)


def test_no_words_are_kept_for_a_slip_that_is_no_more():
    assert sorted(json.loads(Path(words.__file__).with_name("slips.json").read_text())) == SLIPS
