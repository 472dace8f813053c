"""The report on the pack in a file as JSON, for a process that can be ended when it takes long."""

import json
import sys
from dataclasses import asdict
from pathlib import Path

from storybank.errors import PackError
from storybank.theme_check import ThemeReport, check_theme


def main(path: Path) -> None:
    """Prints the report; what is no YAML is a fault as well."""
    try:
        report = check_theme(path)
    except PackError as error:
        report = ThemeReport(tuple(str(error).split("\n")), (), ())
    sys.stdout.buffer.write(json.dumps(asdict(report)).encode("utf-8"))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
