"""Judges a theme pack: faults by line, warnings where it is poor or doubtful, sample stories."""

from dataclasses import dataclass
from pathlib import Path

from storybank import catalog, themes
from storybank.located import Faults
from storybank.theme_check import _blame, _measured, _parts, _scenes, _spelling, _words
from storybank.theme_check._places import Places
from storybank.theme_check._samples import samples
from storybank.theme_check._scenes import told_by

__all__ = ["ThemeReport", "check_theme", "told_by"]


@dataclass(frozen=True, slots=True)
class ThemeReport:
    """What was found in a pack: faults make it unusable, warnings make it poor."""

    faults: tuple[str, ...]
    warnings: tuple[str, ...]
    samples: tuple[str, ...]


def check_theme(path: Path) -> ThemeReport:
    """The report on the pack in the file `path`. Raises PackError if it is not plain YAML.

    Faults are those of the loader, words of subjects kept out, and laws of language that a plan
    breaks; only a pack without the first two is judged further. Warnings: unlikely word forms,
    words that children may not know, things and holders that no story reaches, scenes that tell
    few situations, little variety.
    """
    theme, faults = themes.read_with_faults(path)
    if theme is None or faults:
        return ThemeReport(tuple(faults), (), ())
    documents = catalog.read_documents(path)
    places = Places(documents[1])
    found = Faults(path.name)
    unusable = themes.why_not_by_path(path)
    if unusable:
        found.add(None, unusable)
    survey = _scenes.survey(theme)
    _spelling.warn(documents[1], found)
    _words.warn(theme, survey, documents[1], places, found)
    _parts.warn(theme, survey, places, found)
    _scenes.warn(theme, survey, places, found)
    broken = Faults(path.name)
    _blame.note(theme, documents[1], broken)
    _measured.note(theme, places, broken, found)
    told = () if broken.found else tuple(samples(theme))
    return ThemeReport(tuple(broken.lines()), tuple(found.lines()), told)
