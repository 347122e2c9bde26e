"""What the terminal says of a line that it refuses, and the list of its commands."""

import pytest

from core.words import commands
from core.words.commands import commands_words, not_understood_words, output_trouble_words


def test_words_that_mean_nothing_are_told_with_the_commands_that_there_are() -> None:
    assert not_understood_words(["ladders", "x"], ["ladder", "looks"]) == (
        "cannot make sense of ladders x; the commands are ladder, looks"
    )


def test_a_file_or_the_output_that_cannot_be_written_is_named() -> None:
    assert output_trouble_words("a.pdf", "the disk is full") == (
        "a.pdf: cannot be written or read: the disk is full"
    )
    assert output_trouble_words(None, "the disk is full") == (
        "the output: cannot be written or read: the disk is full"
    )


def test_the_commands_stand_below_each_other() -> None:
    assert commands_words("stillair", [("heights", "How high"), ("ladder", "How far")]) == (
        "commands:\n  heights   How high\n  ladder    How far\n\n"
        "stillair COMMAND --help shows the options of each."
    )


@pytest.mark.parametrize(
    ("template", "words"),
    [
        (commands.NO_COMMAND, "there is no command laddr; did you mean ladder?"),
        (commands.SEE_HELP, "it is no date (see stillair --help)"),
        (
            commands.MUST_BE_RANGE,
            "must be two figures such as 0-30, from 0 to 100 percent, not “x”",
        ),
        (commands.MUST_BE_LOWER_FIRST, "must be the lower figure first, such as 0-30, not “x”"),
        (commands.MUST_BE_DATE, "must be a date such as 2026-12-05, not “x”"),
        (
            commands.MUST_BE_SIZE,
            "must be a size such as 1000x640, from 640x400 to 7680x4320, not “x”",
        ),
        (
            commands.MUST_BE_IN_EVENING,
            "must lie in the evening of 5 December 2026, from noon to noon at Europe/Lisbon",
        ),
        (commands.NOT_ASKED_FOR, "Mars is not among the planets asked for"),
        (commands.GOES_WITH_PLANET, "goes with --planet: without one a time means nothing"),
        (commands.GOES_WITHOUT_PLANET, "goes without --planet: a planet has a height of its own"),
        (commands.GOES_WITH_MARS, "goes with --planet mars"),
        (commands.NEEDS_A_SITE, "needs a site, and the profile has none yet"),
        (
            commands.WHOLE_FILE_IS_READ,
            "takes neither --since nor --search: the whole file is read",
        ),
        (commands.IS_THERE, "kit.toml is there already; --replace writes over it"),
        (commands.NO_FOLDER, "kit.toml already exists and is not a folder"),
        (commands.CANNOT_BE_MADE, "cannot be made: no room"),
    ],
)
def test_a_refusal_says_what_would_do(template: str, words: str) -> None:
    told = template.format(
        word="laddr",
        meant="ladder",
        problem="it is no date",
        program="stillair",
        typed="x",
        day="5 December 2026",
        zone="Europe/Lisbon",
        planet="Mars",
        file="kit.toml",
        error="no room",
    )

    assert told == words
