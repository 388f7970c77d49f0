"""What only shows on a terminal, and that nothing of it shows elsewhere."""

import unittest

from running import INVALID_SITE, OK, SCENARIOS, run, run_on_terminal

LAKESIDE = SCENARIOS / "lakeside.yaml"


def after_carriage_returns(screen):
    """What stays on each line of a screen that only knows carriage returns and line feeds."""
    lines = []
    for line in screen.replace("\r\n", "\n").split("\n"):
        shown = ""
        for piece in line.split("\r"):
            shown = piece + shown[len(piece):]
        lines.append(shown.rstrip())
    return "\n".join(lines)


class Terminal(unittest.TestCase):
    def test_progress_is_drawn_on_a_terminal_and_erased(self):
        ended = run_on_terminal("compare", LAKESIDE)
        self.assertEqual(ended.code, OK)
        self.assertIn("\rgap:", ended.err)
        self.assertEqual(after_carriage_returns(ended.err).strip(), "")

    def test_progress_is_not_drawn_when_quiet(self):
        self.assertEqual(run_on_terminal("compare", LAKESIDE, "--quiet").err, "")

    def test_nothing_is_drawn_through_a_pipe(self):
        self.assertEqual(run("compare", LAKESIDE).err, "")

    def test_the_result_is_the_same_with_and_without_a_terminal(self):
        self.assertEqual(run_on_terminal("compare", LAKESIDE).out, run("compare", LAKESIDE).out)

    def test_problems_with_a_site_look_the_same_on_a_terminal(self):
        on_terminal = run_on_terminal("check", "no-such-file.yaml")
        self.assertEqual(on_terminal.code, INVALID_SITE)
        self.assertEqual(on_terminal.err.replace("\r\n", "\n"), run("check", "no-such-file.yaml").err)


if __name__ == "__main__":
    unittest.main()
