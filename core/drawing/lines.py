"""How each body's line is dashed and how the chart's tints lie: the same in every palette."""

from core.sky.bodies import Body

# Dash patterns as Matplotlib takes them: offset, then lengths of ink and gap in line widths. A solid
# line for the brightest planet; the rest differ in rhythm, so that they stay apart without colour.
DASHES: dict[Body, tuple[float, tuple[float, ...] | None]] = {
    Body.JUPITER: (0, None),
    Body.SATURN: (0, (7, 2.2)),
    Body.MARS: (0, (3.6, 1.8)),
    Body.VENUS: (0, (9, 2, 1.4, 2)),
    Body.MERCURY: (0, (1.3, 1.5)),
    Body.URANUS: (0, (5, 1.8, 1.3, 1.8, 1.3, 1.8)),
    Body.NEPTUNE: (0, (2.2, 2.2, 1.2, 2.2)),
    Body.MOON: (0, (16, 2.6)),
}
# Sky behind an obstacle: the same hand for every body, little ink and wide gaps.
BLOCKED_DASHES = (0.0, (1.0, 4.5))

LINE_WIDTH = 1.5
LINE_WIDTH_IN_HAND = 2.9

# How strongly the height bands tint the sky beneath them.
TINT_FAIR = 0.30
TINT_LOW = 0.42
