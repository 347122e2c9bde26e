"""Why a view is soft: situations as an experienced observer would judge them (common practice, no source)."""

from collections.abc import Collection
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.gear.owned import Stand, TelescopeKind
from core.ladder.ladder import Standing
from core.tonight.soft_view import (
    MOST_QUESTIONS,
    Cause,
    KnownOfView,
    LikelyCause,
    Question,
    Reply,
    after_replies,
    find_cause,
    next_question,
    weights_of,
)

Q = Question
# What is normal in a good view: the focuser passes the sharpest point and the ring is even.
NORMAL = {Q.FOCUS_PASSES, Q.RING_IS_EVEN}
# These make the ring uneven.
UNEVEN = {Cause.COLLIMATION, Cause.OWN_WARMTH}


def known(**others: Any) -> KnownOfView:  # noqa: ANN401
    told: dict[str, Any] = {
        "kind": TelescopeKind.REFLECTOR,
        "aperture_mm": 150,
        "focal_ratio": 8.0,
        "standing": Standing.GOOD,
        "exit_pupil_mm": 1.2,
        "altitude_deg": 50,
        "is_cooling": False,
        "blur_arcsec": 1.5,
        "days_since_collimation": 20,
    }
    return KnownOfView(**(told | others))


def asked(facts: KnownOfView, yes: set[Question], unsure: Collection[Question] = ()) -> LikelyCause:
    """Answer what is asked until no more is, and return what is found."""
    replies: dict[Question, Reply] = {}
    while (question := next_question(facts, replies)) is not None:
        reply = Reply.YES if question in yes else Reply.NO
        replies[question] = Reply.CANNOT_TELL if question in unsure else reply
        assert len(replies) <= MOST_QUESTIONS
    return find_cause(facts, replies)


