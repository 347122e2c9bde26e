"""What Gear says before there is much in it: what comes, and why it is asked for."""

from typing import Final

NO_POWERS_YET: Final = "Every power, exit pupil and field will appear here once there is a telescope."
DECLINATION: Final = (
    "How far east or west of true north a compass points at this place; maps and geological surveys tell "
    "it. East counts as positive."
)
FINEST_DETAIL: Final = (
    "The finest detail that this power makes large enough for the eye: 232″ over the power, and never finer "
    "than the aperture resolves (Dawes, 116″ over its mm). The air may let less through"
)
NOTHING_OWNED_YET: Final = (
    "Nothing here yet. Begin with where you observe, then the telescope, then the eyepieces."
)
WHAT_COMES: Final = (
    "On the right every power shows as soon as the figures allow it. Every step can be taken back, and "
    "nothing is guessed: whatever is doubtful is asked."
)
WHY_SITE: Final = "A site tells when each planet stands high, and what time it is there."
WHY_TELESCOPE: Final = "A telescope tells how much power the aperture bears."
WHY_EYEPIECE: Final = "Eyepieces make the rungs of the power ladder."
