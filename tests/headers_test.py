"""Every header compiles alone, so that it may be included first anywhere.

  headers_test.py COMPILER   (for example g++ or clang++)
"""

import concurrent.futures
import os
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
# What the build tells every test about where things are.
DEFINED = ['-DSPADEWORK_SOURCE_DIR="source"', '-DSPADEWORK_SHARED_DIR="shared"']
FOLDERS = {"lib": ["lib"], "tools": ["tools", "lib"], "bench": ["bench", "lib"], "tests": ["tests", "lib"]}


def complaint(compiler, path, include_folders):
    """What the compiler says about the header on its own; empty when it is content."""
    command = [compiler, "-std=c++20", "-fsyntax-only", "-Wall", "-Wextra", "-Werror", *DEFINED,
               *(f"-I{ROOT / folder}" for folder in include_folders), "-x", "c++", "-"]
    result = subprocess.run(command, capture_output=True, text=True, input=f'#include "{path}"\n')
    return result.stderr if result.returncode else ""


def main():
    compiler = sys.argv[1] if len(sys.argv) > 1 else "c++"
    headers = [(path, include_folders) for folder, include_folders in FOLDERS.items()
               for path in sorted((ROOT / folder).rglob("*.hpp"))]
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        complaints = list(pool.map(lambda header: complaint(compiler, *header), headers))
    wrong = [text for text in complaints if text]
    print("".join(wrong), end="")
    print(f"{len(headers)} headers compiled alone with {compiler}, {len(wrong)} failed")
    sys.exit(1 if wrong or not headers else 0)


if __name__ == "__main__":
    main()
