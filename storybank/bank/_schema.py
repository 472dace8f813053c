"""The tables of a bank, in steps that are never edited once a version with them is out.

A bank says in `user_version` how many steps it has. A change of the tables is one more step.
"""

APPLICATION = 0x53_42_4E_4B
"""Says, in the header of the file, that an SQLite database is a bank of Storybank."""

_PROBLEMS = """
CREATE TABLE packing (id INTEGER PRIMARY KEY, phrases BLOB NOT NULL);

CREATE TABLE action (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    day TEXT NOT NULL,
    what TEXT NOT NULL,
    told TEXT NOT NULL,
    finished INTEGER NOT NULL DEFAULT 1,
    undone INTEGER NOT NULL DEFAULT 0
);

CREATE TABLE recipe (
    id INTEGER PRIMARY KEY,
    version TEXT NOT NULL,
    request TEXT NOT NULL,
    UNIQUE (request, version)
);

CREATE TABLE terms (id INTEGER PRIMARY KEY, terms TEXT NOT NULL UNIQUE);

CREATE TABLE shelf (
    id INTEGER PRIMARY KEY,
    theme TEXT NOT NULL,
    scene TEXT NOT NULL,
    situation TEXT NOT NULL,
    strategy TEXT NOT NULL,
    vocabulary TEXT NOT NULL,
    standards TEXT NOT NULL,
    season TEXT NOT NULL,
    terms INTEGER NOT NULL REFERENCES terms,
    UNIQUE (theme, scene, situation, strategy, vocabulary, standards, season, terms)
);

CREATE TABLE problem (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    digest BLOB NOT NULL UNIQUE,
    meaning INTEGER NOT NULL,
    numbers INTEGER NOT NULL,
    shelf INTEGER NOT NULL REFERENCES shelf,
    luck INTEGER NOT NULL,
    largest INTEGER NOT NULL,
    reach INTEGER NOT NULL,
    code TEXT NOT NULL,
    recipe INTEGER NOT NULL REFERENCES recipe,
    place INTEGER NOT NULL,
    action INTEGER NOT NULL REFERENCES action,
    star INTEGER NOT NULL DEFAULT 0,
    retired INTEGER NOT NULL DEFAULT 0,
    note TEXT NOT NULL DEFAULT '',
    packing INTEGER NOT NULL REFERENCES packing,
    text TEXT NOT NULL,
    body BLOB NOT NULL
);

CREATE INDEX problem_code ON problem (code);
CREATE INDEX problem_action ON problem (action);
CREATE INDEX problem_meaning ON problem (meaning);
CREATE INDEX problem_marked ON problem (id) WHERE star OR retired OR note <> '';

CREATE TABLE change (
    action INTEGER NOT NULL REFERENCES action,
    problem INTEGER NOT NULL REFERENCES problem ON DELETE CASCADE,
    field TEXT NOT NULL,
    before TEXT NOT NULL,
    PRIMARY KEY (action, problem, field)
) WITHOUT ROWID;
CREATE INDEX change_problem ON change (problem);
"""
_CLASSES = """
CREATE TABLE class (id INTEGER PRIMARY KEY, label TEXT NOT NULL UNIQUE COLLATE NOCASE);

CREATE TABLE hand_out (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    class INTEGER NOT NULL REFERENCES class,
    day TEXT NOT NULL,
    mark TEXT NOT NULL UNIQUE,
    action INTEGER NOT NULL REFERENCES action
);
CREATE INDEX hand_out_class ON hand_out (class);
CREATE INDEX hand_out_action ON hand_out (action);

CREATE TABLE handed (
    class INTEGER NOT NULL REFERENCES class,
    meaning INTEGER NOT NULL,
    problem INTEGER NOT NULL REFERENCES problem,
    hand_out INTEGER NOT NULL REFERENCES hand_out,
    action INTEGER NOT NULL REFERENCES action,
    PRIMARY KEY (class, meaning, problem)
) WITHOUT ROWID;
CREATE INDEX handed_problem ON handed (problem);
CREATE INDEX handed_hand_out ON handed (hand_out);
CREATE INDEX handed_action ON handed (action);

CREATE INDEX problem_on_shelf ON problem (shelf, luck, reach, meaning, numbers)
    WHERE NOT retired;
"""
_WORDS_AND_GROWTH = """
CREATE VIRTUAL TABLE words USING fts5 (
    text, content = 'problem', content_rowid = 'id', tokenize = 'porter unicode61'
);
INSERT INTO words (words) VALUES ('rebuild');

CREATE TRIGGER problem_removed AFTER DELETE ON problem BEGIN
    INSERT INTO words (words, rowid, text) VALUES ('delete', old.id, old.text);
END;

CREATE TABLE growth (id INTEGER PRIMARY KEY, recipe INTEGER NOT NULL UNIQUE REFERENCES recipe);

CREATE TABLE grown (
    growth INTEGER NOT NULL REFERENCES growth,
    first INTEGER NOT NULL,
    count INTEGER NOT NULL,
    action INTEGER NOT NULL REFERENCES action,
    PRIMARY KEY (growth, first)
) WITHOUT ROWID;
CREATE INDEX grown_action ON grown (action);
"""
STEPS = (_PROBLEMS, _CLASSES, _WORDS_AND_GROWTH)
CURRENT = len(STEPS)


def statements(script: str) -> list[str]:
    """The statements of a step one by one: a whole script would end the transaction it is in."""
    import sqlite3

    found: list[str] = []
    text = ""
    for line in script.splitlines(keepends=True):
        text += line
        if text.strip() and sqlite3.complete_statement(text):
            found.append(text.strip())
            text = ""
    return found
