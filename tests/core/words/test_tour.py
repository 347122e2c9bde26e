"""The tour of the first evening: its steps, their views, and what each must not leave out."""

from core.words.tour import DONE, LEFT, PROGRESS, TOUR, Place


def test_it_has_five_steps_first_over_the_heights_then_on_the_ladder() -> None:
    assert [step.place for step in TOUR] == [Place.HEIGHT] * 3 + [Place.LADDER] * 2
    assert len({step.heading for step in TOUR}) == 5
    assert all(step.text.endswith(".") and not step.heading.endswith(".") for step in TOUR)


def test_the_heights_and_the_keys_it_names() -> None:
    """30 and 45 degrees, as the chart has them; F9 and Ctrl+F9 for the night, F2 for the words."""
    named = [{part for part in ("30°", "45°", "F9", "Ctrl+F9", "F2") if part in step.text} for step in TOUR]

    assert named == [set(), {"30°", "45°"}, set(), set(), {"F9", "Ctrl+F9", "F2"}]


def test_who_aligns_a_finder_by_day_is_warned_of_the_sun() -> None:
    (aligning,) = [step.text for step in TOUR if "finder" in step.text]

    assert aligning.index("never near the Sun") < aligning.index("blinds")


def test_where_one_is_and_where_it_waits() -> None:
    words = PROGRESS.format(number=2, count=5, heading="Wait")

    assert words.index("2") < words.index("5") < words.index("Wait")
    assert all("Help" in each for each in (LEFT, DONE))
