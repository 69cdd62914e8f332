"""The sentences on how it goes: what a learner reads on the start page and above a question."""

from datetime import date

from navlib.record.choosing import Next, Reason
from navlib.record.progress import CheckpointResult, Progress, SlipStanding

_ENDINGS = {
    "-forgotten": "forgot the {what}",
    "-sign": "put the {what} on the wrong way",
}
_WHAT = {"grid-magnetic": "grid magnetic angle", "back": "back bearing"}

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
    for ending, words in _ENDINGS.items():
        if name.endswith(ending):
            what = name.removesuffix(ending)
            return words.format(what=_WHAT.get(what, what.replace("-", " ")))
    return f"made the slip “{name.replace('-', ' ')}”"


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
