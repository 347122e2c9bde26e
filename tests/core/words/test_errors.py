"""What is told when something breaks inside the program, and when no window can be opened."""

from pathlib import Path

from core.words.errors import install_words, no_window_words, went_wrong_words


def test_an_error_that_nobody_foresaw_names_its_report_and_leaves_the_profile_alone() -> None:
    assert went_wrong_words(None) == ("Something went wrong inside Stillair, and your profile is as it was.")
    report = Path("reports") / "today.txt"
    assert went_wrong_words(report) == (
        "Something went wrong inside Stillair, and your profile is as it was. A report without personal data "
        f"is in {report}; nothing is sent."
    )


def test_without_a_window_every_reason_is_told_and_what_there_is_in_its_place() -> None:
    assert no_window_words(["there is no display", "Qt does not load"]) == (
        "No window can be opened here: there is no display; Qt does not load; stillair heights PROFILE tells "
        "the evening in the terminal."
    )


def test_what_is_lacking_is_told_with_the_words_that_install_it() -> None:
    """The packages stand as they are typed after ``apt install``: with blanks between them."""
    missing = {"libEGL.so.1": "libegl1", "libxkbcommon.so.0": "libxkbcommon0"}

    assert install_words(missing) == (
        "the system lacks libEGL.so.1, libxkbcommon.so.0; on Debian or Ubuntu install libegl1 libxkbcommon0"
    )
