"""What is said of a theme that is not valid YAML: the line to look at, and what to write there."""

import pytest
import yaml

from storybank import catalog
from storybank.errors import PackError

HEAD = "title: T\n---\nthings:\n"
NUT = '  nut: {one: a nut, many: nuts, frame: "{who} {verb}"}\n'

SLIPS = {
    "no closing quote": (
        '  leaf: {one: "a leaf, many: leaves}\n' + NUT,
        4, 'a quote (") has no partner here.',
    ),
    "no closing quote in a block": (
        '  leaf:\n    one: "a leaf\n    many: leaves\n' + NUT,
        5, 'a quote (") has no partner here.',
    ),
    "no opening quote": (
        '  leaf: {frame: {who} {verb}", many: leaves}\n' + NUT,
        4, 'a quote (") has no partner here.',
    ),
    "frame without quotes": (
        "  leaf: {frame: {who} {verb} {n} {things}, many: leaves}\n" + NUT,
        4, 'the text behind "frame" begins with a brace and so must stand in quotes',
    ),
    "colon in a meaning": (
        "  leaf: {one: a leaf, meaning: a part: flat, many: leaves}\n" + NUT,
        4, 'a colon stands inside the text behind "meaning". Put the text in quotes: '
        'meaning: "a part: flat".',
    ),
    "colon in a meaning of a block": (
        "  leaf:\n    one: a leaf\n    meaning: a part: flat\n" + NUT,
        6, 'a colon stands inside the text behind "meaning". Put the text in quotes: '
        'meaning: "a part: flat".',
    ),
    "no comma": (
        "  leaf: {one: a leaf many: leaves, es: hoja}\n" + NUT,
        4, 'a comma is missing before "many:".',
    ),
    "curly quotes": (
        "  leaf: {frame: \u201c{who} {verb}\u201d, one: a leaf}\n" + NUT,
        4, "the quotes here are the curly ones of a word processor. Write straight ones",
    ),
    "no colon before a block": (
        "  leaf\n    one: a leaf\n" + NUT,
        4, 'a colon is missing behind "leaf".',
    ),
    "no colon before braces": (
        NUT + "  leaf {one: a leaf, many: leaves}\n",
        5, "write a colon and a blank before the brace: leaf: {",
    ),
    "no colon behind a key": (
        "  leaf:\n    one: a leaf\n    many leaves\n    es: hoja\n",
        6, 'a colon is missing behind "many".',
    ),
    "no colon at the end of a part": (
        NUT + "  leaf\n",
        5, 'a colon is missing behind "leaf".',
    ),
    "no closing brace": (
        "  leaf: {one: a leaf, many: leaves\n" + NUT,
        4, 'the "{" that opens here is not closed with "}".',
    ),
    "no closing bracket": (
        "  leaf: {forms: [leaf, leaves, one: a leaf}\n" + NUT,
        4, 'the "[" that opens here is not closed with "]".',
    ),
    "a brace too many": (
        "  leaf: {one: a leaf, many: leaves}}\n" + NUT,
        4, 'one "}" too many closes here.',
    ),
    "indented too little": (
        "  leaf: {one: a leaf, many: leaves}\n" + NUT[1:],
        5, "this line is not indented like those it belongs with.",
    ),
    "indented too far": (
        "  leaf: {one: a leaf, many: leaves}\n " + NUT,
        5, "this line is not indented like those it belongs with.",
    ),
    "a tab": (
        "\tleaf: {one: a leaf, many: leaves}\n",
        4, "a tab stands at the beginning. Indent with spaces, not with a tab.",
    ),
    "apostrophe in single quotes": (
        "  leaf: {one: a leaf, keeps: 'in Ana's bag'}\n" + NUT,
        4, "a text between single quotes may not hold an apostrophe.",
    ),
    "a sign that begins nothing": (
        "  leaf: {one: @leaf, many: leaves}\n" + NUT,
        4, 'a text may not begin with "@". Put the text in quotes.',
    ),
    "a note inside braces": (
        "  leaf: {one: a leaf, meaning: the # one part}\n" + NUT,
        4, "what stands behind a blank and # is a note and not read.",
    ),
    "text behind a quoted text": (
        '  leaf: {frame: "{who} {verb}" now, one: a leaf}\n' + NUT,
        4, 'something follows right behind the quoted text "{who} {verb}".',
    ),
}  # fmt: skip


@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_is_named_with_its_line(slip: str) -> None:
    text, line, said = SLIPS[slip]
    with pytest.raises(PackError) as raised:
        catalog.parse_documents(HEAD + text, "my-walk.yaml")
    message = str(raised.value)
    assert message.startswith(f"my-walk.yaml, line {line}: this is not valid YAML: {said}")


@pytest.mark.parametrize("slip", SLIPS)
def test_each_slip_is_one_of_yaml(slip: str) -> None:
    with pytest.raises(yaml.YAMLError):
        list(yaml.safe_load_all(HEAD + SLIPS[slip][0]))


def test_quotes_in_notes_are_not_counted() -> None:
    text = HEAD + '# the child\'s 5" leaf\n  leaf: {one: a part: flat} # 5"\n' + NUT
    with pytest.raises(PackError, match=r'line 5: .* a colon stands inside the text behind "one"'):
        catalog.parse_documents(text, "my-walk.yaml")
