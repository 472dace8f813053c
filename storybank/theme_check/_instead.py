"""What to write in a theme instead of words that make a sentence break a law."""

INSTEAD = {
    "agreement": "Give the verb its four forms and each thing its words for one and for many",
    "answer-frame": "Write no numbers and names in the words of a theme",
    "answer-sentence": "Write no numbers, and a frame that says plainly who does what",
    "articles": "Write a or an before a word for one thing, and neither before one for many",
    "bare-nouns": "Write a, an or the before a word for one thing, as in `for a picture`",
    "capitals": "Write names of nobody, and capital letters only where a word always has one",
    "density": "Write fewer words such as in the yard or big beside each other, or a `plain` twin",
    "doubled-words": "Write the word only once; look where the parts of the sentence meet",
    "given": "Write no numbers in the words of a theme; {n} gives them",
    "helping-verbs": "Write only the verb in `verb`, and no is, has, will or can in the frame",
    "known-words": "Write the word with all its forms under `words`, or choose a plainer one",
    "length": "Write fewer words, or a `plain` twin",
    "many-and-fewer": "Write things that can be counted, and no much, less or fewer",
    "marks": "Write words only, without commas and other marks; make two acts of two events",
    "number-and-noun": "Write no numbers beside {n}, and things with their words for one and many",
    "number-words": "Write no number words; {n} gives the number",
    "plain-forms": "Say as a fact who does it, without not, if, who, which or that",
    "pronouns": "Write a, an or the instead of his, her, their and it, as in `for a picture`",
    "question": "Write no more, fewer, left, in all and no question word; the story adds them",
    "tense": "Write in `verb` the four forms in their order, as `take takes took taken`, and no "
    "other verb in the frame",
    "unfamiliar-words": "Choose plainer words, or write the word under `words` with a picture",
    "word-bank": "Give each thing its picture and meaning, and avoid words of two meanings",
    "word-order": "Write plain words in their usual order and no more, fewer, left, in all: the "
    "story adds them",
}
"""By the check that found the fault."""
