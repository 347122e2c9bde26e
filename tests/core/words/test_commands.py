"""What the terminal says of a line that it refuses, and the list of its commands."""

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
