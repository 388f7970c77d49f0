"""Names that would do harm where they were obeyed: shown in every file and on the terminal, never run."""

import csv
import html.parser
import json
import pathlib
import re
import tempfile
import unicodedata
import unittest
import xml.etree.ElementTree

from running import INVALID_SITE, OK, SCENARIOS, run

MARKUP = "<script>alert('x')</script><img src=x onerror=alert(1)>\"'`]]>--><!--</style></title>&lt;&#0;"
TURNED = "\u202Eevil\u202C \u200F\u05E9\u05DC\u05D5\u05DD\u2066"
LONG = "x" * 10000
FORMULAS = ["=1+1", "+1+1", "-1+1", "@SUM(A1)"]
NAMES = {"markup": MARKUP, "turned": TURNED, "long": LONG, **{f"formula {f[0]}": f for f in FORMULAS}}
HARMLESS = "Kiosk"
LONGEST_ID = 200  # Bytes, by the manual of the site file.


ISOLATED = re.compile("\u2068[^\u2066-\u2069]*\u2069")  # First strong isolate, and its end.


def without_isolates(text):
    """A drawing sets every name apart from the text around it, so that neither turns the other."""
    return ISOLATED.sub(lambda match: match[0][1:-1], text)


def hidden_or_control(text):
    """Characters that a terminal or a browser would obey instead of showing, line ends apart."""
    return {hex(ord(c)) for c in text if unicodedata.category(c) in ("Cc", "Cf") and c != "\n"}


def site_named(scenario, name):
    """A shipped site in which the site and all buildings have this name, and one place, building and segment this id."""
    quoted = json.dumps(name)  # A JSON string is a YAML string.
    text = (SCENARIOS / f"{scenario}.yaml").read_text()
    text = re.sub(r"^site: .*$", lambda _: f"site: {quoted}\nnote: {quoted}", re.sub(r"^note: .*\n", "", text, 1, re.M),
                  1, re.M)
    text = re.sub(r"(?<=[ {])name: [^,}\n]+", lambda _: f"name: {quoted}", text)
    if len(name.encode()) <= LONGEST_ID:
        text = re.sub(r"(?<![\w-])(kiosk|road|gate)(?=[,}\n])",
                      lambda match: json.dumps(name + {"kiosk": "", "road": "2", "gate": "3"}[match[1]]), text)
    return text


class Page(html.parser.HTMLParser):
    """Names of all elements and attributes that a browser would see, and the text."""

    def __init__(self, text):
        super().__init__()
        self.elements, self.attributes, self.text = set(), set(), ""
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.elements.add(tag)
        self.attributes.update(name for name, _ in attrs)

    def handle_data(self, data):
        self.text += data


def svg_names(path):
    """Names of all elements and attributes of an SVG file."""
    elements = list(xml.etree.ElementTree.parse(path).getroot().iter())
    return {element.tag for element in elements} | {name for element in elements for name in element.attrib}


class HostileText(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        scratch = tempfile.TemporaryDirectory()
        cls.addClassCleanup(scratch.cleanup)
        cls.root = pathlib.Path(scratch.name)
        cls.printed = {key: cls.compare("lakeside", key, name) for key, name in [*NAMES.items(), ("usual", HARMLESS)]}

    @classmethod
    def compare(cls, scenario, key, name):
        """Runs the comparison of a site with that name; hands back what it printed."""
        out = cls.root / scenario / key
        out.mkdir(parents=True)
        site = SCENARIOS / f"{scenario}.geojson"
        if site.exists():
            (out / site.name).write_bytes(site.read_bytes())
        path = out / "site.yaml"
        path.write_text(site_named(scenario, name))
        ended = run("compare", path, "--out", out, "--explain", "--quiet", "--time-limit", "5")
        assert ended.code == OK, ended.err
        return ended.out

    def for_each_name(self, examine):
        """Calls with the folder of each comparison and the name in it."""
        for key, name in NAMES.items():
            with self.subTest(key):
                examine(self.root / "lakeside" / key, name)

    def test_the_report_holds_no_element_or_attribute_that_a_harmless_one_has_not(self):
        usual = Page((self.root / "lakeside" / "usual" / "report.html").read_text())

        def examine(folder, name):
            page = Page((folder / "report.html").read_text())
            self.assertLessEqual(page.elements, usual.elements)
            self.assertLessEqual(page.attributes, usual.attributes)
            self.assertNotIn("script", page.elements)
            self.assertEqual(hidden_or_control(without_isolates(page.text)), set())
            if name == MARKUP:
                self.assertIn(name, page.text)

        self.for_each_name(examine)

    def test_a_name_of_10000_characters_makes_no_long_headings_or_tables(self):
        text = (self.root / "lakeside" / "long" / "report.html").read_text()
        for element in ("h1", "h2", "h3", "td", "th", "caption", "title"):
            for content in re.findall(rf"<{element}[ >][^<]*", text):
                self.assertLess(len(content), 300)

    def test_drawings_hold_no_element_or_attribute_that_harmless_ones_have_not(self):
        harmless = self.root / "lakeside" / "usual"
        usual = set().union(*(svg_names(path) for path in harmless.glob("*.svg")))

        def examine(folder, _):
            self.assertTrue(list(folder.glob("*.svg")))
            for path in folder.glob("*.svg"):
                self.assertLessEqual(svg_names(path), usual)
                self.assertEqual(hidden_or_control(without_isolates(path.read_text())), set())

        self.for_each_name(examine)

    def test_no_text_in_a_table_is_taken_for_a_formula_and_numbers_stay_numbers(self):
        def examine(folder, name):
            cells = []
            for path in folder.glob("*.csv"):
                with open(path, newline="") as table:
                    cells += [cell for row in csv.reader(table) for cell in row]
            for cell in cells:
                if cell.startswith(("=", "+", "-", "@", "\t", "\r")):
                    float(cell)
            if name in FORMULAS:
                self.assertIn("'" + name, cells)
            self.assertEqual([cell for cell in cells if re.fullmatch(r"'-?[0-9.]+", cell)], [])

        self.for_each_name(examine)

    def test_the_terminal_is_sent_nothing_that_it_would_obey(self):
        for key in NAMES:
            with self.subTest(key):
                self.assertEqual(hidden_or_control(self.printed[key]), set())
        self.assertIn("\\u202Eevil", self.printed["turned"])
        self.assertIn("<script>alert('x')</script>", self.printed["markup"])

    def test_a_balloon_of_the_kml_shows_names_and_runs_none(self):
        kml = "{http://www.opengis.net/kml/2.2}"
        self.compare("campus", "markup", MARKUP)
        root = xml.etree.ElementTree.parse(self.root / "campus" / "markup" / "plan.kml").getroot()
        balloons = [Page(element.text) for element in root.iter(kml + "description")]
        self.assertEqual(set().union(*(balloon.elements for balloon in balloons)), {"table", "tr", "th", "td"})
        self.assertEqual(set().union(*(balloon.attributes for balloon in balloons)), {"align"})
        self.assertTrue(any(MARKUP in balloon.text for balloon in balloons))
        self.assertEqual([element for element in root.iter() if element.tag.endswith("script")], [])

    def test_a_control_character_in_a_site_file_is_refused_and_not_sent_on(self):
        for control in ("\x1b[2J", "\x00", "\x7f", "\x9b"):
            text = (SCENARIOS / "lakeside.yaml").read_text().replace("Lakeside", "Lake" + control)
            ended = run("compare", "-", stdin=text)
            self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
            self.assertEqual(hidden_or_control(ended.err), set())


if __name__ == "__main__":
    unittest.main()
