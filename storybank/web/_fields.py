"""The fields of the form by the names that stand beside them, for what is said about them."""

import re

NAMES = {
    "theme": "Theme",
    "strategy": "Strategy",
    "situation": "Kind of story",
    "within": "Largest number",
    "crossing": "Does a ten have to be made or broken?",
    "pair": "Exactly these numbers",
    "diagnose": "Numbers for known mistakes",
    "vocabulary": "Level of English",
    "levels-side-by-side": "The same stories at all four levels",
    "home-language": "Languages of the word bank",
    "keywords": "Words such as more, left, in all",
    "allow": "Looser rules",
    "forbid": "Plainer rules",
    "count": "Stories",
    "names": "Class list",
    "names-from": "Names",
    "steps": "Two steps",
    "then": "The second step",
    "addends": "Addends",
    "units": "Amounts",
    "number-sets": "Several sets of numbers",
    "extra-number": "A number that is not needed",
    "missing": "A needed number left out",
    "fact-families": "Fact families",
    "without": "Tell nothing of",
    "seed": "Number of the set",
}
"""By the long options of the command line, which are the keys of an address."""
_OPTION = re.compile(r"--([a-z]+(?:-[a-z]+)*)")


def as_on_the_page(text: str) -> str:
    """A sentence of an error with the fields of the form for the options of the command line."""
    return _OPTION.sub(lambda one: f"“{NAMES[one[1]]}”" if one[1] in NAMES else one[0], text)
