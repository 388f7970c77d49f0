"""Every header compiles alone, so that it may be included first anywhere. A header that a source file includes before
anything else compiles alone with every build; the others are compiled here.

  headers_test.py COMPILER   (for example g++ or clang++)
"""

import concurrent.futures
import os
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
# What the build tells every test about where things are.
DEFINED = ['-DSPADEWORK_SOURCE_DIR="source"', '-DSPADEWORK_SHARED_DIR="shared"', "-DSPADEWORK_TEST_SHARE=1"]
FOLDERS = {"lib": ["lib"], "tools": ["tools", "lib"], "bench": ["bench", "lib"], "tests": ["tests", "lib"]}


INCLUDE = re.compile(r'^\s*#\s*include\s*["<]([^">]+)[">]', re.MULTILINE)


def included_first():
    """Headers, as they are included, that some source file of the build includes before anything else."""
    first = set()
    for folder in FOLDERS:
        for path in (ROOT / folder).rglob("*.cpp"):
            include = INCLUDE.search(path.read_text())
            if include:
                first.add(include[1])
    return first


def complaint(compiler, path, include_folders):
    """What the compiler says about the header on its own; empty when it is content."""
    command = [compiler, "-std=c++20", "-fsyntax-only", "-Wall", "-Wextra", "-Werror", *DEFINED,
               *(f"-I{ROOT / folder}" for folder in include_folders), "-x", "c++", "-"]
    result = subprocess.run(command, capture_output=True, text=True, input=f'#include "{path}"\n')
    return result.stderr if result.returncode else ""


def main():
    compiler = sys.argv[1] if len(sys.argv) > 1 else "c++"
    first = included_first()
    headers = [(path, include_folders) for folder, include_folders in FOLDERS.items()
               for path in sorted((ROOT / folder).rglob("*.hpp"))
               if not any(str(path).endswith("/" + name) for name in first)]
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        complaints = list(pool.map(lambda header: complaint(compiler, *header), headers))
    wrong = [text for text in complaints if text]
    print("".join(wrong), end="")
    print(f"{len(headers)} headers compiled alone with {compiler}, {len(wrong)} failed")
    sys.exit(1 if wrong or not headers else 0)


if __name__ == "__main__":
    main()
