"""The evening strip under the height chart: on the same hours, all named, the target in hand above all."""

from datetime import date, timedelta

from core.sky.bodies import Body
from core.tonight.plan import plan_evening
from core.words.evening import titled
from tests.core.drawing.examples import PORTO, SIX_INCH, night_at
from tests.core.drawing.height_charts import Item, check, draw
from tests.core.drawing.looking import faults, words_of
from tests.core.telling import targets_of


def test_the_strip_lies_under_the_chart_on_the_same_hours() -> None:
    chart = draw(night_at(PORTO, date(2026, 12, 5)))
    strip = chart.strip_box

    assert strip is not None
    assert strip.top < chart.plot_box.bottom
    assert (strip.left, strip.right) == (chart.plot_box.left, chart.plot_box.right)


def test_without_items_there_is_no_strip() -> None:
    assert draw(night_at(PORTO, date(2026, 12, 5)), items=()).strip_box is None


def test_every_item_is_named_on_the_strip() -> None:
    night = night_at(PORTO, date(2026, 12, 5))
    items = titled(plan_evening(night, SIX_INCH, targets=targets_of(night, Body.SATURN)))
    words = words_of(draw(night).drawing)

    for item in items:
        assert any(word.startswith(item.title) for word in words), item.title


def test_more_items_than_rows_are_counted() -> None:
    night = night_at(PORTO, date(2026, 12, 5))
    start = night.start + timedelta(hours=7)
    items = [Item(f"Item {number}", start, start + timedelta(hours=10)) for number in range(20)]

    chart = draw(night, items=items)

    named = sum(word.startswith("Item") for word in words_of(chart.drawing))
    assert f"+{20 - named} more" in words_of(chart.drawing)
    check(chart)


def test_the_target_in_hand_is_on_the_strip_however_low_it_is() -> None:
    night = night_at(PORTO, date(2026, 12, 5))
    start, end = night.start + timedelta(hours=7), night.start + timedelta(hours=17)
    items = [Item(f"Item {number}", start, end) for number in range(6)]

    chart = draw(night, (980, 170), items=[*items, Item("Saturn until late", start, end, is_chosen=True)])

    # In a single row there is no room for the strip's own name.
    assert {"+6 more"} == {text for text in words_of(chart.drawing) if text in ("+6 more", "evening")}
    assert any(text.startswith("Saturn until late") for text in words_of(chart.drawing))
    assert faults(chart.drawing) == []
