"""Tokens, closed word classes and word shapes: the only words the reader knows besides its verbs.

Nouns, adjectives and names are open: any word that is not listed here and does not act as a
verb is taken for one of them.
"""

import re
from dataclasses import dataclass
from functools import lru_cache


class CannotRead(ValueError):
    """The story is not understood; the message says what stopped the reader."""


@dataclass(frozen=True, slots=True)
class Token:
    """One word, number or mark of a sentence."""

    text: str
    low: str
    name: bool


def wordset(text: str) -> frozenset[str]:
    """The words of a text as a set."""
    return frozenset(text.split())


_COUNTING = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen"),
    *("eighteen", "nineteen", "twenty"),
)
NUMBER_WORDS = {w: n for n, w in enumerate(_COUNTING) if n != 1}
DETERMINERS = wordset(
    "the a an his her their its my our your this that these those each every another both no "
    "any one"
)
POSSESSIVES = wordset("his her their its my our your")
SUBJECT_PRONOUNS = wordset("he she they it we i you nobody everybody everyone somebody")
OBJECT_PRONOUNS = wordset("him them us me it her you")
PREPOSITIONS = wordset(
    "in into inside on onto upon at by near beside under behind from off over to toward towards "
    "with for through across along around between of after before during until past among "
    "against above below without since out next about atop outside up down within beneath "
    "as"
)
PARTICLES = wordset(
    "away off out in up down over back home on by along inside outside there here together aside "
    "free past under around across through aboard"
)
ADVERBS = wordset(
    "just also only then now still already so far again later soon first next finally too once "
    "even ever together altogether quickly slowly carefully gently quietly suddenly today "
    "yesterday tonight afterward afterwards however instead almost exactly more-or-less not "
    "never always usually both all right there else yet ago overnight meanwhile softly gracefully "
    "proudly neatly eagerly cheerfully loudly swiftly lazily briskly noisily happily gladly early "
    "twice immediately slowly patiently safely tightly kindly politely playfully bravely steadily"
)
TIME_NOUNS = wordset(
    "morning noon night day week month year monday tuesday wednesday thursday friday saturday "
    "sunday lunch lunchtime recess dinner breakfast supper beginning start end afternoon evening "
    "hour minute weekend spring summer fall winter season bedtime january february march april "
    "may june july august september october november december midday sunset sunrise dawn dusk "
    "moment while time today yesterday tonight now tomorrow then"
)
TIME_PREPOSITIONS = wordset("after before during until since")
BE = wordset("is are was were be been being am")
HAVE = wordset("has have had having")
DO = wordset("do does did")
MODALS = wordset("can could will would must should may might shall")
AUXILIARIES = BE | HAVE | DO | MODALS
SUBORDINATORS = wordset("when after before while as once because until since if so that")
CONJUNCTIONS = wordset("and but or then so")
RELATIVES = wordset("that which who where")
VAGUE = wordset("some several many few lots plenty most")
MEASURES = wordset(
    "number pile bunch lot group set collection handful couple stack heap flock herd swarm crowd "
    "pod troop cluster bundle batch"
)
UNMARKED = wordset(
    "sheep fish deer moose bison elk shrimp squid salmon trout cattle people children mice geese "
    "men women feet teeth oxen police aircraft salmon reindeer series"
)
IRREGULAR = {
    "people": "person",
    "children": "child",
    "mice": "mouse",
    "geese": "goose",
    "men": "man",
    "women": "woman",
    "feet": "foot",
    "teeth": "tooth",
    "oxen": "ox",
    "leaves": "leaf",
    "loaves": "loaf",
    "wolves": "wolf",
    "knives": "knife",
    "shelves": "shelf",
    "calves": "calf",
    "halves": "half",
    "elves": "elf",
    "scarves": "scarf",
    "wives": "wife",
    "lives": "life",
    "pennies": "penny",
    "cookies": "cookie",
    "movies": "movie",
    "pies": "pie",
    "ties": "tie",
    "brownies": "brownie",
    "smoothies": "smoothie",
    "shoes": "shoe",
    "canoes": "canoe",
    "toes": "toe",
    "hoes": "hoe",
    "axes": "ax",
    "buses": "bus",
    "pairs": "pair",
    "veggies": "veggie",
    "birdies": "birdie",
    "doggies": "doggie",
    "cherries": "cherry",
}
MARKS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(rf"\b(?:{pattern})\b", re.IGNORECASE), f" {mark} ")
    for mark, pattern in (
        (
            "§start",
            r"at first|(?:at|in) the (?:very )?(?:start|beginning)(?: of the \w+)?|to begin with|"
            r"to start with|originally|before (?:that|this)|at the outset|to start off",
        ),
        (
            "§end",
            r"(?:at|in|by) the end(?: of the \w+)?|after (?:that|this)|afterwards?|"
            r"(?:a little |a bit |later )?later(?: on)?|"
            r"left ?over(?! (?:the|a|an|his|her|its|their|our|my)\b)|after all",
        ),
        ("§total", r"in all|altogether|in total|all together|total|combined|between them"),
        ("§far", r"so far|by now|already"),
    )
)
_TOKEN = re.compile(r"§\w+|\d+|[^\W\d_]+(?:['\u2019.-][^\W\d_]+)*['\u2019]?|[.?!,;:—]")
_ABBREVIATION = re.compile(r"\b(Mr|Mrs|Ms|Dr|St)\.")
_CONTRACTION = re.compile(r"\b(That|that|There|there|It|it)'s\b")
_TURN_INTO = re.compile(r"\bturn(s|ed)? into \w+")
"""What has turned into something else is no longer there."""
_SET_SAIL = re.compile(r"\bsets? sail\b")
_SENTENCE = re.compile(r"[^.?!]+[.?!]")