REFRACTOR = {"kind": TelescopeKind.REFRACTOR, "aperture_mm": 100, "focal_ratio": 9.0}
CLOSED = {"kind": TelescopeKind.CATADIOPTRIC, "aperture_mm": 203, "focal_ratio": 10.0}
# What the program knows, what the observer sees besides what is normal, and the cause.
SITUATIONS: list[tuple[dict[str, Any], set[Question], Cause]] = [
    # Just carried out.
    ({"is_cooling": True}, {Q.SLOW_SWIRLS, Q.HIGH_STAR_IS_SOFT, Q.LESS_POWER_HELPS}, Cause.COOLING),
    ({"is_cooling": True, "mirror_share": 1.6}, {Q.SLOW_SWIRLS, Q.HIGH_STAR_IS_SOFT}, Cause.COOLING),
    ({**CLOSED, "is_cooling": True}, {Q.SLOW_SWIRLS, Q.HIGH_STAR_IS_SOFT}, Cause.COOLING),
    ({"is_cooling": None}, {Q.SLOW_SWIRLS, Q.HIGH_STAR_IS_SOFT}, Cause.COOLING),
    # The air.
    ({}, {Q.STARS_TWINKLE, Q.HIGH_STAR_IS_SOFT, Q.LESS_POWER_HELPS}, Cause.AIR),
    ({"blur_arcsec": 3.0}, {Q.STARS_TWINKLE, Q.HIGH_STAR_IS_SOFT, Q.LESS_POWER_HELPS}, Cause.AIR),
    ({**REFRACTOR}, {Q.STARS_TWINKLE, Q.HIGH_STAR_IS_SOFT, Q.LESS_POWER_HELPS}, Cause.AIR),
    ({"aperture_mm": 300, "blur_arcsec": 3.5}, {Q.STARS_TWINKLE, Q.HIGH_STAR_IS_SOFT}, Cause.AIR),
    # Height.
    ({"altitude_deg": 15}, {Q.LESS_POWER_HELPS, Q.STARS_TWINKLE}, Cause.HEIGHT),
    ({"altitude_deg": 22, **REFRACTOR}, {Q.LESS_POWER_HELPS}, Cause.HEIGHT),
    ({"altitude_deg": 12, **CLOSED}, set(), Cause.HEIGHT),
    # A warm roof or chimney in the line of sight.
    ({"in_warm_air": True}, {Q.SLOW_SWIRLS, Q.LESS_POWER_HELPS}, Cause.WARM_AIR),
    ({"in_warm_air": True, "altitude_deg": 35}, {Q.LESS_POWER_HELPS}, Cause.WARM_AIR),
    ({"in_warm_air": True, **REFRACTOR}, {Q.SLOW_SWIRLS}, Cause.WARM_AIR),
    # Too much power.
    ({"standing": Standing.ABOVE}, {Q.LESS_POWER_HELPS}, Cause.POWER),
    ({"standing": Standing.ABOVE, **REFRACTOR}, {Q.LESS_POWER_HELPS}, Cause.POWER),
    ({"standing": Standing.TRY}, {Q.LESS_POWER_HELPS}, Cause.POWER),
    ({"standing": Standing.ABOVE, "exit_pupil_mm": 0.4, **REFRACTOR}, {Q.LESS_POWER_HELPS}, Cause.POWER),
    # Focus.
    ({}, {Q.SHARP_AFTER_FOCUSING}, Cause.FOCUS),
    ({**REFRACTOR}, {Q.SHARP_AFTER_FOCUSING}, Cause.FOCUS),
    ({**CLOSED, "altitude_deg": 35}, {Q.SHARP_AFTER_FOCUSING}, Cause.FOCUS),
    # Alignment.
    ({"focal_ratio": 4.7, "days_since_collimation": None}, {Q.HIGH_STAR_IS_SOFT}, Cause.COLLIMATION),
    ({**CLOSED, "days_since_collimation": None}, {Q.HIGH_STAR_IS_SOFT}, Cause.COLLIMATION),
    ({"days_since_collimation": 200}, {Q.HIGH_STAR_IS_SOFT, Q.LESS_POWER_HELPS}, Cause.COLLIMATION),
    # Dew.
    ({**REFRACTOR, "is_wet": True}, {Q.GLOW, Q.HIGH_STAR_IS_SOFT}, Cause.DEW),
    ({**CLOSED, "is_wet": True}, {Q.GLOW, Q.HIGH_STAR_IS_SOFT}, Cause.DEW),
    ({**CLOSED}, {Q.GLOW, Q.HIGH_STAR_IS_SOFT}, Cause.DEW),
    # What it stands on.
    ({"stands_on": Stand.BALCONY}, {Q.CALMS_DOWN_UNTOUCHED, Q.LESS_POWER_HELPS}, Cause.MOUNT),
    ({"settles_s": 6.0}, {Q.CALMS_DOWN_UNTOUCHED, Q.LESS_POWER_HELPS}, Cause.MOUNT),
    ({**REFRACTOR, "stands_on": Stand.DECK}, {Q.CALMS_DOWN_UNTOUCHED}, Cause.MOUNT),
    # The eye.
    (
        {"exit_pupil_mm": 3.0, "astigmatism": True, "standing": Standing.BELOW},
        {Q.TURNS_WITH_THE_HEAD},
        Cause.EYE,
    ),
    ({"exit_pupil_mm": 2.5, "glasses": True}, {Q.TURNS_WITH_THE_HEAD}, Cause.EYE),
    ({"exit_pupil_mm": 0.45, **REFRACTOR}, {Q.LESS_POWER_HELPS}, Cause.SMALL_PUPIL),
    # One's own warmth before the opening of the tube.
    ({}, {Q.SLOW_SWIRLS, Q.CALMS_WHEN_STEPPING_ASIDE}, Cause.OWN_WARMTH),
]


