"""Is the report one whole page, and does a real browser show it as meant?"""

import base64
import json
import re
import shutil
import subprocess
from html.parser import HTMLParser
from pathlib import Path

import pytest

from bot.model.review import ReviewShown
from bot.storage.memory import MemoryStore
from bot.wording import Style
from bot.wording.report import report_page
from tests.bot.turn.test_golden_review import ROUND
from tests.bot.turn.test_review import shown
from tests.support.chats import play

BROWSERS = ("chromium", "chromium-browser", "google-chrome", "chrome")
VOID = {"meta", "link", "br", "img", "hr", "input", "path", "use", "rect", "stop", "circle"}
PHONE = 390  # CSS pixels across


@pytest.fixture(scope="module")
def review() -> ReviewShown:
    store = MemoryStore()
    play(ROUND, store)
    return shown(store, "report")


@pytest.fixture(scope="module")
def page(review: ReviewShown) -> str:
    return report_page(review, Style(), player="Tavi <b>").decode("utf-8")


class Outline(HTMLParser):
    """Keeps the open tags, the headings and everything a page would fetch."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.heads: list[str] = []
        self.fetched: list[str] = []
        self.ids: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            self.open.append(tag)
        for name, value in attrs:
            if name in ("src", "href", "xlink:href", "data", "action") and value:
                self.fetched.append(value)
            if name == "id" and value:
                self.ids.append(value)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.open.pop()

    def handle_endtag(self, tag: str) -> None:
        if tag not in VOID:
            assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if self.open and self.open[-1] == "h2":
            self.heads.append(data)


def test_the_page_is_whole_and_fetches_nothing(page: str) -> None:
    outline = Outline()
    outline.feed(page)
    assert not outline.open
    assert outline.heads == [
        "In short", "Where the strokes went", "Choices", "Hole by hole", "Clubs",
    ]  # fmt: skip
    assert all(ref.startswith("#") for ref in outline.fetched)
    assert not re.findall(r"@import|url\((?!#)", page)
    assert "<script" not in page


def test_what_a_player_typed_is_no_markup(page: str) -> None:
    assert "Tavi &lt;b&gt;" in page
    assert "Tavi <b>" not in page


def test_the_page_prints_and_fits_a_phone(page: str) -> None:
    assert "@media print" in page
    assert 'name="viewport"' in page


def test_the_same_review_is_the_same_page(review: ReviewShown) -> None:
    assert report_page(review, Style()) == report_page(review, Style())


@pytest.fixture(scope="module")
def browser() -> str:
    found = next((path for name in BROWSERS if (path := shutil.which(name))), None)
    if found is None:
        pytest.skip("no Chromium on this machine: the page is checked by its structure alone")
    return found


def run(browser: str, page: Path, *options: str) -> subprocess.CompletedProcess[bytes]:
    """Open a page in a headless browser without a network."""
    return subprocess.run(
        [browser, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
         "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync",
         f"--user-data-dir={page.parent / 'profile'}", "--host-resolver-rules=MAP * ~NOTFOUND",
         *options, page.as_uri()],
        capture_output=True, check=True, timeout=90,
    )  # fmt: skip


PROBE = """
<script>
addEventListener('load', () => {
  const svgs = [...document.querySelectorAll('figure svg')];
  const seen = {
    wide: document.documentElement.scrollWidth,
    across: document.documentElement.clientWidth,
    pictures: svgs.length,
    drawn: svgs.every(s => s.getBoundingClientRect().width > 200
      && s.querySelectorAll('path').length > 5),
    fetched: performance.getEntriesByType('resource').length,
    rows: document.querySelectorAll('tbody tr').length,
    hidden: Math.max(...[...document.querySelectorAll('.wide')]
      .map(e => e.scrollWidth - e.clientWidth)),
    small: Math.min(...[...document.querySelectorAll('p, td')]
      .map(e => parseFloat(getComputedStyle(e).fontSize))),
  };
  document.title = 'seen ' + btoa(JSON.stringify(seen));
});
</script>
"""


def test_a_browser_shows_it_on_a_phone(browser: str, page: str, tmp_path: Path) -> None:
    probed = tmp_path / "probed.html"
    probed.write_text(page.replace("</body>", PROBE + "</body>"), "utf-8")
    dom = run(browser, probed, f"--window-size={PHONE},844", "--dump-dom").stdout.decode()
    found = re.search(r"<title>seen ([A-Za-z0-9+/=]+)</title>", dom)
    assert found is not None, dom[:500]
    seen = json.loads(base64.b64decode(found[1]))
    assert seen["pictures"] >= 2
    assert seen["drawn"]
    assert seen["fetched"] == 0
    assert seen["wide"] <= seen["across"], "the page scrolls sideways"
    assert seen["hidden"] <= 1, "a table scrolls sideways"
    assert seen["small"] >= 11.0
    assert seen["rows"] >= 6


def test_a_browser_prints_it(browser: str, page: str, tmp_path: Path) -> None:
    written, printed = tmp_path / "report.html", tmp_path / "report.pdf"
    written.write_text(page, "utf-8")
    run(browser, written, f"--print-to-pdf={printed}", "--no-pdf-header-footer")
    body = printed.read_bytes()
    assert body.startswith(b"%PDF")
    assert 1 <= len(re.findall(rb"/Type\s*/Page\b", body)) <= 8
