"""The report of every shipped scenario in a real browser, on screens and paper, and before an HTML checker."""

import json
import os
import pathlib
import subprocess
import sys
import tempfile
import unittest

from chromium import MARGIN_MM, PALE_TEXTS, PAPERS, PIXELS_PER_MM, SMALLEST_DRAWN_TEXT, Browser, pages_of

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "program"))
from running import INFEASIBLE, OK, SCENARIOS, run  # noqa: E402

WIDTHS = (1280, 390)
FIRST_SCREEN_HEIGHT = 900
MOST_PAGES = 30  # On A4 for the largest site, of forty buildings.


class Report(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(scratch.cleanup)
        cls.folder = pathlib.Path(scratch.name)
        cls.pages = [cls.report(path.stem, path, "--time-limit", "4") for path in sorted(SCENARIOS.glob("*.yaml"))]
        cls.pages.append(cls.report("explained", SCENARIOS / "lakeside.yaml", "--explain"))
        cls.pages.append(cls.report("one-layout", SCENARIOS / "village.yaml", "--layouts", "home-runs"))
        cls.pages.append(cls.report("one-infeasible", cls.hostile_lakeside()))
        cls.browser = Browser()
        cls.addClassCleanup(cls.browser.close)

    @classmethod
    def report(cls, name, site, *options):
        ended = run("compare", site, "--quiet", "--out", cls.folder / name, *options)
        assert ended.code in (OK, INFEASIBLE), ended.err
        return cls.folder / name / "report.html"

    @classmethod
    def hostile_lakeside(cls):
        """A long name without a space, and one with markup, at the buildings."""
        path = cls.folder / "hostile.yaml"
        text = (SCENARIOS / "lakeside.yaml").read_text()
        text = text.replace("site: Lakeside holiday park", "site: " + "W" * 10000)
        path.write_text(text.replace("kiosk", "k" * 180).replace("name: Cabin row", "name: <b>Cabin</b> & row"))
        return path

    def on_every_page(self, widths=WIDTHS):
        for page in self.pages:
            self.browser.open(page, widths[0], FIRST_SCREEN_HEIGHT)
            for width in widths:
                self.browser.resize(width, FIRST_SCREEN_HEIGHT)
                yield page.parent.name, width

    def test_nothing_is_said_on_the_console_and_nothing_is_loaded(self):
        for name, _ in self.on_every_page((1280,)):
            self.assertEqual(self.browser.messages(), [], name)
            self.assertEqual(self.browser.ask("return performance.getEntriesByType('resource').length"), 0, name)
            self.assertEqual(self.browser.ask("return document.scripts.length"), 0, name)

    def test_no_page_is_wider_than_its_window(self):
        for name, width in self.on_every_page((*WIDTHS, 640, 800)):
            self.assertLessEqual(self.browser.ask("return document.documentElement.scrollWidth"), width, name)

    def test_the_answer_fits_on_the_first_screen(self):
        for name, _ in self.on_every_page((1280,)):
            if name != "one-infeasible":
                bottom = self.browser.ask("return document.getElementById('answer').getBoundingClientRect().bottom")
                self.assertLess(bottom, FIRST_SCREEN_HEIGHT, name)

    def test_every_picture_has_ink_and_legible_text(self):
        for name, width in self.on_every_page():
            for picture in self.browser.pictures(".on-narrow svg" if width == 390 else "figure svg"):
                ink = self.browser.ink(picture)
                self.assertGreater(ink, 0.003, f"{name} at {width}")
                self.assertLess(ink, 0.6, f"{name} at {width}")
            if self.browser.pictures("figure svg"):
                self.assertGreaterEqual(self.browser.ask(SMALLEST_DRAWN_TEXT), 9, f"{name} at {width}")

    def test_all_text_stands_out_from_the_page(self):
        for name, _ in self.on_every_page((1280,)):
            self.assertEqual(self.browser.ask(PALE_TEXTS), [], name)

    def test_headings_go_down_one_level_at_a_time_and_links_lead_somewhere(self):
        for name, _ in self.on_every_page((1280,)):
            levels = self.browser.ask("return [...document.querySelectorAll('h1,h2,h3,h4')].map(h => +h.tagName[1])")
            self.assertEqual((levels[0], levels.count(1)), (1, 1), name)
            self.assertTrue(all(b <= a + 1 for a, b in zip(levels, levels[1:])), name)
            lost = self.browser.ask("return [...document.querySelectorAll('a[href]')].filter(a => "
                                    "!document.querySelector(a.getAttribute('href'))).length")
            self.assertEqual(lost, 0, name)

    def test_pages_print_on_a4_and_letter(self):
        for page in self.pages:
            self.browser.open(page, 1280)
            for paper in PAPERS:
                pages = pages_of(self.browser.pdf(paper))
                self.assertGreater(pages, 0, f"{page.parent.name} on {paper}")
                self.assertLessEqual(pages, MOST_PAGES, f"{page.parent.name} on {paper}")

    def test_nothing_is_wider_than_the_paper(self):
        self.browser.use_medium("print")
        self.addCleanup(self.browser.use_medium, "")
        for page in self.pages:
            self.browser.open(page, 1280)
            for paper, (width_mm, height_mm) in PAPERS.items():
                width = int((width_mm - 2 * MARGIN_MM) * PIXELS_PER_MM)
                self.browser.resize(width, height_mm * PIXELS_PER_MM)
                self.assertLessEqual(self.browser.ask("return document.documentElement.scrollWidth"), width,
                                     f"{page.parent.name} on {paper}")

    def test_the_checker_finds_no_fault_in_html_and_drawings(self):
        drawings = [path for page in self.pages for path in sorted(page.parent.glob("plan-*.svg"))]
        ended = subprocess.run(["java", "-jar", os.environ["SPADEWORK_HTML_CHECKER"], "--format", "json", "--stdout",
                                "--also-check-svg", *map(str, [*self.pages, *drawings])],
                               capture_output=True, text=True)
        faults = [f"{fault['url'].rsplit('/', 2)[1:]}:{fault.get('lastLine')}: {fault['message']}"
                  for fault in json.loads(ended.stdout)["messages"] if fault["type"] != "info"
                  or fault.get("subType") == "warning"]
        self.assertEqual(faults, [])
        self.assertEqual(ended.returncode, 0, ended.stderr)

    def test_drawings_are_well_formed(self):
        drawings = [path for page in self.pages for path in page.parent.glob("*.svg")]
        ended = subprocess.run(["xmllint", "--noout", "--nonet", *map(str, drawings)], capture_output=True, text=True)
        self.assertEqual((ended.returncode, ended.stderr), (0, ""))


if __name__ == "__main__":
    unittest.main()
