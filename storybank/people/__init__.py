"""The people of the stories: reviewed lists, class lists, and who is dealt to which problem."""

from storybank.cleaning import clean_text
from storybank.people.class_list import clean_name, read_class_list, with_capitals
from storybank.people.dealing import MAX_PEOPLE, Dealer
from storybank.people.lists import find_list, named_list, own_list, rosters
from storybank.people.new_names import new_names
from storybank.people.roster import Person, Roster, cast

__all__ = [
    "MAX_PEOPLE",
    "Dealer",
    "Person",
    "Roster",
    "cast",
    "clean_name",
    "clean_text",
    "find_list",
    "named_list",
    "new_names",
    "own_list",
    "read_class_list",
    "rosters",
    "with_capitals",
]
