"""The examples that come with the program."""

from importlib import resources

_FOLDER = "sample_profiles"


def examples() -> dict[str, str]:
    """Return by file name what each example shows: the first sentence of its first comment."""
    names = sorted(each.name for each in resources.files(_FOLDER).iterdir() if each.name.endswith(".toml"))
    return {name: example_text(name).partition(".")[0].removeprefix("# ") for name in names}


def example_text(name: str) -> str:
    """Return the text of an example's file."""
    return resources.files(_FOLDER).joinpath(name).read_text("utf-8")
