"""What a page of a set tells: its stories, their codes and their answers, as they are read."""

from dataclasses import dataclass

from playwright.sync_api import Page


@dataclass(frozen=True)
class Shown:
    """A story as it is shown."""

    code: str
    text: str
    answer: str


_READ = """
() => [...document.querySelectorAll("li.story")].map((story) => {
  const lines = [...story.querySelectorAll(".told > .text:first-child > p:not(.mine)")];
  const facts = [...story.querySelectorAll(".behind p")].map((one) => one.textContent.trim());
  return {
    code: story.querySelector(".code").textContent.trim(),
    text: lines.map((one) => one.textContent.trim()).join("\\n"),
    answer: facts.find((one) => one.startsWith("Answer:")).slice(7).trim(),
  };
})
"""


def shown(page: Page) -> list[Shown]:
    """The stories of the page, in order."""
    return [Shown(**one) for one in page.evaluate(_READ)]


def texts(page: Page) -> list[str]:
    """The texts of the stories, in order."""
    return [one.text for one in shown(page)]
