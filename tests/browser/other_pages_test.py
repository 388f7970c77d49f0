"""The pages of risk, sweep, as-built records and extensions in a real browser, on screens and paper, and before an HTML
checker."""

import csv
import io
import pathlib
import sys
import tempfile
import unittest

from chromium import Browser
from page_checks import PageChecks

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "program"))
from running import INVALID_SITE, NOT_ACCEPTED, OK, SCENARIOS, run  # noqa: E402

ORCHARD = SCENARIOS / "orchard.yaml"
LAKESIDE = SCENARIOS / "lakeside.yaml"
RATE = ("--vary", "labour.groundworks-rate", "--from", "20", "--to", "120")


def filled_in(sheet, share_of_limit):
    """The rows of one layout of a test sheet with readings at a share of their limits."""
    rows = [row for row in csv.DictReader(io.StringIO(sheet)) if row["layout"] == "trunk-one"]
    for row in rows:
        row["measured_loss_db"] = f"{float(row['pass_limit_db']) * share_of_limit(row):.2f}"
        row["measured_length_m"] = row["fibre_m"]
        row["date"] = "2026-11-20"
    table = io.StringIO()
    writer = csv.DictWriter(table, rows[0].keys())
    writer.writeheader()
    writer.writerows(rows)
    return table.getvalue()


class OtherPages(PageChecks, unittest.TestCase):
    most_pages = 12

    @classmethod
    def setUpClass(cls):
        scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(scratch.cleanup)
        cls.folder = pathlib.Path(scratch.name)
        cls.write_pages()
        cls.pages = sorted(cls.folder.glob("*/*.html"))
        cls.pages = [page for page in cls.pages if page.name != "report.html"]
        cls.drawings = sorted(path for path in cls.folder.glob("*/*.svg") if path.parent.name != "site")
        cls.checked_drawings = cls.drawings
        cls.browser = Browser()
        cls.addClassCleanup(cls.browser.close)

    @classmethod
    def write(cls, name, *arguments, codes=(OK,), stdin=""):
        ended = run(*arguments, "--out", cls.folder / name, stdin=stdin)
        assert ended.code in codes, ended.err
        return cls.folder / name

    @classmethod
    def write_pages(cls):
        site = cls.write("site", "compare", LAKESIDE, "--quiet")
        plan = site / "trunk-one.plan.json"
        cls.write("risk", "risk", ORCHARD, "--draws", "2000", "--quiet")
        cls.write("risk-of-one", "risk", ORCHARD, "--draws", "400", "--layouts", "home-runs", "--quiet")
        cls.write("risk-with-long-names", "risk", cls.hostile_orchard(), "--draws", "400", "--quiet")
        cls.write("sweep", "sweep", LAKESIDE, *RATE, "--points", "12", "--quiet")
        cls.write("sweep-of-40", "sweep", LAKESIDE, "--vary", "distance", "--from", "0.5", "--to", "3", "--quiet")
        cls.write("grid", "sweep", LAKESIDE, *RATE, "--vary", "distance", "--from", "0.5", "--to", "3", "--quiet")
        sheet = (site / "test-sheet.csv").read_text()
        cls.write("record", "accept", plan, "-", stdin=filled_in(sheet, lambda row: 0.8))
        cls.write("refused", "accept", plan, "-", codes=(NOT_ACCEPTED, INVALID_SITE),
                  stdin=filled_in(sheet, lambda row: 3 if row["building"] == "kiosk" else 0.8))
        cls.write("extension", "extend", plan, SCENARIOS / "marina.yaml", "--quiet")

    @classmethod
    def hostile_orchard(cls):
        """Long names without a space, and names with markup, wherever the pages show names."""
        path = cls.folder / "hostile.yaml"
        text = ORCHARD.read_text().replace("site: Stonefruit orchard", "site: " + "W" * 2000)
        path.write_text(text.replace("group: rock", "group: <b>" + "r" * 150 + "</b>"))
        return path

    def test_there_is_a_page_of_each_kind(self):
        names = {page.name for page in self.pages}
        self.assertLessEqual({"risk.html", "sweep.html", "as_built.html"}, names)
        self.assertGreaterEqual(len(self.pages), 8)
        self.assertIn("extended.svg", {path.name for path in self.drawings})


if __name__ == "__main__":
    unittest.main()