@lru_cache(maxsize=8192)
def stem(word: str) -> str:
    """The singular of a plural noun; any other word unchanged. Common spelling rules."""
    if word in IRREGULAR:
        return IRREGULAR[word]
    if word.endswith(("'s", "\u2019s")):
        return word[:-2]
    if word.endswith("men") and len(word) > 4:
        return word[:-3] + "man"
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("xes", "zes", "ches", "shes", "sses", "oes")):
        return word[:-2]
    return word[:-1]


def plural(word: str) -> bool:
    """True where the word looks like a plural noun."""
    return word in UNMARKED or stem(word) != word


def sentences(text: str) -> list[list[Token]]:
    """The sentences of a story as tokens, the closing mark last.

    Raises CannotRead where the text does not end with a closing mark.
    """
    text = _ABBREVIATION.sub(r"\1", " ".join(text.split())).replace("\u2019", "'")
    text = _CONTRACTION.sub(r"\1 is", text)
    text = _SET_SAIL.sub("sailed away", text)
    text = _TURN_INTO.sub(
        lambda found: {"s": "vanishes", "ed": "vanished"}.get(found[1] or "", "vanish"), text
    )
    for pattern, mark in MARKS:
        text = pattern.sub(mark, text)
    found = [_tokens(s) for s in _SENTENCE.findall(text)]
    if not found or sum(len(s) for s in _SENTENCE.findall(text)) < len(text.rstrip()):
        raise CannotRead(f"no closing mark at the end of {text[-30:]!r}")
    return found


def _tokens(sentence: str) -> list[Token]:
    out: list[Token] = []
    for word in _TOKEN.findall(sentence):
        low = word.lower()
        name = word[0].isupper() and not _common(low)
        if word == "A" and out:
            low, name = "a-", True
        out.append(Token(word, low, name))
    return out


def _common(low: str) -> bool:
    return (
        low in DETERMINERS
        or low in SUBJECT_PRONOUNS
        or low in PREPOSITIONS
        or low in ADVERBS
        or low in AUXILIARIES
        or low in SUBORDINATORS
        or low in CONJUNCTIONS
        or low in VAGUE
        or low in TIME_NOUNS
        or low in NUMBER_WORDS
        or low in ("how", "there", "other", "others", "last", "nine", "most", "more", "fewer")
    )


def number(low: str) -> int | None:
    """The number a token says, in digits or as a word from two to twenty."""
    return int(low) if low.isdecimal() else NUMBER_WORDS.get(low)
