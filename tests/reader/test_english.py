"""English the reader was taught after its first test sets, with sentences of its own.

Every group holds a turn of phrase, how it has to be read, and a neighbor that must be refused.
"""

import pytest

from . import CannotRead, read

TWO_SORTS = "There are 20 {0} shells on the sand. There are {2} {1} shells on the sand. "
DAY = "Before class, Noa found 14 twigs. After class, she found 9 twigs. "

READ = {
    "could there be": (
        "There are 12 kites in the sky. Each kite is plain or spotted. "
        "How many plain kites could there be? How many spotted kites could there be?",
        "12 = ? + ?",
    ),
    "sorts named by nouns": (
        "A farm has 7 animals. Each animal is a goat or a sheep. "
        "How many goats might there be? How many sheep might there be?",
        "7 = ? + ?",
    ),
    "a topic becomes a modifier": (
        "There are 6 songs in a show. Each song is about rain or snow. "
        "How many rain songs could there be? How many snow songs could there be?",
        "6 = ? + ?",
    ),
    "starts with": (
        "A robin starts with some twigs. Then the robin finds 9 twigs. Now the robin has 23 twigs. "
        "How many twigs did the robin start with?",
        "? + 9 = 23",
    ),
    "a plural noun that is also a verb": (
        TWO_SORTS.format("flat", "round", 8)
        + "How many fewer round shells than flat shells are there?",
        "8 + ? = 20",
    ),
    "a verb that is the first part of a noun": (
        "A coach had 38 jump ropes. Then the coach lent some jump ropes to a class. After that, "
        "21 jump ropes were left. How many jump ropes did the coach lend to the class?",
        "38 - ? = 21",
    ),
    "what turns into something else is gone": (
        "There are some tadpoles in a pond. Then 5 tadpoles turn into frogs. Now there are 21 "
        "tadpoles in the pond. How many tadpoles were in the pond at first?",
        "? - 5 = 21",
    ),
    "a participle before the noun": (
        TWO_SORTS.format("open", "closed", 8)
        + "How many more open shells than closed shells are there?",
        "8 + ? = 20",
    ),
    "a participle before another noun": (
        "Noa has 12 painted rocks and 15 painted shells on a shelf. "
        "How many more painted shells than painted rocks does Noa have?",
        "12 + ? = 15",
    ),
    "a verb after a number": (
        "There are 20 children at a farm. 8 picked apples and the rest picked pears. "
        "How many children picked pears?",
        "8 + ? = 20",
    ),
    "a participle after a number": (
        "Noa has 20 open jars and 8 closed jars on a shelf. How many jars does Noa have in all?",
        "20 + 8 = ?",
    ),
    "a verb form as adjective after a number": (
        "There are 8 closed tulips and 20 open tulips. How many tulips are there in all?",
        "8 + 20 = ?",
    ),
    "the rest is told by a participle": (
        "Noa has 28 jars. She has 20 open jars. The other jars are closed. "
        "How many closed jars does Noa have?",
        "20 + ? = 28",
    ),
    "fall where they are counted": (
        "There were 14 petals on the path. Then 9 more petals fell on the path. "
        "How many petals were on the path in the end?",
        "14 + 9 = ?",
    ),
    "fall away from where they are counted": (
        "There were 14 pears on the tree. Then 9 pears fell on the path. "
        "How many pears were on the tree in the end?",
        "14 - 9 = ?",
    ),
    "more taken from a place": (
        "Noa has 14 shells. She takes some more shells from the jar. Now she has 23 shells. "
        "How many shells does Noa take from the jar?",
        "14 + ? = 23",
    ),
    "taken from the counted place": (
        "There are 23 shells in the jar. Noa takes 9 shells from the jar. "
        "How many shells are in the jar now?",
        "23 - 9 = ?",
    ),
    "taken out and given": (
        "Noa has 23 shells. She takes 9 shells out of her bag and gives them to Eli. "
        "How many shells does Noa have now?",
        "23 - 9 = ?",
    ),
    "before and after": (DAY + "How many twigs did Noa find that day?", "14 + 9 = ?"),
    "before and after compared": (
        DAY + "How many more twigs did Noa find before class than after class?",
        "9 + ? = 14",
    ),
    "a day and its part": (
        "Noa found 23 twigs that day. Before class, she found 14 twigs. "
        "How many twigs did Noa find after class?",
        "14 + ? = 23",
    ),
    "a place before the verb": (
        "On the table are 14 cups. Noa sets 9 more cups on the table. "
        "How many cups are on the table now?",
        "14 + 9 = ?",
    ),
    "opening lessens what is closed": (
        "There are 23 closed umbrellas. Then 9 umbrellas open. How many umbrellas are closed now?",
        "23 - 9 = ?",
    ),
}


@pytest.mark.parametrize(("text", "equation"), READ.values(), ids=READ.keys())
def test_the_phrase_is_read(text: str, equation: str) -> None:
    assert read(text).equation == equation


REFUSED = {
    "sorts that are not told": (
        "There are 12 kites in the sky. Each kite is plain or spotted. "
        "How many plain kites could there be? How many round kites could there be?"
    ),
    "a part that is not told": (
        "Noa has 30 beads. She has 12 painted beads. How many glazed beads does Noa have?"
    ),
    "more fall somewhere else": (
        "There were 14 pears on the tree. Then 9 more pears fell on the path. "
        "How many pears were on the tree in the end?"
    ),
    "fall from the ground": (
        "There are 14 pears on the ground. Then 9 pears fall. How many pears are on the ground now?"
    ),
    "found and given at once": (
        "Noa has 23 shells. She finds 9 shells and gives them to Eli. "
        "How many shells does Noa have now?"
    ),
    "held before and after": (
        "Before class, Noa had 14 twigs. After class, she had 9 twigs. "
        "How many twigs did Noa have that day?"
    ),
    "a third day": (
        "Noa found 14 twigs on Monday. On Tuesday, she found 9 twigs. "
        "How many twigs did Noa find on Friday?"
    ),
    "what is not so": ("Noa has 23 napkins. She folds 9 napkins. How many napkins are not folded?"),
}


@pytest.mark.parametrize("text", REFUSED.values(), ids=REFUSED.keys())
def test_the_neighbor_is_refused(text: str) -> None:
    with pytest.raises(CannotRead):
        read(text)
