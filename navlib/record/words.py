"""The sentences on how it goes: what a learner reads on the start page and above a question."""

import re
from datetime import date

from navlib.record.choosing import Next, Reason
from navlib.record.progress import CheckpointResult, Progress, SlipStanding

_ENDINGS = {
    "-forgotten": "forgot the {what}",
    "-left-out": "left out the {what}",
    "-ignored": "did not look at the {what}",
    "-lost": "lost the {what}",
    "-sign": "put the {what} on the wrong way",
    "-wrong-way": "had the {what} the wrong way round",
    "-reversed": "had the {what} the wrong way round",
    "-backwards": "counted the {what} backwards",
    "-wrong-side": "had the {what} on the wrong side",
    "-taken-off": "took the {what} off and should have put it on",
    "-put-on": "put the {what} on and should have taken it off",
    "-exchanged": "exchanged the {what}",
    "-blamed": "blamed the {what} without reason",
    "-doubted": "doubted the {what} without reason",
}
_FOR = re.compile(r"(?P<taken>.+)-for-(?P<meant>.+)")
_WHAT = {
    "grid-magnetic": "grid magnetic angle",
    "gma": "grid magnetic angle",
    "back": "back bearing",
}
_SAID = {
    "at-for-during": "took the rate at an hour for the rate during it",
    "during-for-at": "took the rate during an hour for the rate at its end",
    "both-backwards": "counted both backwards",
    "change-always-taken-off": "took the change off without asking which way it goes",
    "compared-wrong-way": "compared the wrong way round",
    "copy-wrong-way": "changed the scale of the copy the wrong way",
    "miles-left-for-hours": "took the miles left for hours",
    "old-taken-for-true": "took the old figure for the true one",
    "one-stands-for-both": "let one stand for both",
    "decimal-hours": "read a part of an hour as minutes",
}
"""The slips whose names do not make a sentence."""

NOT_BEGUN = "You have not begun this one."
READY = "You are sure of every kind: see whether ten go well without help."

_TIMES = ("never", "once", "twice", "three times", "four times", "five times", "six times")
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def slip_words(name: str) -> str:
    """Return what someone did who made the slip of this name, as it follows on “You”."""
    if name in _SAID:
        return _SAID[name]
    for ending, words in _ENDINGS.items():
        if name.endswith(ending):
            return words.format(what=_what(name.removesuffix(ending)))
    if found := _FOR.fullmatch(name):
        return f"took {_what(found['taken'])} for {_what(found['meant'])}"
    return f"made the slip “{name.replace('-', ' ')}”"


def _what(name: str) -> str:
    return _WHAT.get(name, name.replace("-", " "))


def times(count: int) -> str:
    """Return how often, in words."""
    return _TIMES[count] if count < len(_TIMES) else f"{count} times"


def day_words(day: date, today: date) -> str:
    """Return a day as one speaks of it: today, yesterday, on Tuesday, on 3 November."""
    ago = (today - day).days
    if ago <= 0:
        return "today"
    if ago == 1:
        return "yesterday"
    if ago < 7:
        return f"on {_WEEKDAYS[day.weekday()]}"
    year = "" if day.year == today.year else f" {day.year}"
    return f"on {day.day} {_MONTHS[day.month - 1]}{year}"


def slip_sentence(slip: SlipStanding, today: date) -> str:
    """Return how a slip stands: how often it was told, and when it was last right since."""
    did, last = slip_words(slip.name), day_words(slip.last_told.date(), today)
    if slip.right_since is not None:
        right = day_words(slip.right_since.date(), today)
        return f"You {did} {times(slip.told)}; last right {right}."
    if slip.told == 1:
        return f"You {did} {last}; not right since."
    return f"You {did} {times(slip.told)}, the last time {last}; not right since."


def why(chosen: Next, stand: Progress) -> str:
    """Return why this is asked now, in a sentence for the learner."""
    kind = stand.kind(chosen.kind)
    last = day_words(kind.last.date(), stand.today) if kind.last else ""
    match chosen.reason:
        case Reason.SLIP if slip := stand.slips.get(chosen.slip):
            return _why_slip(slip, stand.today)
        case Reason.DUE if last:
            return f"You had this kind {last}. Is it still there?"
        case Reason.AGAIN if last:
            return f"You had this kind {last}, and not yet right at the first try."
        case Reason.ONCE_MORE if last:
            return "You had this kind right once. Once more makes it sure."
        case Reason.NEW:
            return "This kind is new to you." if stand.questions else ""
        case Reason.KEEP:
            return "You are sure of every kind. This one you have not had for the longest time."
    return ""


def _why_slip(slip: SlipStanding, today: date) -> str:
    did, last = slip_words(slip.name), day_words(slip.last_told.date(), today)
    if slip.right_since is not None:
        right = day_words(slip.right_since.date(), today)
        return f"You {did} {times(slip.told)}; you had it right {right}. Is it still there?"
    if slip.told == 1:
        return f"You {did} {last}."
    return f"You {did} {times(slip.told)}, the last time {last}."


def checkpoint_sentence(results: list[CheckpointResult], length: int, today: date) -> str:
    """Return how the checkpoints of a topic went, "" for none."""
    if not results:
        return ""
    last, best = results[-1], max(result.right for result in results)
    told = f"{last.right} of {length} right {day_words(last.day, today)}"
    return f"{told}; your best is {best}." if best > last.right else f"{told}."


def due_sentence(count: int, oldest: date, today: date) -> str:
    """Return that kinds are due again, the one seen longest ago on that day."""
    many = "One kind of question is" if count == 1 else f"{count} kinds of question are"
    return f"{many} due again, last seen {day_words(oldest, today)}."


def unsure_sentence(unsure: int, kinds: int) -> str:
    """Return how many kinds are not sure yet."""
    return f"{unsure} of {kinds} kinds of question {'is' if unsure == 1 else 'are'} not sure yet."


def nothing_due(days: int) -> str:
    """Return that there is nothing to do for some days."""
    return f"All is sure here; the next is due in {days} {'day' if days == 1 else 'days'}."


def due_in_topics(count: int) -> str:
    """Return that mixed practice is the thing to do."""
    return f"Something is due again in {count} topics: mixed practice takes them in turn."
