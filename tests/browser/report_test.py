"""The report of every shipped scenario in a real browser, on screens and paper, and before an HTML checker."""

import pathlib
import sys
import tempfile
import unittest

from chromium import Browser
from page_checks import FIRST_SCREEN_HEIGHT, PageChecks

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "program"))
from running import INFEASIBLE, OK, SCENARIOS, run  # noqa: E402


class Report(PageChecks, unittest.TestCase):
    most_pages = 30  # On A4 for the largest site, of forty buildings.

    @classmethod
    def setUpClass(cls):
        scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(scratch.cleanup)
        cls.folder = pathlib.Path(scratch.name)
        cls.pages = [cls.report(path.stem, path, "--time-limit", "4") for path in sorted(SCENARIOS.glob("*.yaml"))]
        cls.pages.append(cls.report("explained", SCENARIOS / "lakeside.yaml", "--explain"))
        cls.pages.append(cls.report("one-layout", SCENARIOS / "village.yaml", "--layouts", "home-runs"))
        cls.pages.append(cls.report("one-infeasible", cls.hostile_lakeside()))
        cls.drawings = [path for page in cls.pages for path in sorted(page.parent.glob("*.svg"))]
        cls.checked_drawings = [path for path in cls.drawings if path.name.startswith("plan-")]
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

    def test_the_answer_fits_on_the_first_screen(self):
        for name, _ in self.on_every_page((1280,)):
            if name != "one-infeasible":
                bottom = self.browser.ask("return document.getElementById('answer').getBoundingClientRect().bottom")
                self.assertLess(bottom, FIRST_SCREEN_HEIGHT, name)


if __name__ == "__main__":
    unittest.main()
