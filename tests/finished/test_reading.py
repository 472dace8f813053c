"""A finished problem comes back from its JSON as it was; anything else is a PackError."""

import contextlib
import copy
import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from finished.kinds import KINDS, made
from hypothesis import given, settings
from hypothesis import strategies as st

from storybank import Request, documents, make_set
from storybank.errors import PackError, RequestError
from storybank.finished import problem_from_json, read_set, set_from_json
from storybank.model import Problem
from storybank.themes.starter import starter

SCHEMA = json.loads((Path(documents.__file__).parent / "set_schema.json").read_text("utf-8"))


def node_of(kind: str, level: str = "level-4", at: int = 0) -> dict[str, Any]:
    return json.loads(json.dumps(made(kind, level).problems[at].to_json()))


@pytest.mark.parametrize(("kind", "level"), KINDS)
def test_every_kind_comes_back_as_it_was(kind: str, level: str) -> None:
    first = made(kind, level)
    node = json.loads(first.to_text())
    jsonschema.validate(node, SCHEMA, cls=jsonschema.Draft202012Validator)
    again = set_from_json(node, "")
    assert again.problems == first.problems
    assert (again.request, again.version) == (first.to_json()["request"], first.version)
    assert again.to_text() == first.to_text()


def test_a_set_whose_keys_are_in_another_order_comes_back() -> None:
    first = made("two steps", "level-2")
    node = json.loads(json.dumps(first.to_json(), sort_keys=True))
    again = set_from_json(node, "")
    assert again.problems == first.problems
    assert [list(one.numbers) for one in again.problems] == [
        list(one.numbers) for one in first.problems
    ]


def test_a_file_comes_back(tmp_path: Path) -> None:
    first, path = made("one step", "level-3"), tmp_path / "set.json"
    path.write_text(first.to_text(), encoding="utf-8")
    assert read_set(path).problems == first.problems


def test_a_set_of_a_pack_and_a_class_of_ones_own_comes_back(tmp_path: Path) -> None:
    theme, names = tmp_path / "my-garden.yaml", tmp_path / "class.txt"
    theme.write_text(starter("my-garden").replace("scene-a:", "Scene A, outside:"), "utf-8")
    children = ("प्रिया,she", "محمد‌رضا,he", "Ngọc Ánh,she", "\u02bbAlana,she", "D\u2019Angelo,he")
    names.write_text("\n".join(children), "utf-8")
    first = make_set(Request(theme=[str(theme)], names=str(names), strategy=["any"], seed=2))
    assert "Scene A, outside" in {one.scene for one in first.problems}
    assert set_from_json(json.loads(first.to_text()), "").problems == first.problems


def test_support_of_an_older_set_is_that_of_its_vocabulary() -> None:
    node = node_of("one step", "level-2")
    del node["support"]
    assert problem_from_json(node, "") == made("one step", "level-2").problems[0]
    node["vocabulary"] = "my-district"
    with pytest.raises(PackError, match=r'"support" is missing.*Make the set again'):
        problem_from_json(node, "")


def wrong(change: Any, kind: str = "one step", at: int = 0) -> str:
    """What is said of a problem that is changed."""
    node = node_of(kind, at=at)
    change(node)
    with pytest.raises(PackError) as error:
        problem_from_json(node, "set.json, problem 3")
    return str(error.value)


