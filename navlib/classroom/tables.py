"""The tables of the class: who may come in, sessions, what was asked, and what was answered.

Answers are only ever added. Times are UTC, ISO 8601, by the server's clock. What learners wrote is
held as JSON text, so that no database has to like their characters.
"""

from datetime import UTC, datetime

from sqlalchemy import (
    Column,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    UniqueConstraint,
)

METADATA = MetaData()

people = Table(
    "class_people",
    METADATA,
    Column("name", String(80), primary_key=True),  # as the hub knows them
    Column("shown", String(80), nullable=False),  # as they are written on the list
    Column("role", String(12), nullable=False),
    Column("pin", Text),  # scrypt; null until the first login
    Column("claimed", String(32)),  # when the PIN was set
    Column("confirmed", String(32)),  # when an instructor said that this is they
    Column("number", Integer, unique=True),  # own number, from which an operating-system user
)

sessions = Table(
    "class_sessions",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("number", Integer, nullable=False),  # all values of the session follow from it
    Column("title", Text, nullable=False),
    Column("owner", String(80), nullable=False),
    Column("plan", Text),  # JSON, kept as given
    Column("stage", Text),  # JSON: what the class is shown about where it is
    Column("begun", String(32), nullable=False),
    Column("ended", String(32)),
)

joined = Table(
    "class_joined",
    METADATA,
    Column("session", ForeignKey("class_sessions.id", ondelete="CASCADE"), primary_key=True),
    Column("learner", String(80), primary_key=True),
    Column("seat", Integer, nullable=False),  # own values follow from it, not from the name
    Column("at", String(32), nullable=False),
    UniqueConstraint("session", "seat"),
)

questions = Table(
    "class_questions",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column(
        "session", ForeignKey("class_sessions.id", ondelete="CASCADE"), nullable=False, index=True
    ),
    Column("position", Integer, nullable=False),  # 1, 2, ... within the session
    Column("kind", String(80), nullable=False),
    Column("own", Integer, nullable=False),  # own values for each seat, or one for all
    Column("tell", Integer, nullable=False),  # told at once, or when revealed
    Column("segment", Integer),  # of the plan
    Column("number", Integer),  # a number of its own instead of the session's: asked again
    Column("opened", String(32)),
    Column("closed", String(32)),
    Column("revealed", String(32)),
    UniqueConstraint("session", "position"),
)

answers = Table(
    "class_answers",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("question", ForeignKey("class_questions.id", ondelete="CASCADE"), nullable=False),
    Column("learner", String(80), nullable=False),
    Column("key", String(64), nullable=False),  # made by the client: handed in twice, kept once
    Column("at", String(32), nullable=False),
    Column("given", String(32)),  # when the learner's machine says that it was written
    Column("counted", Integer, nullable=False),  # 0: it came after the reveal
    Column("answers", Text, nullable=False),  # JSON, as written, by part
    UniqueConstraint("learner", "key"),
    Index("class_answers_by_question", "question", "learner", "id"),
)

judgements = Table(
    "class_judgements",
    METADATA,
    Column("answer", ForeignKey("class_answers.id", ondelete="CASCADE"), primary_key=True),
    Column("outcomes", Text, nullable=False),  # JSON, by part
    Column("marks", Float, nullable=False),
    Column("out_of", Float, nullable=False),
    Column("slips", Text, nullable=False),  # JSON list of names
    Column("off", Text, nullable=False),  # JSON, by part: how far from the key, signed
)

settings = Table(
    "class_settings",
    METADATA,
    Column("name", String(40), primary_key=True),
    Column("value", Text, nullable=False),  # JSON
)


def moment() -> str:
    """Return the time now as the tables hold it."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")
