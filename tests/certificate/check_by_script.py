"""Proves the bounds of certificates again by the rules that lib/certificate/certificate.hpp gives (its steps 2 to 6,
and the claims that it names for trunks and chains), with code that shares no line with Spadework:

    /usr/bin/python3 check_by_script.py site.yaml certificates/*.certificate.json

Money is in minor units of the site's currency. site_reading.py tells what it reads of a site, and a file with something
that it does not know is said to be not read. It does not look at plans (step 1), nor at the map of open ground, of
which it takes segments, their lengths and what opening them costs as the certificate has them.

Exit codes: 0 all is proved that the files claim; 3 a file has something that is not read; 6 something is not proved."""

import json
import pathlib
import sys

import claims
from site_model import NotRead
from site_reading import read_site

PROVED, NOT_READ, NOT_PROVED = 0, 3, 6


def refused(number):
    sys.exit(f"{number} is no whole number, as all in a certificate are")


def read_certificate(path):
    return json.loads(pathlib.Path(path).read_text(), parse_float=refused, parse_constant=refused)


def check_one(site, path, certificate, all_certificates):
    try:
        bound = claims.check(site, certificate, all_certificates)
    except NotRead as what:
        return NOT_READ, f"{path}: not read: {what}"
    except AssertionError as fault:
        return NOT_PROVED, f"{path}: not proved: {fault}"
    return PROVED, f"{path}: proved: claims a direct cost of {certificate['direct_bound']}, its evidence proves {bound}"


def main(arguments):
    if len(arguments) < 2:
        sys.exit(__doc__)
    try:
        site = read_site(arguments[0])
    except NotRead as what:
        print(f"{arguments[0]}: not read: {what}")
        return NOT_READ
    files = {path: read_certificate(path) for path in arguments[1:]}
    by_layout = {certificate["layout"]: certificate for certificate in files.values()}
    checked = [check_one(site, path, certificate, by_layout) for path, certificate in files.items()]
    print("\n".join(told for _, told in checked))
    return max(code for code, _ in checked)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
