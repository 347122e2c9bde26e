"""Letters that no font here shows: what people call their script, and what brings it."""

import pytest

from core.words.missing_letters import missing_letters_text, packages_for


@pytest.mark.parametrize(
    ("letter", "script", "package"),
    [
        ("望", "Chinese characters", "fonts-noto-cjk"),
        ("ㄅ", "Chinese", "fonts-noto-cjk"),
        ("あ", "Japanese", "fonts-noto-cjk"),
        ("カ", "Japanese", "fonts-noto-cjk"),
        ("한", "Korean", "fonts-noto-cjk"),
        ("ا", "Arabic", "fonts-noto-core"),
        ("🔭", "small pictures", "fonts-noto-color-emoji"),
        # What has no name in Unicode.
        ("\x81", "other signs", "fonts-noto-core"),
    ],
)
def test_one_script_is_told_with_its_package(letter: str, script: str, package: str) -> None:
    assert packages_for(letter) == (package,)
    assert missing_letters_text(letter) == (
        f"No font here has letters for {script}, so boxes stand in their place ({letter}). On Debian or "
        f"Ubuntu the package {package} brings one; elsewhere any font for {script} does."
    )


def test_several_scripts_are_told_each_once_with_a_few_of_their_letters() -> None:
    assert missing_letters_text("望遠🔭鏡鏡鏡鏡鏡") == (
        "No font here has letters for Chinese characters and small pictures, so boxes stand in their place "
        "(望遠🔭鏡鏡鏡). On Debian or Ubuntu the packages fonts-noto-cjk and fonts-noto-color-emoji bring "
        "them; elsewhere any fonts for Chinese characters and small pictures do."
    )
    # Two scripts of one package need no second one.
    assert "the package fonts-noto-cjk brings one" in missing_letters_text("望あ")
