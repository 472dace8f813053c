"""Cuts a story of measured amounts into claims: who or what, how much, and in which way."""

import re
from dataclasses import dataclass

from .words import CannotRead

UNITS = {
    "inch": "inches", "foot": "feet", "centimeter": "centimeters", "meter": "meters",
    "yard": "yards", "dollar": "dollars", "cent": "cents", "minute": "minutes", "hour": "hours",
    "point": "points",
}  # fmt: skip
_PLURALS = {many: many for many in UNITS.values()} | UNITS
_UNIT = "|".join(sorted(_PLURALS, key=len, reverse=True))
SIZES = ("long", "tall", "high", "wide", "deep")
UPWARD = ("longer", "taller", "higher", "wider", "deeper", "farther", "more")
DOWNWARD = ("shorter", "lower", "narrower", "fewer", "less")
_WAYS = "|".join(UPWARD + DOWNWARD)
AMOUNT = re.compile(rf"\b(\d+)(?: ({_WAYS}))? ({_UNIT})\b(?: ({_WAYS}))?")
_OPENINGS = re.compile(
    r"^(?:then|now|so|at first|in the end|after that|later|today)(?:,)? (?=\w)", re.IGNORECASE
)
_WHEN = re.compile(
    r"\b(on monday and tuesday|on saturday and sunday|on \w+day|(?:before|after) \w+"
    r"|on the (?:\w+ )?\w+$|^on the (?:\w+ )?\w+(?=,)|in the park"
    r"|in the (?:morning|afternoon|evening)|that day|that weekend|in all on monday and tuesday"
    r"|in all|at first|before that|in the end"
    r"|after that|now|left)\b"
)
_GROWING = {"grow", "grew", "earn", "find", "found", "get", "got", "score", "win", "won"}
_SHRINKING = {
    "cut", "spend", "spent", "pay", "paid", "lose", "lost", "blow", "blew", "wash", "burn", "melt",
}  # fmt: skip
HAVING = {"has", "had", "have"}
COSTING = {"cost", "costs"}
_IS = {"is", "was"}


@dataclass(frozen=True)
class Claim:
    """One clause: the words before the amount, the number (None where asked or vague), the rest.

    `way` is `up` or `down` for a comparing word or an act, `than` what it is compared with,
    `when` the times told, `asks` for the question.
    """

    text: str
    subject: tuple[str, ...]
    verb: str
    number: int | None
    unit: str
    way: str
    than: tuple[str, ...]
    when: tuple[str, ...]
    asks: bool

    @property
    def state(self) -> bool:
        """Whether it tells how much there is, not what is done."""
        return self.verb in _IS | HAVING | COSTING


def is_measured(text: str) -> bool:
    """Whether every number of a text is an amount in a unit, and the same one."""
    found = {_PLURALS[match[3]] for match in AMOUNT.finditer(text)}
    return len(found) == 1 and len(re.findall(r"\d+", text)) == len(AMOUNT.findall(text))


def claims(text: str) -> list[Claim]:
    """The claims of a story in order, the question last."""
    found: list[Claim] = []
    somebody: tuple[str, ...] = ()
    for sentence in re.findall(r"[^.?]+[.?]", text.replace("\n", " ")):
        asks = sentence.endswith("?")
        parts = (
            [sentence.strip(" .?")]
            if asks
            else re.split(r", and | and (?=now )", sentence.strip(" .?"))
        )
        for part in parts:
            claim = _asked(part) if asks else _told(part)
            if claim.subject and claim.subject[0] in ("he", "she", "it"):
                claim = _renamed(claim, somebody)
            elif claim.subject and not asks:
                somebody = claim.subject
            found.append(claim)
    if not found or not found[-1].asks or any(one.asks for one in found[:-1]):
        raise CannotRead("a measured story ends with its one question")
    return found


def _renamed(claim: Claim, somebody: tuple[str, ...]) -> Claim:
    if not somebody:
        raise CannotRead(f"nobody is meant by {claim.subject[0]}")
    return Claim(**{**claim.__dict__, "subject": somebody})


