"""Runs every code block of README.md as it is written.

  console   commands behind '$ ', each followed by exactly what it prints; run one after the other in one folder that
            holds the repository's files
  sh        set-up commands; run in the repository itself, and only with --set-up
  cpp, cmake, yaml
            must stand word for word in a file of tests/consumer or scenarios, where other tests build or read them

Any other block is an error. With --update, what commands print is written into README.md instead of compared.
"""

import argparse
import difflib
import os
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parent.parent
README = ROOT / "README.md"
BLOCK = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
QUOTED_FROM = {"cpp": "tests/consumer/*.cpp", "cmake": "tests/consumer/CMakeLists.txt", "yaml": "scenarios/*.yaml"}


def run(command, folder):
    """What a shell command prints, errors included."""
    ended = subprocess.run(["bash", "-c", command], cwd=folder, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                           stderr=subprocess.STDOUT, text=True)
    return ended.stdout


def commands_of(block):
    """The commands of a console block; a line that ends in a backslash goes on."""
    commands, lines = [], iter(block.splitlines())
    for line in lines:
        if line.startswith("$ "):
            command = line[2:]
            while command.endswith("\\"):
                command += "\n" + next(lines)
            commands.append(command)
    return commands


def console_as_it_is(block, folder):
    """The block with what its commands really print."""
    return "".join(f"$ {command}\n{run(command, folder)}" for command in commands_of(block))


def make_scratch(folder, program):
    """Fills a folder with links to the repository's files; build/ holds the program alone."""
    for path in ROOT.iterdir():
        if not path.name.startswith((".", "build")):
            (folder / path.name).symlink_to(path)
    (folder / "build").mkdir()
    (folder / "build" / "spadework").symlink_to(program)


def quoted_from_a_file(kind, block):
    return any(block in path.read_text() for path in ROOT.glob(QUOTED_FROM[kind]))


def set_up_works(block):
    for command in block.splitlines():
        print(f"$ {command}", flush=True)
        if subprocess.run(["bash", "-c", command], cwd=ROOT, stdin=subprocess.DEVNULL).returncode != 0:
            return False
    return True


def problem_with(kind, block, folder, options):
    """What is wrong with a block; empty when nothing is."""
    if kind == "console":
        actual = console_as_it_is(block, folder)
        return "".join(difflib.unified_diff(block.splitlines(True), actual.splitlines(True), "README.md", "program"))
    if kind == "sh":
        return "" if not options.set_up or set_up_works(block) else f"failed:\n{block}"
    if kind in QUOTED_FROM:
        return "" if quoted_from_a_file(kind, block) else f"stands in none of {QUOTED_FROM[kind]}:\n{block}"
    return f"a block of an unknown kind '{kind}':\n{block}"


def update(text, folder):
    def with_real_output(match):
        body = console_as_it_is(match[2], folder) if match[1] == "console" else match[2]
        return f"```{match[1]}\n{body}```"
    README.write_text(BLOCK.sub(with_real_output, text))


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--set-up", action="store_true")
    parser.add_argument("--update", action="store_true")
    options = parser.parse_args()
    program = os.environ.get("SPADEWORK_PROGRAM", str(ROOT / "build" / "spadework"))
    text = README.read_text()
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        make_scratch(folder, program)
        if options.update:
            update(text, folder)
            return 0
        blocks = BLOCK.findall(text)
        problems = [problem for problem in (problem_with(kind, block, folder, options) for kind, block in blocks)
                    if problem]
    print("\n".join(problems))
    print(f"{len(blocks)} code blocks of README.md, {len(problems)} wrong")
    return 1 if problems or not blocks else 0


if __name__ == "__main__":
    sys.exit(main())
