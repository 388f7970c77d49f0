"""What the program says when it is asked wrongly, or asked what it can do."""

import re
import unittest

from running import OK, ROOT, USAGE, run


class Usage(unittest.TestCase):
    def refused(self, *arguments):
        """Runs the program, expects a usage error and returns what it says of it."""
        ended = run(*arguments)
        self.assertEqual((ended.code, ended.out), (USAGE, ""), arguments)
        return ended.err

    def test_without_a_command_it_says_that_one_is_wanted(self):
        self.assertIn("--help", self.refused())

    def test_a_misspelt_command_is_answered_with_the_nearest_one(self):
        self.assertIn("did you mean 'example'?", self.refused("exmaple"))

    def test_a_misspelt_option_is_answered_with_the_nearest_one(self):
        self.assertIn("did you mean '--threads'?", self.refused("compare", "site.yaml", "--threds", "2"))

    def test_an_option_that_is_not_there_is_named_without_the_value_behind_it(self):
        self.assertTrue(self.refused("strands", "site.yaml", "--year", "3").startswith(
            "spadework strands: there is no option '--year'\nRun 'spadework strands --help'"))

    def test_an_argument_too_many_is_refused(self):
        self.assertIn("one argument too many: 'surplus'", self.refused("example", "lakeside", "surplus", "more"))

    def test_an_empty_text_is_refused_with_the_options_name_once(self):
        self.assertTrue(self.refused("compare", "site.yaml", "--out", "").startswith(
            "spadework compare: --out: needs more than an empty text\n"))

    def test_a_command_without_its_file_is_refused(self):
        for command in ("compare", "check", "enclosure", "strands"):
            self.assertIn("FILE", self.refused(command))

    def test_values_that_are_no_proper_numbers_are_refused(self):
        for option, value in (("--threads", "0"), ("--threads", "-1"), ("--threads", "2x"), ("--threads", "1e3"),
                              ("--threads", ""), ("--seed", "-1"), ("--seed", "0x10"), ("--seed", "1.5"),
                              ("--seed", "18446744073709551616"), ("--time-limit", "0"), ("--time-limit", "nan"),
                              ("--time-limit", "inf"), ("--time-limit", "-3"), ("--time-limit", "ten")):
            with self.subTest(option=option, value=value):
                self.assertIn(option, self.refused("compare", "site.yaml", option + "=" + value))

    def test_unknown_formats_and_layouts_are_refused_with_what_is_known(self):
        self.assertIn("text, json", self.refused("compare", "site.yaml", "--format", "xml"))
        complaint = self.refused("compare", "site.yaml", "--layouts", "trunk,daisy-chian")
        self.assertIn("did you mean 'daisy-chain'?", complaint)
        self.assertIn("home-runs", complaint)
        for layouts in ("", ",", "trunk,", "trunk,,mixed"):
            self.assertIn("--layouts", self.refused("compare", "site.yaml", "--layouts=" + layouts))

    def test_quiet_and_verbose_together_are_refused(self):
        self.assertIn("--verbose", self.refused("compare", "site.yaml", "--quiet", "--verbose"))

    def test_help_goes_to_standard_output_for_every_command(self):
        commands = ["survey", "compare", "enclosure", "strands", "extend", "risk", "merge", "sweep", "verify", "accept",
                    "check", "example", "schema"]
        overall = run("--help")
        self.assertEqual((overall.code, overall.err), (OK, ""))
        for command in commands:
            self.assertIn(f"\n  {command} ", overall.out)
            ended = run(command, "--help")
            self.assertEqual((ended.code, ended.err), (OK, ""))
            self.assertIn(f"spadework {command}", ended.out)

    def test_help_names_defaults_and_units(self):
        text = run("compare", "--help").out
        for wanted in ("--time-limit SECONDS", "(default: 30)", "--threads N", "(default: one a core)",
                       "--seed,--random-seed N", "(default: 1)", "--format FORMAT", "(default: text)", "--layouts LIST", "--out DIR",
                       "--certificate DIR", "--quiet", "--verbose"):
            self.assertIn(wanted, text)

    def test_help_names_every_exit_code_of_the_header(self):
        header = (ROOT / "tools" / "spadework" / "exit_code.hpp").read_text()
        codes = re.findall(r"^    \w+ = (\d+),", header, re.MULTILINE)
        self.assertEqual(len(codes), 9)
        text = run("--help").out
        for code in codes:
            self.assertRegex(text, rf"\b{code} ")

    def test_version_is_that_of_the_build(self):
        version = re.search(r"project\(spadework VERSION ([0-9.]+)", (ROOT / "CMakeLists.txt").read_text())[1]
        ended = run("--version")
        self.assertEqual((ended.code, ended.out, ended.err), (OK, f"spadework {version}\n", ""))


if __name__ == "__main__":
    unittest.main()