@pytest.mark.parametrize(("facts", "seen", "cause"), SITUATIONS)
def test_the_cause_is_the_one_an_observer_would_name(
    facts: dict[str, Any], seen: set[Question], cause: Cause
) -> None:
    normal = NORMAL - {Q.RING_IS_EVEN} if cause in UNEVEN else NORMAL

    assert asked(known(**facts), normal | seen).cause is cause


def test_an_eyepiece_that_does_not_come_to_focus() -> None:
    assert asked(known(), {Q.RING_IS_EVEN}).cause is Cause.FOCUS_OUT_OF_REACH


def test_who_can_tell_nothing_is_told_that_it_cannot_be_judged() -> None:
    assert asked(known(), set(), set(Question)).cause is None


def test_what_is_known_already_is_not_asked_again() -> None:
    """A planet at 12° through a warm roof needs fewer questions than one that nothing is known of."""
    sure = {Cause.WARM_AIR, Cause.HEIGHT}
    weights = weights_of(known(altitude_deg=12, in_warm_air=True, is_cooling=False))

    assert sum(weights[cause] for cause in sure) > 0.6


@given(
    st.lists(st.tuples(st.sampled_from(list(Question)), st.sampled_from(list(Reply))), max_size=6),
    st.sampled_from(list(TelescopeKind)),
    st.one_of(st.none(), st.floats(5, 90)),
)
def test_whatever_is_answered_it_ends_with_shares_of_one(
    told: list[tuple[Question, Reply]], kind: TelescopeKind, altitude_deg: float | None
) -> None:
    facts = KnownOfView(kind=kind, altitude_deg=altitude_deg)
    weights = after_replies(facts, dict(told))

    assert sum(weights.values()) == pytest.approx(1.0)
    assert all(0.0 <= share <= 1.0 for share in weights.values())
    assert len(dict(told)) < MOST_QUESTIONS or next_question(facts, dict(told)) is None


def share(cause: Cause, **facts: Any) -> float:  # noqa: ANN401
    return weights_of(known(**facts))[cause]


LENS, MIRROR, BINOCULARS = TelescopeKind.REFRACTOR, TelescopeKind.REFLECTOR, TelescopeKind.FIXED


@pytest.mark.parametrize(
    ("cause", "cases"),
    [
        (
            Cause.HEIGHT,
            [{"altitude_deg": 60}, {"altitude_deg": 35}, {"altitude_deg": 25}, {"altitude_deg": 15}],
        ),
        (Cause.WARM_AIR, [{"in_warm_air": False}, {"in_warm_air": True}]),
        (Cause.POWER, [{"standing": each} for each in ("below", "good", "try", "above")]),
        (Cause.SMALL_PUPIL, [{"exit_pupil_mm": each} for each in (1.0, 0.9, 0.6, 0.4)]),
        (Cause.COOLING, [{"is_cooling": False}, {"is_cooling": None}, {"is_cooling": True}]),
        (Cause.COOLING, [{"mirror_share": 0.9}, {"mirror_share": 1.1}]),
        (Cause.COOLING, [{"kind": LENS, "aperture_mm": 80}, {"kind": LENS, "aperture_mm": 200}]),
        (Cause.DEW, [{"is_wet": False}, {"is_wet": None}, {"is_wet": True}]),
        # A mirror lies deep in its tube.
        (Cause.DEW, [{"kind": MIRROR}, {"kind": TelescopeKind.CATADIOPTRIC}]),
        (Cause.COLLIMATION, [{"days_since_collimation": each} for each in (3, 30, 100)]),
        (Cause.COLLIMATION, [{"kind": LENS}, {"focal_ratio": 8.0}, {"focal_ratio": 4.7}]),
        (Cause.MOUNT, [{"stands_on": Stand.GROUND}, {"stands_on": Stand.BALCONY}]),
        (Cause.MOUNT, [{"settles_s": 1.0}, {"settles_s": None}, {"settles_s": 6.0}]),
        (Cause.AIR, [{"blur_arcsec": each} for each in (0.8, 1.5, 3.0)]),
        (Cause.EYE, [{}, {"glasses": True}, {"astigmatism": True}]),
        (Cause.EYE, [{"exit_pupil_mm": each} for each in (1.1, 1.5, 2.5)]),
        # The observer stands before an open tube, beside a closed one, and behind binoculars.
        (Cause.OWN_WARMTH, [{"kind": BINOCULARS}, {"kind": LENS}, {"kind": MIRROR}]),
    ],
)
def test_what_is_known_makes_a_cause_likelier_in_the_order_that_an_observer_would_say(
    cause: Cause, cases: list[dict[str, Any]]
) -> None:
    cases = [
        case | {"standing": Standing(case["standing"])} if "standing" in case else case for case in cases
    ]
    shares = [share(cause, **case) for case in cases]

    assert shares == sorted(set(shares))


