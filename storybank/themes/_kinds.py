"""Turns the kinds of a scene, which make a whole together, into their values."""

from typing import Any

from storybank.located import Faults
from storybank.model.words import Holder, Kinds, Noun, Side, Thing
from storybank.themes._fields import Fields, noun

WAYS = ("color", "size", "pattern", "sort", "state", "place")


def kinds_of(
    name: str,
    node: Any,
    scene: str,
    things: tuple[str, ...],
    known: dict[str, Thing],
    holders: dict[str, Holder],
    faults: Faults,
) -> Kinds:
    """The kinds `name` of a scene that has `things` and `holders`; the pack knows `known`."""
    what = f'the kinds "{name}" of "{scene}"'
    with Fields(node, what, faults) as fields:
        way = fields.choice("way", WAYS)
        whole, thing = Noun("a thing", "things"), ""
        if way == "sort":
            with Fields(fields.take("whole"), f"the whole of {what}", faults) as whole_fields:
                whole = noun(whole_fields)
        else:
            thing = fields.choice("thing", things)
            whole = known[thing].noun if thing in known else whole
        return Kinds(
            id=name,
            way=way,
            thing=thing,
            whole=whole,
            first=_side(fields.take("first"), f"the first of {what}", whole, known, faults),
            second=_side(fields.take("second"), f"the second of {what}", whole, known, faults),
            holders=fields.known("holders", holders, "holder", tuple(holders)),
            range=fields.range("range"),
            third=_third(fields, what, None if way == "sort" else thing, whole, known),
        )


def _third(
    fields: Fields, what: str, thing: str | None, whole: Noun, known: dict[str, Thing]
) -> Side | None:
    """A third kind of the same `thing`, told by a word before the noun; most kinds have none.

    A sum of three parts asks for all of one thing, so none may be another thing than the others.
    """
    node = fields.take("third", needed=False)
    if node is None:
        return None
    side = _side(node, f"the third of {what}", whole, known, fields.faults)
    if thing is None:
        fields.faults.add(
            node,
            f'{what}: "third" stands beside two things of different sorts, and sums of three parts '
            "are told of kinds of one thing only. Leave it out, or write kinds of one thing: "
            "`way: color` with `first`, `second` and `third: {before: yellow}`.",
        )
    elif side.picture_of is not None:
        fields.faults.add(
            node,
            f'{what}: "third" is the thing "{side.picture_of}", and the kinds are those of '
            f'"{thing}". Write a word that tells of {whole.many} too, such as '
            "`third: {before: yellow}`, or leave it out.",
        )
    return side


def _side(node: Any, what: str, whole: Noun, known: dict[str, Thing], faults: Faults) -> Side:
    with Fields(node, what, faults) as fields:
        if fields.has("thing"):
            name = fields.choice("thing", known)
            noun = known[name].noun if name in known else whole
            return Side(None, noun.many, noun.one, noun, picture_of=name)
        before = fields.optional("before")
        after = fields.text("after", before or "", needed=before is None)
        return Side(before, after, fields.text("each", after, needed=False), whole)
