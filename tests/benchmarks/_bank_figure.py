"""Draws how the cost of growing a bank goes: python _bank_figure.py ONE.json TWO.json FIGURE.svg

The files are what `_bank_jobs.py grow` printed, with one process and with two.
"""

import json
import sys
from pathlib import Path

WIDTH, HEIGHT, LEFT, BOTTOM, TOP, RIGHT = 640, 300, 64, 44, 28, 16
PARTS = 20


def rates(found: dict[str, list[tuple[int, float]]]) -> list[tuple[float, float]]:
    """The middle of each part of the problems, and how many a second were grown there."""
    seen = [(0, found["seen"][0][1]), *found["seen"]]
    step = max(1, len(seen) // PARTS)
    points = []
    for at in range(step, len(seen) - step, step):
        (first, began), (last, ended) = seen[at], seen[min(at + step, len(seen) - 1)]
        if ended > began:
            points.append(((first + last) / 2, (last - first) / (ended - began)))
    return points


def figure(series: dict[str, list[tuple[float, float]]], most: int) -> str:
    """The figure as SVG: problems a second against problems that are there."""
    top = max(rate for points in series.values() for _, rate in points) * 1.1

    def x(number: float) -> float:
        return LEFT + number / most * (WIDTH - LEFT - RIGHT)

    def y(rate: float) -> float:
        return HEIGHT - BOTTOM - rate / top * (HEIGHT - BOTTOM - TOP)

    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
        'font-family="Verdana, sans-serif" font-size="11">',
        "<title>Problems a second while a bank grows</title>",
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="white"/>',
    ]
    for rate in range(0, int(top), 500):
        out.append(
            f'<line x1="{LEFT}" x2="{WIDTH - RIGHT}" y1="{y(rate):.1f}" y2="{y(rate):.1f}" '
            f'stroke="#ddd"/><text x="{LEFT - 6}" y="{y(rate) + 4:.1f}" text-anchor="end">'
            f"{rate:,}</text>"
        )
    for fifth in range(6):
        number = most * fifth // 5
        out.append(
            f'<text x="{x(number):.1f}" y="{HEIGHT - BOTTOM + 18}" text-anchor="middle">'
            f"{number:,}</text>"
        )
    out.append(f'<text x="{LEFT}" y="16">problems a second</text>')
    out.append(
        f'<text x="{WIDTH - RIGHT}" y="{HEIGHT - 8}" text-anchor="end">problems in the bank</text>'
    )
    for (name, points), dash in zip(series.items(), ("", "6 3"), strict=False):
        line = " ".join(f"{x(number):.1f},{y(rate):.1f}" for number, rate in points)
        out.append(
            f'<polyline points="{line}" fill="none" stroke="#1f5f8b" stroke-width="2" '
            f'stroke-dasharray="{dash}"/>'
        )
        number, rate = points[-1]
        out.append(
            f'<text x="{x(number):.1f}" y="{y(rate) - 8:.1f}" text-anchor="end">{name}</text>'
        )
    return "\n".join([*out, "</svg>", ""])


if __name__ == "__main__":
    *sources, target = sys.argv[1:]
    found = [json.loads(Path(one).read_text()) for one in sources]
    names = ("one process", "two processes")
    drawn = {name: rates(one) for name, one in zip(names, found, strict=False)}
    Path(target).write_text(figure(drawn, found[0]["seen"][-1][0]), encoding="utf-8")
