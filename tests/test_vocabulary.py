"""Vocabulary packs: rules switched one by one, and packs of a teacher's own."""

import json
import re
from collections.abc import Sequence
from pathlib import Path

import pytest

from storybank import Request, checks, make_set, people, themes, vocabulary
from storybank.cli import main
from storybank.errors import PackError, RequestError, StorybankError
from storybank.model import Problem
from storybank.story import plans_for
from storybank.vocabulary.measures import unfamiliar

SEEDS = (1, 2, 3)
THEMES = ("autumn-harvest", "spring-garden", "summer-shore", "winter-days")
NARROW = {
    "long-phrases": ["compare-bigger-unknown-fewer", "compare-smaller-unknown-more"],
    "two-clauses": ["whole-unknown", "compare-difference-unknown-more"],
    "unfamiliar-words": ["join-change-unknown", "join-result-unknown"],
    "second-meanings": ["separate-change-unknown", "compare-difference-unknown-more"],
}
"""Where the rules that few stories need are needed most."""
BESIDES = {"long-phrases": ["past"]}
"""Two phrases a sentence stand in stories of two days, which are told in the past."""
PLAIN = "level-1"
LEVEL = dict.fromkeys(("two-clauses", "long-phrases", "second-meanings"), "level-2")
"""At level 1 sentences are too short for most of this; other rules are tried there."""


def made(level: str, situation: Sequence[str] = (), **rules: Sequence[str]) -> list[Problem]:
    """The problems of three sets of 80."""
    found: list[Problem] = []
    for seed in SEEDS:
        wish = Request(
            theme=THEMES,
            vocabulary=level,
            situation=situation,
            strategy=["any"],
            count=80,
            seed=seed,
            **rules,
        )
        found += make_set(wish).problems
    return found


def faults(problem: Problem, pack: vocabulary.Vocabulary) -> tuple[str, ...]:
    """What the checks say about a problem of our own names, judged by a pack."""
    context = checks.Context(
        limit=100,
        vocabulary=pack,
        theme=themes.get(problem.theme),
        people=people.own_list().people,
    )
    return checks.judge(problem, context)


@pytest.mark.parametrize("rule", [one.id for one in vocabulary.RULES if one.id != "fuller-wording"])
def test_an_allowed_rule_is_used_and_only_then(rule: str) -> None:
    level = LEVEL.get(rule, PLAIN)
    besides = BESIDES.get(rule, [])
    own = vocabulary.switched(vocabulary.get(level), besides, [])
    looser = vocabulary.switched(vocabulary.get(level), [rule, *besides], [])
    with_it = made(level, NARROW.get(rule, ()), allow=[rule, *besides])
    assert [problem.text for problem in with_it if faults(problem, looser)] == []
    assert [problem.text for problem in with_it if faults(problem, own)]
    without = made(level, NARROW.get(rule, ()), allow=besides)
    assert [problem.text for problem in without if faults(problem, own)] == []


def test_fuller_wording_tells_with_the_word_of_the_pack() -> None:
    """Level 2 tells of "a worker" where a pack says "a builder"; allowed, it says that."""
    holders = [
        holder
        for name in themes.ids()
        for scene in themes.get(name).scenes.values()
        for holder in scene.holders.values()
    ]
    bare = {holder.plain or holder.one or "" for holder in holders}
    bare |= {scene.setting for name in themes.ids() for scene in themes.get(name).scenes.values()}
    fuller = {holder.one.split(" ", 1)[1] for holder in holders if holder.one and holder.plain}
    fuller = {word for word in fuller if not any(word in phrase for phrase in bare)}

    def told(allow: list[str]) -> list[str]:
        plans = (
            plan
            for name in themes.ids()
            for scene in themes.get(name).scenes.values()
            for thing in scene.things
            for some in plans_for(
                themes.get(name),
                scene,
                thing,
                "join-result-unknown",
                vocabulary.switched(vocabulary.get("level-2"), allow, []),
            ).values()
            for plan in some
        )
        return [
            piece
            for plan in plans
            for sentence in plan.skeleton.sentences
            for piece in sentence
            if isinstance(piece, str)
        ]

    assert not [text for text in told([]) if any(word in text for word in fuller)]
    assert [text for text in told(["fuller-wording"]) if any(word in text for word in fuller)]


FORBIDDEN = {
    "pronouns": lambda text: {"he", "she"} & set(text.lower().split()),
    "past": lambda text: {"had", "were"} & set(text.split("How many")[0].lower().split()),
    "long-sentences": lambda text: max(len(one.split()) for one in re.split("[.?] ", text)) > 9,
    "two-clauses": lambda text: ", and " in text,
}


@pytest.mark.parametrize("rule", FORBIDDEN)
def test_a_forbidden_rule_of_level_4_is_no_longer_used(rule: str) -> None:
    used = FORBIDDEN[rule]
    assert any(used(problem.text) for problem in made("level-4"))
    plainer = made("level-4", forbid=[rule])
    assert [problem.text for problem in plainer if used(problem.text)] == []