def test_before_anything_is_known_the_air_is_likeliest_and_some_things_are_rare() -> None:
    weights = weights_of(KnownOfView(kind=MIRROR))
    usual = {Cause.FOCUS, Cause.COLLIMATION, Cause.COOLING, Cause.POWER}
    rare = set(Cause) - usual - {Cause.AIR}

    assert weights[Cause.AIR] > max(weights[cause] for cause in usual)
    assert min(weights[cause] for cause in usual) >= 2.0 * max(weights[cause] for cause in rare)


# What a yes, or of the three that are normal a no, speaks for; everything else becomes less likely by it.
SPEAKS_FOR = {
    (Q.SHARP_AFTER_FOCUSING, Reply.YES): {Cause.FOCUS},
    (Q.FOCUS_PASSES, Reply.NO): {Cause.FOCUS_OUT_OF_REACH},
    (Q.LESS_POWER_HELPS, Reply.YES): {
        Cause.POWER,
        Cause.SMALL_PUPIL,
        Cause.MOUNT,
        Cause.AIR,
        Cause.HEIGHT,
        Cause.WARM_AIR,
    },
    (Q.RING_IS_EVEN, Reply.NO): {Cause.COLLIMATION, Cause.COOLING, Cause.OWN_WARMTH},
    # Low in the sky one looks through the slow air over the ground, too.
    (Q.SLOW_SWIRLS, Reply.YES): {Cause.COOLING, Cause.OWN_WARMTH, Cause.WARM_AIR, Cause.HEIGHT},
    (Q.STARS_TWINKLE, Reply.YES): {Cause.AIR},
    (Q.GLOW, Reply.YES): {Cause.DEW, Cause.SMALL_PUPIL, Cause.HEIGHT},
    (Q.HIGH_STAR_IS_SOFT, Reply.NO): {Cause.HEIGHT, Cause.WARM_AIR, Cause.POWER},
    (Q.CALMS_DOWN_UNTOUCHED, Reply.YES): {Cause.MOUNT},
    (Q.TURNS_WITH_THE_HEAD, Reply.YES): {Cause.EYE},
    (Q.CALMS_WHEN_STEPPING_ASIDE, Reply.YES): {Cause.OWN_WARMTH},
}


@pytest.mark.parametrize(("question", "reply"), SPEAKS_FOR)
def test_each_answer_speaks_for_what_an_observer_would_think_of(question: Question, reply: Reply) -> None:
    causes = SPEAKS_FOR[question, reply]
    facts = KnownOfView(kind=MIRROR, altitude_deg=35)
    before, after = weights_of(facts), after_replies(facts, {question: reply})

    assert {cause for cause in Cause if after[cause] > before[cause]} == causes
    # The other answer speaks against the same, and rules nothing out.
    other = after_replies(facts, {question: Reply.NO if reply is Reply.YES else Reply.YES})
    assert all(other[cause] < before[cause] for cause in causes)
    assert min(*after.values(), *other.values()) > 0.0


def test_every_question_is_tried() -> None:
    assert {question for question, _ in SPEAKS_FOR} == set(Question)
