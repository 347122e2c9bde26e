"""The words of safety about the Sun that stand beside gear (common practice, safety)."""

FILTERS_AND_SUN = "No filter here makes the Sun safe to look at."
DARK_FILTERS_AND_SUN = (
    "No filter here makes the Sun safe to look at, a neutral or a dark one as little as any other: "
    "what dims a planet lets through enough of the Sun to blind."
)
FILTER_BY_DAY = (
    "For use by day: never sweep near the Sun; stand in the shadow of something solid, and cap the scope "
    "when you step away."
)
TELESCOPE_AND_SUN = (
    "Never point a telescope or its finder at the Sun or near it: that blinds at once. "
    "Cap both when they stand out by day."
)


def filter_caution(*, is_dark: bool) -> str:
    """Return what must be known of a filter and the Sun; ``is_dark`` for a neutral or a dark one."""
    return DARK_FILTERS_AND_SUN if is_dark else FILTERS_AND_SUN
