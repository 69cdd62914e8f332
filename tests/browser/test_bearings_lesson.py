"""A student works the bearings lesson: answers, is told the slip, stops, comes back."""

from collections.abc import Callable

from cards import answer, card
from playwright.sync_api import Page, expect

from navlib import questions

Open = Callable[[str], Page]
EXERCISE = 2  # true to magnetic: a sum, no sheet
QUESTION = questions.exercise("bearings", EXERCISE)
STEP = QUESTION.chain.by_name["magnetic"]
SLIP = next(slip for slip in STEP.slips if slip.name == "variation-sign")
WRONG = STEP.kind.write(SLIP.route(QUESTION.givens["true"], QUESTION.givens["variation"]))
RIGHT = QUESTION.answers["magnetic"]
SENTENCE = SLIP.says.format_map({**QUESTION.written, "yours": WRONG})


def test_right_slip_hint_reload_restart(open_lesson: Open):
    page = open_lesson("bearings")
    exercise = card(page, f"Exercise {EXERCISE}:")
    part = exercise.locator(".nav-part")

    answer(exercise, WRONG)
    expect(part).to_have_attribute("data-outcome", "wrong")
    expect(part).to_contain_text(SENTENCE)

    answer(exercise, "somewhere west")
    expect(part).to_have_attribute("data-outcome", "unread")
    expect(part).to_contain_text("042°M")
    expect(exercise.get_by_role("textbox")).to_have_value("somewhere west")

    exercise.get_by_role("button", name="Give me a hint").click()
    expect(exercise).to_contain_text(QUESTION.hints("magnetic")[0])

    answer(exercise, RIGHT)
    expect(part).to_have_attribute("data-outcome", "right")

    expect(exercise.get_by_role("textbox")).not_to_be_editable()

    page.reload()
    expect(part).to_have_attribute("data-outcome", "right")
    expect(exercise.get_by_role("textbox")).to_have_value(RIGHT)

    page.get_by_role("menuitem", name="Kernel").click()
    page.locator("[data-command='kernelmenu:restart']").click()
    expect(page.locator(".nav-lesson[data-nav-state=waking]")).to_have_count(1)
    expect(part).to_have_attribute("data-outcome", "right")
    expect(page.locator(".nav-lesson[data-nav-state=alive]")).to_have_count(1)

    answer(card(page, "Exercise 3:"), questions.exercise("bearings", 3).answers["true"])
    expect(card(page, "Exercise 3:").locator(".nav-part")).to_have_attribute(
        "data-outcome", "right"
    )


def test_exercise_is_worked_with_the_keyboard_alone(open_lesson: Open):
    page = open_lesson("bearings")
    exercise = card(page, "Exercise 4:")
    question = questions.exercise("bearings", 4)
    exercise.get_by_role("textbox").focus()
    page.keyboard.type(question.answers["bearing"])
    page.keyboard.press("Enter")
    expect(exercise.locator(".nav-part")).to_have_attribute("data-outcome", "right")
    # Focus stands on the button that goes on; Enter takes other numbers.
    page.keyboard.press("Enter")
    expect(card(page, "Exercise 4, other numbers:").get_by_role("textbox")).to_be_focused()
    page.keyboard.type("b")  # in a notebook this would add a cell
    expect(card(page, "Exercise 4, other numbers:").get_by_role("textbox")).to_have_value("b")


def test_practice_and_checkpoint_go_on_from_question_to_question(open_lesson: Open):
    page = open_lesson("bearings")
    practice = card(page, "Practice:")
    first = practice.get_by_role("heading").inner_text()
    practice.get_by_role("button", name="Another question").click()
    expect(practice.get_by_role("heading").first).not_to_have_text(first)

    checkpoint = card(page, "Checkpoint 1 of 10")
    for box in checkpoint.get_by_role("textbox").all():
        box.fill("123")
    checkpoint.get_by_role("button", name="Hand in").click()
    expect(card(page, "Checkpoint 2 of 10")).to_be_visible()
    page.reload()
    expect(card(page, "Checkpoint 2 of 10")).to_be_visible()
