"""A small good pack and packs broken in one place each, with the faults that must be said."""

from typing import NamedTuple

GOOD = """\
title: A walk
season: any
months: [4, 5]
climate: any
observance: none
sources: our own invention
read_by: nobody yet
---
things:
  leaf: {one: a leaf, many: leaves, picture: 🍁, meaning: a flat part of a tree, es: hoja}
  nut: {one: a nut, many: nuts, picture: 🌰, meaning: a hard seed, es: nuez}
scenes:
  park:
    title: The park
    setting: in the park
    things: [leaf, nut]
    holders:
      child: {is: person, keeps: in a bag, room: {leaf: 2-60, nut: 2-60}}
      box: {is: place, one: a box, prep: in, room: {leaf: 2-60}}
    acts:
      find: {effect: gain, holders: [child], verb: find finds found found, frame: "{who} {verb} {n} {things}", range: 1-20}
    kinds:
      color: {way: color, thing: leaf, first: {before: red}, second: {before: green}, holders: [child], range: 2-60}
    compare:
      find: {verb: find finds found found, range: 2-60}
    times:
      - {first: before lunch, second: after lunch, span: that day, acts: [find]}
"""  # noqa: E501


class Broken(NamedTuple):
    """`old` replaced by `new` in the good pack; by structure the schema must refuse it too."""

    old: str
    new: str
    faults: list[str]
    structure: bool = True

    @property
    def text(self) -> str:
        """The broken pack."""
        assert GOOD.count(self.old) == 1, self.old
        return GOOD.replace(self.old, self.new)