def test_rules_do_not_move_what_stands_already() -> None:
    level = vocabulary.get("level-4")
    everything = [one.id for one in vocabulary.RULES]
    for name in everything:
        loosened = vocabulary.switched(level, [name], [])
        for setting in vocabulary.Vocabulary.__annotations__:
            if setting not in ("shipped", "tenses"):
                assert getattr(loosened, setting) == getattr(level, setting), name
    made_of = make_set(Request(theme=THEMES, allow=["pronouns"], seed=1, count=1))
    assert made_of.notes == ("--allow pronouns changes nothing: level-4 has the rule so already.",)


def test_all_rules_together_make_a_set_at_every_level() -> None:
    everything = [one.id for one in vocabulary.RULES]
    for level in vocabulary.ids():
        for way in ("allow", "forbid"):
            assert len(made(level, **{way: everything})) == 240


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        ({"allow": ["pronoun"]}, ['no rule "pronoun"', 'Did you mean "pronouns"?']),
        ({"forbid": ["pasta"]}, ["pasta", "past"]),
        ({"allow": ["past"], "forbid": ["past"]}, ["past", "both allowed and forbidden"]),
        ({"allow": ["past"], "levels_side_by_side": True}, ["side by side", "level-1"]),
    ],
)
def test_rules_that_cannot_be_switched(wish: dict, words: list[str]) -> None:
    with pytest.raises(RequestError) as caught:
        make_set(Request(vocabulary="level-2", count=1, **wish))
    for word in words:
        assert word in str(caught.value)


# Packs of a teacher's own


def pack(folder: Path, text: str, name: str = "my-district.yaml") -> str:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_a_pack_of_ones_own_overrides_single_settings(tmp_path: Path) -> None:
    path = pack(tmp_path, "like: level-2\npronouns: none\nstatement_words: 7\n")
    found = vocabulary.find(path)
    like = vocabulary.get("level-2")
    assert (found.id, found.pronouns, found.statement_words) == ("my-district", "none", 7)
    assert (found.level, found.support, found.words) == (like.level, like.support, like.words)
    for seed in SEEDS:
        wish = Request(theme=THEMES, vocabulary=path, strategy=["any"], count=30, seed=seed)
        set_ = make_set(wish)
        assert set_.request["vocabulary"] == "my-district"
        for problem in set_.problems:
            assert problem.vocabulary == "my-district"
            assert faults(problem, found) == ()
            told = problem.story.sentences[:-1] if problem.unknown != "parts" else ()
            assert all(len(sentence.split()) <= 7 for sentence in told)
            assert " she " not in problem.text and " he " not in problem.text


