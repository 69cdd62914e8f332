"""Days as they are written and spoken of, in the learner's language."""

from datetime import date

from navlib.language import say

_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def weekday(day: date) -> str:
    """Return the name of the day in its week."""
    return say(_WEEKDAYS[day.weekday()])


def month(day: date) -> str:
    """Return the name of its month."""
    return say(_MONTHS[day.month - 1])


def in_year(day: date) -> str:
    """Return a day without its year: 3 November."""
    return say("{day} {month}", {"day": day.day, "month": month(day)})


def month_in_year(day: date) -> str:
    """Return the month of a day with its year: November 2026."""
    return say("{month} {year}", {"month": month(day), "year": day.year})


def on_weekday(day: date) -> str:
    """Return a day with its name: Tuesday 3 November 2026."""
    return say("{weekday} {day}", {"weekday": weekday(day), "day": full(day)})


def full(day: date) -> str:
    """Return a day with its year: 3 November 2026."""
    return say("{day} {month} {year}", {"day": day.day, "month": month(day), "year": day.year})
