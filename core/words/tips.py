"""What stands beside a control, or in its place as long as something is missing."""

from typing import Final

LONGITUDE_ON_MARS: Final = (
    "A longitude on Mars, west, 0 to 360 degrees: the year shows the evenings on which it faces us"
)
HOURS_OUT: Final = (
    "The hours that you are outside this evening. Your usual ones are in Gear, under the observer."
)
HOURS_ASSUMED: Final = "Assumed, since none were given. Your usual hours are in Gear, under the observer."
BEFORE_NOON: Final = "Times before noon are of the next morning."
STEP_WITHOUT_WORDS: Final = "A step needs a word or two that say what to do."
NO_SITE_FOR_CHART: Final = "Add a site in Gear, and its evening appears here."
NO_SITE_FOR_DATES: Final = "Add a site in Gear to find evenings there."
NO_BODY_FOR_DATES: Final = "Choose at least one planet, or the Moon."
NO_SITE_FOR_YEAR: Final = "Add a site in Gear to see the year from there."
POINT_AT_EVENING: Final = "Point at an evening to read about it; click it to go there."
NOTHING_TO_LOOK_FOR_YET: Final = "With a site, a planet and a telescope this page says what to look for."
NO_SITE_YET: Final = "Begin in Gear with your observing site; then this line says what tonight can give."
TEMPERATURES: Final = "Fill in what you know; leave the rest empty. It counts for this site and this evening."
WHY_TEMPERATURES: Final = "So that the mirror's own warmth and dew are taken into account"
TOWN_FILLS_IN: Final = "Fills in coordinates and time zone; nothing leaves this machine."
COPY_FIGURES: Final = "Ctrl+C copies the table for a spreadsheet. The better figure is set bold."
DRAG_OBSTACLES: Final = "Drag an obstacle, or take it with Page Down and move it with the arrows."
BY_A_SCALE: Final = "For those who judge the air by a scale: one of five steps, I to V, or one of ten."
LOG: Final = "What you said and noted, evening by evening"
TWO_BARLOWS: Final = (
    "Counts also what two Barlows behind one another give; their spacing makes it approximate."
)
TUBE: Final = (
    "Unless you say otherwise: closed where the telescope has both lens and mirrors, open for a mirror alone"
)
DRIVE: Final = "It follows the sky by itself, so that nothing drifts out of the field."
ABOVE_THE_AIR: Final = "How much warmer than the air the telescope was when you carried it out"
KIT_QUESTIONS: Final = "What one more thing would give, what gives a power, or whether a promised power holds"
SORT_POWERS: Final = (
    "Click a heading or press 1 to 7 to sort. Ctrl+C copies the chosen rows for a spreadsheet, or all of "
    "them when none is chosen."
)
TYPE_SECTORS: Final = "Type in the last row to add one. Ctrl+Delete removes the row in hand."
CHOOSE_TWO: Final = "Choose two telescopes to put side by side."
WRITE_THE_DATE: Final = "Write the date as year, month and day, such as 2026-11-01."
