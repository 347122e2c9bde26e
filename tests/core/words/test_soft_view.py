"""Why a view is soft: how sure the sentence is, and that each cause has a trial of its own."""

import pytest

from core.tonight.soft_view import Cause, LikelyCause
from core.words.soft_view import cause_text


def told(cause: Cause | None, share: float = 0.8) -> str:
    return cause_text(LikelyCause(cause=cause, share=share))


@pytest.mark.parametrize(("share", "perhaps"), [(0.59, True), (0.6, False), (1.0, False)])
def test_it_is_most_likely_from_six_tenths_on(share: float, perhaps: bool) -> None:
    words = told(Cause.DEW, share)

    assert ("perhaps" in words.lower(), "most likely" in words.lower()) == (perhaps, not perhaps)


def test_each_cause_is_named_and_what_cannot_be_judged_has_none() -> None:
    words = {cause: told(cause) for cause in Cause}

    assert len(set(words.values())) == len(Cause)
    assert "dew on the glass" in words[Cause.DEW]
    assert "focus" in words[Cause.FOCUS]
    assert told(None) not in words.values()
    assert "None" not in told(None)