def test_documents_print_the_support_of_an_own_pack(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = pack(tmp_path, "like: level-4\nsupport: [answer-frame]\n")
    wish = [
        "make",
        "--vocabulary",
        path,
        "--seed",
        "1",
        "--count",
        "2",
        "--format",
        "html,docx,csv",
    ]
    assert main([*wish, "--out", str(tmp_path / "set")]) == 0
    page = (tmp_path / "set" / "set.html").read_text(encoding="utf-8")
    assert "___" in page
    capsys.readouterr()


WORDS_IN_THE_WAY = "unfamiliar_words: 0\nunfamiliar_need: none\nthings_need_picture: no\n"


def test_a_word_list_makes_words_familiar(tmp_path: Path) -> None:
    """Snowmen stand on no list of ours, so a pack that takes no such word tells of none."""
    base = "like: level-4\n" + WORDS_IN_THE_WAY
    strict = pack(tmp_path, base)
    listed = pack(tmp_path, base + "word_list: words.txt\n", "listed.yaml")
    (tmp_path / "words.txt").write_text("# winter\nsnowman\nsnowmen\nsled\n", encoding="utf-8")
    inline = pack(tmp_path, base + "familiar_words: [snowman, snowmen, sled]\n", "inline.yaml")

    def of_snowmen(path: str) -> list[str]:
        texts = []
        for seed in SEEDS:
            wish = Request(
                vocabulary=path, theme=["winter-days"], strategy=["any"], count=60, seed=seed
            )
            texts += [problem.text for problem in make_set(wish).problems]
        return [text for text in texts if "snowm" in text]

    assert unfamiliar(["Some snowmen are in the yard."]) == ("snowmen",)
    assert of_snowmen(strict) == []
    assert of_snowmen(listed)
    assert of_snowmen(inline) == of_snowmen(listed)


def test_a_word_list_alone_replaces_ours(tmp_path: Path) -> None:
    words = "how many there are were in a the now then at first some apple box end more pear had"
    path = pack(
        tmp_path,
        f"like: level-4\n{WORDS_IN_THE_WAY}word_list_only: yes\n"
        f"familiar_words: [{', '.join(words.split())}]\n",
    )
    found = vocabulary.find(path)
    assert found.familiar == frozenset(words.split())
    hard = unfamiliar(["There were 4 apples in a crate."], (), {}, found.familiar)
    assert hard == ("crate",)


def test_a_word_list_that_leaves_nothing_to_tell_says_so(tmp_path: Path) -> None:
    path = pack(tmp_path, f"{WORDS_IN_THE_WAY}word_list_only: yes\nfamiliar_words: [apple]\n")
    with pytest.raises(StorybankError) as caught:
        make_set(Request(vocabulary=path, seed=1, count=1))
    for word in ("my-district", "how, many", "Loosen"):
        assert word in str(caught.value)


def test_the_same_content_gives_the_same_pack(tmp_path: Path) -> None:
    path = pack(tmp_path, "like: level-2\npronouns: none\n")
    first = vocabulary.find(path)
    assert vocabulary.find(path) is first
    pack(tmp_path, "like: level-2\npronouns: one-person\n")
    assert vocabulary.find(path).pronouns == "one-person"


FAULTY = [
    ("like: level-9\n", ["line 1", "level-9", "level-4"]),
    ("like: level-2\npronuns: none\n", ["line 2", "pronuns", 'Did you mean "pronouns"?']),
    ("pronouns: some\n", ["line 1", "some", "one-person"]),
    ("like: level-2\nstatement_words: 99\n", ["line 2", "99", "5 to 30"]),
    ("statement_words: nine\n", ["line 1", "nine", "5 to 30"]),
    ("words: [apple]\n", ["line 1", "a list", "12 to 90"]),
    ("plain_words: maybe\n", ["line 1", "maybe", "yes, no"]),
    ("tenses: []\n", ["line 1", "present, past"]),
    ("tenses: [future]\n", ["line 1", "future", "present, past"]),
    ("support: pictures\n", ["line 1", "list", "answer-frame"]),
    ('talk_frames: ["I know."]\n', ["line 1", "I know.", "___"]),
    ("title: [a]\n", ["line 1", "title"]),
    ("familiar_words: apple\n", ["line 1", "list"]),
    ("familiar_words: ['12']\n", ["line 1", "12", "no word"]),
    ("word_list_only: yes\n", ["line 1", "no words"]),
    ("word_list: nowhere.txt\n", ["line 1", "nowhere.txt", "not there"]),
    ("word_list: empty.txt\n", ["line 1", "empty.txt", "one word a line"]),
    ("word_list: numbers.txt\n", ["numbers.txt, line 2", "123", "no word"]),
    ("word_list: latin.txt\n", ["latin.txt", "UTF-8"]),
    ("word_list: big.txt\n", ["big.txt", "bytes", "1,000,000"]),
    ("word_list: picture.png\n", ["picture.png", "plain text"]),
    ("- level-2\n", ["line 1", "list of settings"]),
    ("", ["line 1", "list of settings"]),
    ("like: level-2\nlike: level-3\n", ["line 2", "twice"]),
    ("passive: yes\n", ["line 1", "passive"]),
]


@pytest.mark.parametrize(("text", "words"), FAULTY)
def test_a_faulty_pack_of_ones_own(
    text: str, words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "empty.txt").write_text("# nothing\n", encoding="utf-8")
    (tmp_path / "numbers.txt").write_text("apple\n123\n", encoding="utf-8")
    (tmp_path / "latin.txt").write_bytes("ni\u00f1o\n".encode("latin-1"))
    (tmp_path / "big.txt").write_bytes(b"word\n" * 300_000)
    (tmp_path / "picture.png").write_bytes(b"PNG\0\0\0")
    path = pack(tmp_path, text)
    with pytest.raises(PackError) as caught:
        vocabulary.find(path)
    for word in words:
        assert word in str(caught.value)
    assert main(["make", "--vocabulary", path, "--out", str(tmp_path / "set")]) == 2
    said = capsys.readouterr()
    assert said.out == "" and "Traceback" not in said.err
    assert not (tmp_path / "set").exists()


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("level-2.yaml", "Rename"),
        ("LEVEL-2.yaml", "Rename"),
        ("=1+1.yaml", "letters, digits and hyphens"),
        ("a, b.yaml", "letters, digits and hyphens"),
    ],
)
def test_a_file_whose_name_cannot_stand_in_a_set(name: str, word: str, tmp_path: Path) -> None:
    with pytest.raises(RequestError, match=word):
        vocabulary.find(pack(tmp_path, "like: level-2\n", name))


def test_a_vocabulary_file_that_is_none(tmp_path: Path) -> None:
    with pytest.raises(PackError, match="not there"):
        vocabulary.find(str(tmp_path / "nowhere.yaml"))
    (tmp_path / "folder.yaml").mkdir()
    with pytest.raises(PackError, match="no file"):
        vocabulary.find(str(tmp_path / "folder.yaml"))


def test_rules_are_listed_with_a_line_of_help_each(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["list", "rules", "--json"]) == 0
    entries = json.loads(capsys.readouterr().out)
    assert [entry["id"] for entry in entries] == [one.id for one in vocabulary.RULES]
    assert all(entry["title"] and entry["settings"] for entry in entries)


def test_every_level_says_its_number() -> None:
    assert [vocabulary.get(name).level for name in vocabulary.ids()] == [1, 2, 3, 4]
