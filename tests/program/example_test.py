"""The scenarios that come with the program."""

import pathlib
import tempfile
import unittest

from running import OK, SCENARIOS, USAGE, run, run_bytes


class Example(unittest.TestCase):
    def test_the_list_names_every_shipped_scenario_and_says_what_it_is(self):
        ended = run("example")
        self.assertEqual((ended.code, ended.err), (OK, ""))
        lines = ended.out.splitlines()
        self.assertEqual([line.split()[0] for line in lines], sorted(path.stem for path in SCENARIOS.glob("*.yaml")))
        for line in lines:
            self.assertGreater(len(line.split()), 3, line)

    def test_a_scenario_is_printed_byte_for_byte(self):
        for path in SCENARIOS.glob("*.yaml"):
            ended = run_bytes("example", path.stem)
            self.assertEqual(ended.code, OK)
            self.assertEqual(ended.out, path.read_bytes())

    def test_a_scenario_written_to_a_folder_is_complete(self):
        for path in SCENARIOS.glob("*.yaml"):
            with tempfile.TemporaryDirectory() as folder:
                ended = run("example", path.stem, "--out", folder)
                self.assertEqual((ended.code, ended.err), (OK, ""))
                written = [pathlib.Path(line).relative_to(folder) for line in ended.out.splitlines()]
                for name in written:
                    self.assertEqual((pathlib.Path(folder) / name).read_bytes(), (SCENARIOS / name).read_bytes())
                self.assertEqual(run("check", pathlib.Path(folder) / path.name).code, OK, path)

    def test_a_folder_without_a_name_is_refused(self):
        ended = run("example", "--out", "folder")
        self.assertEqual((ended.code, ended.out), (USAGE, ""))
        self.assertIn("NAME", ended.err)

    def test_an_unknown_name_is_refused_with_the_nearest_one(self):
        ended = run("example", "lakesid")
        self.assertEqual((ended.code, ended.out), (USAGE, ""))
        self.assertIn("did you mean 'lakeside'?", ended.err)


if __name__ == "__main__":
    unittest.main()