def name(words: str) -> tuple[str, ...]:
    """A noun phrase without its article."""
    return tuple(word for word in words.lower().split() if word not in ("a", "an", "the"))


def _told(part: str) -> Claim:
    text = part.lower()
    when = tuple(_WHEN.findall(text))
    if re.match(rf"(?:{_WHEN.pattern[2:-2]}), ", text):
        text = text.split(", ", 1)[1]
    text = _OPENINGS.sub("", text)
    than: tuple[str, ...] = ()
    if " than " in text:
        text, _, other = text.partition(" than ")
        than = name(other)
    match = AMOUNT.search(text)
    before = text[: match.start()] if match else text
    subject, verb, _ = _subject_and_verb(before)
    way = _way(match[2] or match[4] if match else "", verb, text)
    unit = _PLURALS[match[3]] if match else ""
    return Claim(
        text, subject, verb, int(match[1]) if match else None, unit, way, than, when, False
    )


def _asked(part: str) -> Claim:
    text = part.lower()
    when = tuple(_WHEN.findall(text))
    than: tuple[str, ...] = ()
    if " than " in text:
        text, _, other = text.partition(" than ")
        than = name(_WHEN.sub("", other))
    much = re.match(rf"how many (?:({_WAYS}) )?({_UNIT})\b(?: ({_WAYS}|{'|'.join(SIZES)}))?", text)
    size = re.match(rf"how ({'|'.join(SIZES)})", text)
    if not (much or size):
        raise CannotRead(f"not a question for an amount: {part}")
    word = (much[1] or much[3] or "") if much else ""
    unit = _PLURALS[much[2]] if much else ""
    rest = text[(much or size).end() :].strip()  # type: ignore[union-attr]
    topic = ""
    if rest.startswith("of "):
        topic, rest = re.split(r" (?=did |does |is |was )", rest, maxsplit=1)
    helper, _, rest = rest.partition(" ")
    if helper not in ("is", "was", "did", "does"):
        raise CannotRead(f"no verb behind the amount in: {part}")
    if helper in _IS:
        subject, verb = name(_WHEN.sub("", rest)), helper
    else:
        subject, verb, _ = _subject_and_verb(rest)
    text = f"{rest} {topic}".strip()
    return Claim(text, subject, verb, None, unit, _way(word, verb, text), than, when, True)


_ROWS = (
    "grow grows grew; earn earns earned; find finds found; get gets got; score scores scored; "
    "win wins won; cut cuts; spend spends spent; pay pays paid; lose loses lost; blow blows blew; "
    "wash washes washed; burn burns burned; melt melts melted; make makes made; walk walks walked; "
    "run runs ran; jump jumps jumped; swim swims swam; skate skates skated; slide slides slid; "
    "ride rides rode; row rows rowed; work works worked; play plays played; build builds built; "
    "sew sews sewed; read reads; sing sings sang; dance dances danced; dig digs dug; hike hikes "
    "hiked; water waters watered; watch watches watched; cook cooks cooked; stir stirs stirred; "
    "rake rakes raked; fly flies flew; hop hops hopped; throw throws threw; draw draws drew; "
    "practice practices practiced; buy buys bought; paint paints painted; climb climbs climbed"
)
_BASE = {form: row.split()[0] for row in _ROWS.split(";") for form in row.split()}
_BASE |= {form: form for form in _IS | HAVING | COSTING}


def _subject_and_verb(words: str) -> tuple[tuple[str, ...], str, str]:
    found = words.split()
    for at, word in enumerate(found):
        # Behind an article stands a noun: a walk, the run.
        if at and word in _BASE and found[at - 1] not in ("a", "an", "the"):
            return name(" ".join(found[:at])), _BASE[word], " ".join(found[at + 1 :])
    raise CannotRead(f"no verb the reader knows in: {words}")


def _way(word: str, verb: str, text: str) -> str:
    if word in UPWARD:
        return "up"
    if word in DOWNWARD:
        return "down"
    for one in text.split():
        if verb == "make" and one in UPWARD:
            return "up"
        if verb == "make" and one in DOWNWARD:
            return "down"
    if verb in _GROWING:
        return "up"
    return "down" if verb in _SHRINKING else ""