WRONG: dict[str, tuple[str, Any, list[str]]] = {
    "a jump": (
        "friendly-then-compensate",
        lambda node: node["solution"]["jumps"][1].update(by="x"),
        ["set.json, problem 3, solution, jumps, 2: ", '"by" is "x"', "Make the set again"],
    ),
    "a situation": (
        "one step",
        lambda node: node.update(situation="join-result-unknwon"),
        ['There is no situation "join-result-unknwon"', "Did you mean", "Choose from: "],
    ),
    "a strategy": (
        "one step",
        lambda node: node.update(strategy="guess"),
        ['There is no strategy "guess"', "count-on"],
    ),
    "a mistake": (
        "one step",
        lambda node: node["watch_for"][0]["mistakes"].append("none"),
        ["watch_for, 1", 'There is no mistake "none"'],
    ),
    "no code": ("one step", lambda node: node.pop("code"), ['"code" is missing']),
    "yes": ("one step", lambda node: node.update(given=[True, 3]), ['"given" holds true']),
    "huge": ("one step", lambda node: node.update(answer=10**5000), ["far too large"]),
    "no number": (
        "one step",
        lambda node: node["reading"].update(spache=float("nan")),
        ["reading: ", '"spache" is nan'],
    ),
    "no sum": (
        "two steps",
        lambda node: node["steps"][0].update(numbers=dict.fromkeys(node["steps"][0]["numbers"], 5)),
        ["problem 3, steps, 1: ", "do not add up", " 5"],
    ),
    "another question": (
        "one step",
        lambda node: node.update(question="How?"),
        ['"question" is "How?"'],
    ),
    "a control character": (
        "one step",
        lambda node: node.update(answer_sentence="a\x07b"),
        ['"answer_sentence" is "ab"', "without control characters"],
    ),
    "a turned direction": (
        "one step",
        lambda node: node["talk_frames"].append("a\u202eb"),
        ['"talk_frames" holds "ab"'],
    ),
    "a line break": (
        "one step",
        lambda node: node.update(answer_frame="a\nb"),
        ['"answer_frame" is "a b"'],
    ),
    "a pair of steps": (
        "two steps",
        lambda node: node["steps"].reverse(),
        ["no problem of two steps", "cannot be the first step"],
    ),
    "half a letter": (
        "one step",
        lambda node: node.update(people=["A\ud800"]),
        ['"people" holds "A"'],
    ),
    "long": ("one step", lambda node: node.update(text="a" * 10**6), ["of at most 8,000"]),
    "a hidden number": ("two steps", lambda node: node.update(hidden=1), ['"hidden" is 1']),
    "an extra number": (
        "extra number",
        lambda node: node.update(extra_things=[]),
        ['"extra_things" is a list of 0'],
    ),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_is_wrong_is_said_with_its_place(name: str) -> None:
    kind, change, wanted = WRONG[name]
    said = wrong(change, kind)
    for words in ("set.json, problem 3", *wanted):
        assert words in said
    assert len(said) < 1200


def deep() -> Any:
    value: Any = []
    for _ in range(50_000):
        value = [value]
    return value


JUNK = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.sampled_from([10**5000, -(10**20), 0, 1, 10**6]),
    st.floats(),
    st.text(max_size=20),
    st.sampled_from(["", "\ud800", "\x00", "a" * 100_000, "../x.yaml", "a\nb", "level-9", "parts"]),
    st.lists(st.integers(0, 30), max_size=3),
    st.lists(st.text(max_size=3), max_size=3),
    st.dictionaries(st.text(max_size=5), st.integers(), max_size=3),
    st.builds(dict),
    st.builds(deep),
    st.builds(lambda: [0] * 100_000),
)
TRIED = [
    node_of("one step", "level-1"),
    node_of("both parts"),
    node_of("two steps"),
    node_of("three addends"),
    node_of("measured"),
    node_of("number sets", "level-2"),
    node_of("extra number"),
    node_of("missing"),
    node_of("side by side"),
    node_of("sets, side by side"),
]


@settings(max_examples=500, deadline=None)
@given(st.data())
def test_any_value_replaced_by_junk_is_a_problem_or_a_pack_error(data: st.DataObject) -> None:
    node = copy.deepcopy(data.draw(st.sampled_from(TRIED)))
    at: Any = node
    while True:
        keys = list(at) if isinstance(at, dict) else list(range(len(at)))
        key = data.draw(st.sampled_from(keys))
        inner = at[key]
        if not isinstance(inner, dict | list) or not inner or data.draw(st.integers(0, 2)) == 0:
            break
        at = inner
    if isinstance(at, dict) and data.draw(st.integers(0, 4)) == 0:
        del at[key]
    else:
        at[key] = data.draw(JUNK)
    try:
        found = problem_from_json(node, "here")
    except PackError as error:
        assert str(error).startswith("here")
    else:
        assert isinstance(found, Problem)
        assert problem_from_json(json.loads(json.dumps(found.to_json())), "") == found


@settings(max_examples=100, deadline=None)
@given(JUNK, st.sampled_from(["format", "version", "request", "problems", "within", None]))
def test_any_junk_is_no_set(junk: Any, key: str | None) -> None:
    node: Any = copy.deepcopy(made("three addends", "level-4").to_json())
    if key is None:
        node = junk
    elif key == "within":
        node["request"][key] = junk
    else:
        node[key] = junk
    with contextlib.suppress(PackError):
        set_from_json(node, "")


FILES = {
    "{not json": ["line 1", "not valid JSON"],
    "[" * 200_000: ["nested too deeply"],
    '{"format": "storybank-set/1", "problems": [' + "9" * 5000 + "]}": ["far too large"],
    '{"format": "storybank-set/1", "problems": [NaN]}': ["far too large, or is none"],
    '{"format": "x"}': ["its format must be"],
    '{"format": "storybank-set/1", "problems": [3]}': ["bad.json"],
    "[]": ["it names none"],
}


@pytest.mark.parametrize("text", FILES, ids=range(len(FILES)))
def test_a_bad_file_is_said_to_be_one(text: str, tmp_path: Path) -> None:
    path = tmp_path / "bad.json"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(PackError) as error:
        read_set(path)
    assert "bad.json" in str(error.value)
    for words in FILES[text]:
        assert words in str(error.value)


def test_no_file(tmp_path: Path) -> None:
    with pytest.raises(RequestError, match=r'There is no file "no\.json"'):
        read_set(tmp_path / "no.json")
