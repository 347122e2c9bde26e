"""How each body's line is dashed and how the chart's tints lie: the same in every palette."""

from core.drawing.marks import SOLID, Dashes
from core.sky.bodies import Body

# Lengths of ink and gap in line widths. A solid line for the brightest planet; the rest differ in rhythm, so
# that they stay apart without colour.
DASHES: dict[Body, Dashes] = {
    Body.JUPITER: SOLID,
    Body.SATURN: (7, 2.2),
    Body.MARS: (3.6, 1.8),
    Body.VENUS: (9, 2, 1.4, 2),
    Body.MERCURY: (1.3, 1.5),
    Body.URANUS: (5, 1.8, 1.3, 1.8, 1.3, 1.8),
    Body.NEPTUNE: (2.2, 2.2, 1.2, 2.2),
    Body.MOON: (16, 2.6),
}
# Sky behind an obstacle: the same hand for every body, little ink and wide gaps.
BLOCKED_DASHES = (1.0, 4.5)

LINE_WIDTH = 1.5
LINE_WIDTH_IN_HAND = 2.9

# How strongly the height bands tint the sky beneath them.
TINT_FAIR = 0.30
TINT_LOW = 0.42
