"""The set as Word files: pages for students and the answer key."""

from storybank.documents._format import Format
from storybank.documents._key import key_page
from storybank.documents._page import Page
from storybank.documents._student import student_page
from storybank.model import ProblemSet

FORMAT = Format(id="docx", title="Word documents", files=("student.docx", "key.docx"))


def render(problem_set: ProblemSet, file_name: str) -> bytes:
    """The bytes of `student.docx` or `key.docx`.

    The package is put together part by part, since every part must be known for the same
    request to give the same bytes; so lxml is loaded only when a Word file is wanted.
    """
    make_page = key_page if file_name == "key.docx" else student_page
    return page_to_word(make_page(problem_set))


def page_to_word(page: Page) -> bytes:
    """A page model as the bytes of a Word file."""
    from storybank.documents import _parts
    from storybank.documents._body import Body
    from storybank.documents._package import Package
    from storybank.documents._styles import styles

    package = Package()
    package.relate("styles", "styles.xml")
    package.relate("settings", "settings.xml")
    package.relate("fontTable", "fontTable.xml")
    package.relate("theme", "theme/theme1.xml")
    header = package.relate("header", "header1.xml")
    footer = package.relate("footer", "footer1.xml")
    package.parts.update(
        {
            "docProps/app.xml": _parts.app_properties(),
            "docProps/core.xml": _parts.core_properties(page.title),
            "word/document.xml": Body(package).to_bytes(page, header, footer),
            "word/fontTable.xml": _parts.font_table(),
            "word/footer1.xml": _parts.footer(),
            "word/header1.xml": _parts.header(page.top),
            "word/settings.xml": _parts.settings(),
            "word/styles.xml": styles(),
            "word/theme/theme1.xml": _parts.theme(),
        }
    )
    return package.to_bytes()
