"""The sentences on how it goes: what a learner reads on the start page and above a question."""

import json
from datetime import date
from pathlib import Path

from navlib.language import say, to_say
from navlib.language.days import full, in_year, weekday
from navlib.record.choosing import Next, Reason
from navlib.record.progress import CheckpointResult, Progress, SlipStanding

_SLIPS: dict[str, str] = json.loads(
    Path(__file__).with_name("slips.json").read_text(encoding="utf-8")
)
"""What someone did who made the slip of a name, as it follows on “You”."""

NOT_BEGUN = to_say("You have not begun this one.")
READY = to_say("You are sure of every kind: see whether ten go well without help.")

_TIMES = ("never", "once", "twice", "three times", "four times", "five times", "six times")


def slip_words(name: str) -> str:
    """Return what someone did who made the slip of this name, as it follows on “You”.

    A name that is in no chain any more, in an old record, is told as it is.
    """
    return say(_SLIPS.get(name, "")) or say(
        "made the slip “{slip}”", {"slip": name.replace("-", " ")}
    )


def times(count: int) -> str:
    """Return how often, in words."""
    return say(_TIMES[count]) if count < len(_TIMES) else say("{count} times", {"count": count})


def day_words(day: date, today: date) -> str:
    """Return a day as one speaks of it: today, yesterday, on Tuesday, on 3 November."""
    ago = (today - day).days
    if ago <= 0:
        return say("today")
    if ago == 1:
        return say("yesterday")
    if ago < 7:
        return say("on {weekday}", {"weekday": weekday(day)})
    return say("on {day}", {"day": in_year(day) if day.year == today.year else full(day)})


def slip_sentence(slip: SlipStanding, today: date) -> str:
    """Return how a slip stands: how often it was told, and when it was last right since."""
    did, last = slip_words(slip.name), day_words(slip.last_told.date(), today)
    if slip.right_since is not None:
        right = day_words(slip.right_since.date(), today)
        return say(
            "You {did} {times}; last right {right}.",
            {"did": did, "times": times(slip.told), "right": right},
        )
    if slip.told == 1:
        return say("You {did} {last}; not right since.", {"did": did, "last": last})
    return say(
        "You {did} {times}, the last time {last}; not right since.",
        {"did": did, "times": times(slip.told), "last": last},
    )


def why(chosen: Next, stand: Progress) -> str:
    """Return why this is asked now, in a sentence for the learner."""
    kind = stand.kind(chosen.kind)
    last = day_words(kind.last.date(), stand.today) if kind.last else ""
    match chosen.reason:
        case Reason.SLIP if slip := stand.slips.get(chosen.slip):
            return _why_slip(slip, stand.today)
        case Reason.DUE if last:
            return say("You had this kind {last}. Is it still there?", {"last": last})
        case Reason.AGAIN if last:
            return say(
                "You had this kind {last}, and not yet right at the first try.", {"last": last}
            )
        case Reason.ONCE_MORE if last:
            return say("You had this kind right once. Once more makes it sure.")
        case Reason.NEW:
            return say("This kind is new to you.") if stand.questions else ""
        case Reason.KEEP:
            return say(
                "You are sure of every kind. This one you have not had for the longest time."
            )
    return ""


def _why_slip(slip: SlipStanding, today: date) -> str:
    did, last = slip_words(slip.name), day_words(slip.last_told.date(), today)
    if slip.right_since is not None:
        right = day_words(slip.right_since.date(), today)
        return say(
            "You {did} {times}; you had it right {right}. Is it still there?",
            {"did": did, "times": times(slip.told), "right": right},
        )
    if slip.told == 1:
        return say("You {did} {last}.", {"did": did, "last": last})
    return say(
        "You {did} {times}, the last time {last}.",
        {"did": did, "times": times(slip.told), "last": last},
    )


def checkpoint_sentence(results: list[CheckpointResult], length: int, today: date) -> str:
    """Return how the checkpoints of a topic went, "" for none."""
    if not results:
        return ""
    last, best = results[-1], max(result.right for result in results)
    told = {"right": last.right, "length": length, "day": day_words(last.day, today)}
    if best > last.right:
        return say("{right} of {length} right {day}; your best is {best}.", {**told, "best": best})
    return say("{right} of {length} right {day}.", told)


def due_sentence(count: int, oldest: date, today: date) -> str:
    """Return that kinds are due again, the one seen longest ago on that day."""
    day = day_words(oldest, today)
    if count == 1:
        return say("One kind of question is due again, last seen {day}.", {"day": day})
    return say(
        "{count} kinds of question are due again, last seen {day}.", {"count": count, "day": day}
    )


def unsure_sentence(unsure: int, kinds: int) -> str:
    """Return how many kinds are not sure yet."""
    if unsure == 1:
        return say("1 of {kinds} kinds of question is not sure yet.", {"kinds": kinds})
    return say(
        "{unsure} of {kinds} kinds of question are not sure yet.",
        {"unsure": unsure, "kinds": kinds},
    )


def nothing_due(days: int) -> str:
    """Return that there is nothing to do for some days."""
    if days == 1:
        return say("All is sure here; the next is due in 1 day.")
    return say("All is sure here; the next is due in {days} days.", {"days": days})


def due_in_topics(count: int) -> str:
    """Return that mixed practice is the thing to do."""
    return say(
        "Something is due again in {count} topics: mixed practice takes them in turn.",
        {"count": count},
    )
