"""What a class has answered is kept once, as it was written, in SQLite and in PostgreSQL alike."""

import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from databases import postgresql

from navlib import questions
from navlib.classroom.database import Database
from navlib.classroom.judging import judgement, question_of
from navlib.classroom.people import People, hashed, name_of, read_list, same, weak
from navlib.classroom.seeds import seed
from navlib.classroom.store import Missing, Refused, Store
from navlib.classroom.teaching import Teaching
from navlib.marking import mark

KIND = "bearings.true-to-magnetic"


@pytest.fixture(scope="module", params=["SQLite", "PostgreSQL"])
def database(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Database]:
    folder = tmp_path_factory.mktemp("class")
    if request.param == "SQLite":
        kept = Database(folder / "class.sqlite")
        yield kept
        kept.close()
    else:
        with postgresql() as url:
            kept = Database(url)
            yield kept
            kept.close()


@pytest.fixture
def store(database: Database) -> Store:
    return Store(database)


def a_question(store: Store, *learners: str) -> tuple[int, int]:
    """Begin a session with these learners in it and a question open; return the ids of both."""
    session = store.begin("An evening", "instructor")["id"]
    for learner in learners:
        store.join(learner, session)
    asked = store.ask(session, KIND)["id"]
    store.move(asked, "open")
    return session, asked


def test_an_answer_is_kept_once_under_its_key(store: Store):
    _, asked = a_question(store, "ina", "oskar")
    first = store.hand_in(asked, "ina", "key-00000001", {"magnetic": "042 M"})
    again = store.hand_in(asked, "ina", "key-00000001", {"magnetic": "042 M"})
    assert (first.again, again.again) == (False, True)
    assert (first.id, first.at) == (again.id, again.at)
    with pytest.raises(Refused, match="key was used"):
        store.hand_in(asked, "ina", "key-00000001", {"magnetic": "043 M"})
    other = store.hand_in(asked, "oskar", "key-00000001", {"magnetic": "042 M"})
    assert not other.again, "another learner's key is another key"
    assert [row["learner"] for row in store.answers(asked)] == ["ina", "oskar"]


def test_many_at_once_are_all_kept_and_each_once(store: Store):
    names = [f"learner-{n}" for n in range(6)]
    _, asked = a_question(store, *names)

    def send(name: str) -> None:
        for n in range(10):
            for _ in range(2):
                store.hand_in(asked, name, f"{name}-{n:08}", {"magnetic": f"{n:03} M"})

    threads = [threading.Thread(target=send, args=(name,)) for name in names]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(store.answers(asked)) == 60


def test_seats_are_given_out_once_and_stay(store: Store):
    session = store.begin("An evening", "instructor")["id"]
    seats = [store.join(name, session)[1] for name in ("ina", "oskar", "ina", "mira", "oskar")]
    assert seats == [1, 2, 1, 3, 2]
    store.change_session(session, ended=True)
    assert store.join("ina", session)[1] == 1
    with pytest.raises(Refused, match="ended"):
        store.join("toke", session)


def test_who_has_not_joined_hands_nothing_in(store: Store):
    _, asked = a_question(store, "ina")
    with pytest.raises(Missing, match="not joined"):
        store.hand_in(asked, "oskar", "key-00000002", {"magnetic": "042 M"})


def test_a_question_goes_on_and_never_back_from_the_reveal(store: Store):
    session, asked = a_question(store, "ina")
    assert store.asked_now(session)["state"] == "open"
    assert store.move(asked, "closed")["state"] == "closed"
    assert store.move(asked, "open")["state"] == "open"
    assert store.move(asked, "revealed")["state"] == "revealed"
    with pytest.raises(Refused, match="everybody has seen"):
        store.move(asked, "open")
    late = store.hand_in(asked, "ina", "key-00000003", {"magnetic": "042 M"})
    assert not late.counted
    assert store.questions(session)[0]["answers"] == 0


def test_what_was_not_judged_is_found_again(store: Store):
    session, asked = a_question(store, "ina")
    written = store.hand_in(asked, "ina", "key-00000004", {"magnetic": "042 M"})
    assert written.id in [row["id"] for row in store.unjudged()]
    row = store.question(asked)
    question = question_of(row, store.session(session)["number"], 1)
    store.judged(written.id, judgement(question, mark(question, question.answers)))
    store.judged(written.id, judgement(question, mark(question, {"magnetic": "?"})))
    assert written.id not in [row["id"] for row in store.unjudged()]
    assert store.answers(asked)[0]["outcomes"] == {"magnetic": "right"}, "the first one stands"


