"""What a notebook shows and a learner works with: question card, worked steps, demonstrations.

Each widget is a small class with synced traits and one plain ES module beside it.
"""

from navlib.widgets import demos
from navlib.widgets.card import Card, Desk
from navlib.widgets.lesson import Lesson
from navlib.widgets.mixed import Mixed
from navlib.widgets.start import StartPage
from navlib.widgets.steps import Steps
from navlib.widgets.table import ChartTable, chart_table

__all__ = [
    "Card",
    "ChartTable",
    "Desk",
    "Lesson",
    "Mixed",
    "StartPage",
    "Steps",
    "chart_table",
    "demos",
]
