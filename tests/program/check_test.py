"""spadework check: problems with their place, and the values in force."""

import pathlib
import tempfile
import unittest

from running import INVALID_SITE, OK, SCENARIOS, SHARED, run

LAKESIDE = SCENARIOS / "lakeside.yaml"


class Check(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def site(self, *changes):
        """A copy of the lakeside site with texts replaced."""
        text = LAKESIDE.read_text()
        for old, new in changes:
            self.assertEqual(text.count(old), 1, old)
            text = text.replace(old, new)
        path = self.folder / "site.yaml"
        path.write_text(text)
        return path

    def test_every_shipped_scenario_is_valid(self):
        for path in SCENARIOS.glob("*.yaml"):
            ended = run("check", path)
            self.assertEqual((ended.code, ended.err), (OK, ""), path)
            self.assertIn("valid", ended.out)

    def test_a_problem_shows_file_line_column_the_line_and_a_caret(self):
        path = self.site(("kind: hub", "knid: hub"))
        ended = run("check", path)
        self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
        lines = ended.err.splitlines()
        number, source = next((i, line) for i, line in enumerate(path.read_text().splitlines(), 1) if "knid" in line)
        column = source.index("knid") + 1
        at = next(i for i, line in enumerate(lines) if line.startswith(f"{path}:{number}:{column}: error: "))
        self.assertIn("did you mean 'kind'?", lines[at])
        self.assertIn(source.strip(), lines[at + 1])
        self.assertEqual(lines[at + 2].index("^"), lines[at + 1].index("knid"))

    def test_all_problems_are_told_in_one_run(self):
        path = self.site(("kind: hub", "knid: hub"), ("rate: 75", "rate: -75"), ("hub: {place: office}", "hub: {place: ofice}"))
        err = run("check", path).err
        for wanted in ("knid", "-75", "ofice", "errors in "):
            self.assertIn(wanted, err)

    def test_a_site_can_come_through_standard_input(self):
        ended = run("check", "-", stdin=LAKESIDE.read_text())
        self.assertEqual((ended.code, ended.err), (OK, ""))
        self.assertEqual(ended.out, run("check", LAKESIDE).out)
        self.assertIn("<standard input>:1:", run("check", "-", stdin="[1, 2").err)

    def test_files_that_cannot_be_read_are_invalid_sites(self):
        for path in (self.folder / "absent.yaml", self.folder):
            ended = run("check", path)
            self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
            self.assertIn(f"{path}: error: cannot be read: ", ended.err)

    def test_show_defaults_names_values_from_the_file_and_from_defaults(self):
        ended = run("check", "lakeside.yaml", "--show-defaults", cwd=SCENARIOS)
        self.assertEqual((ended.code, ended.err), (OK, ""))
        for line_start, origin in (("rules.contingency", "lakeside.yaml:"), ("rules.termination", "default")):
            line = next(line for line in ended.out.splitlines() if line.startswith(line_start))
            self.assertIn(origin, line)

    def test_control_characters_of_a_site_never_reach_the_terminal(self):
        path = self.folder / "site.yaml"
        path.write_bytes(b"format: 1\nsite: \"\\e]0;title\\a\"\n\x1b[2J\xff: 3\n")
        ended = run("check", path)
        self.assertEqual(ended.code, INVALID_SITE)
        self.assertNotIn("\x1b", ended.err)
        self.assertNotIn("\a", ended.err)

    def test_malformed_documents_end_in_errors_or_a_clean_load(self):
        folder = SHARED / "data" / "malformed" / "yaml"
        if not folder.is_dir():
            self.skipTest(f"no {folder}")
        paths = [path for path in sorted(folder.rglob("*")) if path.is_file()]
        for path in paths:
            ended = run("check", path)
            self.assertIn(ended.code, (OK, INVALID_SITE), path)
            self.assertEqual(ended.code == INVALID_SITE, "error: " in ended.err, path)


if __name__ == "__main__":
    unittest.main()
