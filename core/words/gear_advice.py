"""What Gear says before there is much in it: what is enough of each thing, and why it is asked for."""

from typing import Final

NO_POWERS_YET: Final = "Every power, exit pupil and field will appear here once there is a telescope."
DECLINATION: Final = (
    "How far east or west of true north a compass points at this place; maps and geological surveys tell "
    "it. East counts as positive."
)
FINEST_DETAIL: Final = (
    "Finest detail that this power shows, before the air blurs it: 232″ over the power, and never finer "
    "than the aperture resolves (Dawes, 116″ over its mm)"
)
ENOUGH_FOR_TELESCOPE: Final = (
    "Name, aperture and focal length are enough. Type figures as they are written on the tube: 150, 6 in, "
    '4 1/2", f/8. Instruments with a power of their own go in as 10x50 or 20-60x80.'
)
ENOUGH_FOR_EYEPIECE: Final = (
    "The focal length in mm is enough, such as 10, or 8-24 for a zoom. With its field stop or its "
    "apparent field the true field is known too."
)
ENOUGH_FOR_BARLOW: Final = (
    "The factor is enough: 2 for a Barlow that doubles the power, 0.63 for a reducer. A factor you have "
    "measured yourself is used in place of the marked one."
)
ENOUGH_FOR_FILTER: Final = (
    "The colour number (Wratten) is enough, or for a neutral filter the share of light that it lets through."
)
ENOUGH_FOR_SITE: Final = (
    "Latitude, longitude and a name. Trees, roofs and warm chimneys can be added, so that times when they "
    "stand in the way are not offered."
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