def test_any_characters_are_kept_as_they_were_written(store: Store):
    _, asked = a_question(store, "ina")
    odd = {"magnetic": "0\x00'; DROP TABLE class_answers; -- \ud800 \U0001f9ed ７"}
    store.hand_in(asked, "ina", "key-00000005", odd)
    assert store.answers(asked)[0]["answers"] == odd


def test_forgetting_and_retention_leave_nothing_behind(store: Store):
    session, asked = a_question(store, "ina", "oskar")
    store.hand_in(asked, "ina", "key-00000006", {"magnetic": "042 M"})
    store.hand_in(asked, "oskar", "key-00000006", {"magnetic": "042 M"})
    assert store.forget("ina") > 0
    assert [row["learner"] for row in store.answers(asked)] == ["oskar"]
    assert [row["learner"] for row in store.seats(session)] == ["oskar"]
    store.change_session(session, ended=True)
    assert store.retention() is None
    kept = Teaching(store, People(store.database))
    assert kept.keep_days(365) == 0
    assert store.retention() == 365
    assert kept.keep_days(0) >= 1
    assert store.answers(asked) == []


def test_a_pin_is_claimed_once_and_cleared_by_the_instructor(database: Database):
    people = People(database)
    people.put([("Ina Skarp", "learner")])
    assert people.claim("ina-skarp", "tern-4711")
    assert not people.claim("ina-skarp", "mine-now")
    assert same("tern-4711", people.get("ina-skarp")["pin"])
    people.put([("Ina Skarp", "coach")])
    assert people.get("ina-skarp")["pin"], "a list read again keeps PINs"
    assert people.clear("ina-skarp")
    assert people.claim("ina-skarp", "new-4711")
    numbers = {people.number("ina-skarp"), people.number("ina-skarp")}
    assert len(numbers) == 1


def test_the_values_of_a_seat_follow_from_the_session_number_alone():
    # As `printf 271828/1/3 | sha256sum` gives it: next year the same session has the same values.
    assert [seed(271_828, 1, 3), seed(271_828, 1, None), seed(271_828, 2, 3)] == [
        0xE75C2C7A & 0x7FFFFFFF,
        0x8F77863D & 0x7FFFFFFF,
        0xEDD7D580 & 0x7FFFFFFF,
    ]
    assert len({seed(271_828, 1, seat) for seat in range(1, 31)}) == 30
    assert questions.make(KIND, seed(271_828, 1, 3)).text


@pytest.mark.parametrize(
    ("text", "name"),
    [("Ina Skarp", "ina-skarp"), ("  INA   skarp", "ina-skarp"), ("Åse O’Hale", "åse-o-hale")],
)
def test_names_that_look_alike_are_one(text: str, name: str):
    assert name_of(text) == name == name_of(name)


def test_a_class_list_is_read_as_people_write_it():
    text = '\ufeffName,Role\n"Ina Skarp"\n\n# on Tuesdays\nOskar Lund;\nToke Brandt, Coach\n'
    assert read_list(text) == [
        ("Ina Skarp", "learner"),
        ("Oskar Lund", "learner"),
        ("Toke Brandt", "coach"),
    ]
    with pytest.raises(ValueError, match=r"Line 2.*again"):
        read_list("Ina\nINA\n")
    with pytest.raises(ValueError, match=r"Line 1.*no role"):
        read_list("Ina, boss\n")


@pytest.mark.parametrize("pin", ["", "12345", "123456", "987654", "111111", "a" * 65])
def test_a_weak_pin_is_refused(pin: str):
    assert weak(pin)


def test_a_pin_is_kept_as_a_hash_of_its_own():
    assert weak("tern-4711") == ""
    assert hashed("tern-4711") != hashed("tern-4711")
    assert not same("tern-4712", hashed("tern-4711"))


def test_only_sqlite_and_postgresql(tmp_path: Path):
    with pytest.raises(ValueError, match="PostgreSQL"):
        Database("mysql://somewhere/class")
