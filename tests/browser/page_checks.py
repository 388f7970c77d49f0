"""What holds for every page that the program writes: held in a real browser, on paper and before an HTML checker."""

import json
import os
import subprocess

from chromium import MARGIN_MM, PALE_TEXTS, PAPERS, PIXELS_PER_MM, SMALLEST_DRAWN_TEXT, pages_of

WIDTHS = (1280, 390)
FIRST_SCREEN_HEIGHT = 900


class PageChecks:
    """For a test case with `pages`, `drawings`, a `browser`, and the most pages that one may have on A4."""

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
                self.assertLessEqual(pages, self.most_pages, f"{page.parent.name} on {paper}")

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
        ended = subprocess.run(["java", "-jar", os.environ["SPADEWORK_HTML_CHECKER"], "--format", "json", "--stdout",
                                "--also-check-svg", *map(str, [*self.pages, *self.checked_drawings])],
                               capture_output=True, text=True)
        faults = [f"{fault['url'].rsplit('/', 2)[1:]}:{fault.get('lastLine')}: {fault['message']}"
                  for fault in json.loads(ended.stdout)["messages"] if fault["type"] != "info"
                  or fault.get("subType") == "warning"]
        self.assertEqual(faults, [])
        self.assertEqual(ended.returncode, 0, ended.stderr)

    def test_drawings_are_well_formed(self):
        ended = subprocess.run(["xmllint", "--noout", "--nonet", *map(str, self.drawings)], capture_output=True, text=True)
        self.assertEqual((ended.returncode, ended.stderr), (0, ""))