BROKEN = {
    "season misspelt": Broken(
        "season: any", "season: autum",
        ['line 2: the header: "season" is "autum". Did you mean "autumn"? '
         "Choose from: spring, summer, autumn, winter, any."],
    ),
    "no such month": Broken(
        "[4, 5]", "[4, 13]",
        ['line 3: the header: "13" is no month. Write numbers from 1 to 12.'],
    ),
    "header without title": Broken(
        "title: A walk\n", "",
        ['line 1: the header lacks "title". Write it, e.g. `title: Buttons and beads`.'],
    ),
    "key misspelt": Broken(
        "many: nuts", "manny: nuts",
        ['line 11: the thing "nut" has the unknown key "manny". Did you mean "many"? '
         "Known here: one, many, forms, picture, meaning, subjects, es.",
         'line 11: the thing "nut" lacks "many". Write it, e.g. `many: buttons`.'],
    ),
    "thing without article": Broken(
        "one: a nut", "one: acorn",
        ['line 11: the thing "nut": "one" begins with a or an, e.g. `one: an acorn`; '
         'here stands "acorn".'],
    ),
    "thing that is a text": Broken(
        "nut: {one: a nut, many: nuts, picture: 🌰, meaning: a hard seed, es: nuez}",
        "nut: a nut",
        ['line 11: the thing "nut" must have its parts below it, each written `key: value` and '
         "indented alike; none are there."],
    ),
    "unknown subject": Broken(
        "es: nuez}", "es: nuez, subjects: [toys]}",
        ['line 11: the thing "nut": there is no subject "toys". '
         "Choose from: birthdays, buying, meals, pets, sweets."],
    ),
    "unknown thing": Broken(
        "[leaf, nut]", "[leaf, nutt]",
        ['line 16: the scene "park": there is no thing "nutt". Did you mean "nut"? '
         "Choose from: leaf, nut.",
         'line 18: the room of the holder "child" of "park" has the unknown key "nut". '
         "Known here: leaf."],
        structure=False,
    ),
    "holder neither person nor place": Broken(
        "is: person", "is: kid",
        ['line 18: the holder "child" of "park": "is" is "kid". Choose from: person, place.'],
    ),
    "place without preposition": Broken(
        "prep: in, ", "",
        ['line 19: the holder "box" of "park" lacks "prep". Write it, e.g. `prep: in`.'],
    ),
    "room backwards": Broken(
        "{leaf: 2-60}}", "{leaf: 60-2}}",
        ['line 19: the room of the holder "box" of "park": a range is two whole numbers from 1 '
         'to 1000, the smaller first, as 2-60; here stands "60-2".'],
        structure=False,
    ),
    "range that is one number": Broken(
        "range: 1-20", "range: 20",
        ['line 21: the act "find" of "park": a range is two whole numbers from 1 to 1000, the '
         'smaller first, as 2-60; here stands "20".'],
    ),
    "verb with three forms": Broken(
        "verb: find finds found found, frame", "verb: find finds found, frame",
        ['line 21: the act "find" of "park": a verb needs its four forms, e.g. '
         '`verb: take takes took taken`; here stands "find finds found".'],
    ),
    "frame without a number": Broken(
        "{verb} {n} {things}", "{verb} {things}",
        ['line 21: the act "find" of "park": the frame needs {verb} and {n} {things} and may use '
         '{who}, {name}, {holder}, {other}; it is "{who} {verb} {things}".'],
    ),
    "effect misspelt": Broken(
        "effect: gain", "effect: loose",
        ['line 21: the act "find" of "park": "effect" is "loose". Did you mean "lose"? '
         "Choose from: gain, lose."],
    ),
    "act for nobody": Broken(
        "holders: [child], verb", "holders: [kid], verb",
        ['line 21: the act "find" of "park": there is no holder "kid". '
         "Choose from: child, box."],
        structure=False,
    ),
    "kinds without a second": Broken(
        "second: {before: green}, ", "",
        ['line 23: the kinds "color" of "park" lacks "second". Write it, e.g. `second: ...`.'],
    ),
    "sort without covering word": Broken(
        "way: color, thing: leaf", "way: sort",
        ['line 23: the kinds "color" of "park" lacks "whole". Write it, e.g. `whole: ...`.'],
    ),
    "a third kind that is another thing": Broken(
        "second: {before: green}", "second: {before: green}, third: {thing: nut}",
        ['line 23: the kinds "color" of "park": "third" is the thing "nut", and the kinds are '
         'those of "leaf". Write a word that tells of leaves too, such as '
         "`third: {before: yellow}`, or leave it out."],
        structure=False,
    ),
    "a third thing beside two sorts": Broken(
        "way: color, thing: leaf, first: {before: red}, second: {before: green}",
        "way: sort, whole: {one: a find, many: finds}, first: {thing: leaf}, "
        "second: {thing: nut}, third: {before: old}",
        ['line 23: the kinds "color" of "park": "third" stands beside two things of different '
         "sorts, and sums of three parts are told of kinds of one thing only. Leave it out, or "
         "write kinds of one thing: `way: color` with `first`, `second` and "
         "`third: {before: yellow}`."],
        structure=False,
    ),
    "comparison of one place": Broken(
        "find: {verb: find finds found found, range: 2-60}", "find: {holders: [box], range: 2-60}",
        ['line 25: the comparison "find" of "park" needs a verb (for two people) or two places: '
         "`holders: [pond, river]`."],
    ),
    "times that are no list": Broken(
        "- {first", "{first",
        ['line 27: the times of "park" must be a list, each entry beginning with a dash, e.g. '
         "`- {first: before lunch, second: after lunch, span: that day, acts: [find]}`."],
    ),
    "forms that are a list": Broken(
        "meaning: a hard seed", "meaning: a hard seed, forms: [nuts]",
        ['line 11: the thing "nut": "forms" may only say that odd word forms are right: '
         "`forms: as written`."],
    ),
    "kept-out word in a meaning": Broken(
        "meaning: a hard seed", "meaning: as hard as bullets",
        ['line 11: "bullets" belongs to a subject kept out of children\'s stories: weapons. Write '
         "of things to play, make or collect with. If the word is harmless here, write in the "
         "header: allow: [bullet]."],
        structure=False,
    ),
    "kept-out word in a frame": Broken(
        "{verb} {n} {things}", "{verb} {n} {things} in the church",
        ['line 21: "church" belongs to a subject kept out of children\'s stories: religion and '
         "observances. Choose a scene that every family keeps, or name the observance in the "
         "header. If the word is harmless here, write in the header: allow: [church]."],
        structure=False,
    ),
    "kept-out picture": Broken(
        "picture: 🌰", "picture: 🎃",
        ["line 11: the picture 🎃 belongs to a subject kept out of children's stories: religion "
         "and observances. Choose a picture that shows the thing itself, or none."],
        structure=False,
    ),
    "allowed without need": Broken(
        "climate: any", "climate: any\nallow: [gunn]",
        ['line 5: the header allows "gunn", which is not held back. Did you mean "gun"? '
         "Remove it."],
        structure=False,
    ),
    "one part only": Broken(
        "---\n", "",
        ["line 1: a pack has two parts, the header and the content, parted by a line with three "
         "dashes (---); this file has 1."],
    ),
    "word whose name is a label": Broken(
        "scenes:", "words:\n  word-a: {forms: [tide, tides], meaning: the sea rising}\nscenes:",
        ['line 13: the word "word-a": here the name before the colon is itself the word that word '
         "banks print, and its forms are tide, tides. Write the word there, e.g. "
         '`tide: {forms: [tide, tides], meaning: ...}`; if "word-a" is right, write it among its '
         "forms too."],
        structure=False,
    ),
    "thing renamed in one place": Broken(
        "  leaf: {one", "  bolt: {one",
        ['line 10: "leaf" is named in 4 places (lines 16, 18, 19, 23), but under things there is '
         '"bolt" instead: write the same label in all of them.'],
        structure=False,
    ),
    "holder renamed in one place": Broken(
        "      child: {is", "      kid: {is",
        ['line 18: "child" is named in 2 places (lines 21, 23), but under holders there is "kid" '
         'or "box" instead: write the same label in all of them.'],
        structure=False,
    ),
    "picture of letters": Broken(
        "picture: 🌰", "picture: bolt",
        ['line 11: the thing "nut": "picture" is "bolt", and a picture is an emoji, such as 🍁. '
         "Write one that shows it, or `picture: none`."],
    ),
    "comma in a meaning": Broken(
        "meaning: a hard seed", "meaning: a hard, round seed",
        ['line 11: the thing "nut" has the unknown key "round seed". Perhaps a comma splits a text '
         'here: put the whole text in quotes, as in meaning: "a small, round thing". Known here: '
         "one, many, forms, picture, meaning, subjects, es."],
    ),
    "colon missing in braces": Broken(
        "one: a nut", "one a nut",
        ['line 11: the thing "nut" has the unknown key "one a nut". Is a colon missing behind '
         '"one"? Known here: one, many, forms, picture, meaning, subjects, es.',
         'line 11: the thing "nut" lacks "one". Write it, e.g. `one: a button`.'],
    ),
    "no blank behind a colon": Broken(
        "many: nuts", "many:nuts",
        ['line 11: the thing "nut" has the unknown key "many:nuts". Write a blank behind the '
         'colon: "many: ...". Known here: one, many, forms, picture, meaning, subjects, es.',
         'line 11: the thing "nut" lacks "many". Write it, e.g. `many: buttons`.'],
    ),
    "curly quotes": Broken(
        "title: The park", "title: \u201cThe park\u201d",
        ['line 14: the scene "park": "title" has the curly quotes of a word processor. Write '
         'straight ones, `title: "The park"`, or none.'],
        structure=False,
    ),
}  # fmt: skip
