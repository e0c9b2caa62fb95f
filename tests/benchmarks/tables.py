"""Tables in README.md: what a run measured, between two marks."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

README = Path(__file__).with_name("README.md")

Found = Mapping[str, Any]
"""A value out of JSON."""

HEAD = ("work", "time", "floor", "times the floor", "beside others: ours over theirs")

UNITS = ((1.0, "s"), (1e-3, "ms"), (1e-6, "µs"))


def costs(run: Found) -> Iterator[str]:
    """The table of a run of benchmarks, line by line.

    Args:
        run: What `--benchmark-json` wrote; a benchmark that was not compared is left out.
    """
    yield from rows(
        HEAD, (_row(one["extra_info"]) for one in run["benchmarks"] if one["extra_info"])
    )


def _row(info: Found) -> tuple[str, ...]:
    unit = f" a {info['unit']}" if info["unit"] else ""
    beside = [
        f"{name} {ratio_told(one['ratio'])} ({time_told(one['seconds'])})"
        for name, one in info["beside"].items()
    ]
    return (
        info["work"],
        f"{time_told(info['seconds'])}{unit}",
        f"{info['floor']['name']} {time_told(info['floor']['seconds'])}",
        ratio_told(info["floor"]["ratio"]),
        "; ".join(beside) or "none does it",
    )


def rows(head: Sequence[str], cells: Iterable[Sequence[str]]) -> Iterator[str]:
    """A table in Markdown."""
    yield f"| {' | '.join(head)} |"
    yield "|" + "---|" * len(head)
    for some in cells:
        yield f"| {' | '.join(some)} |"


def time_told(seconds: float) -> str:
    """A time in the unit that suits it, to three digits.

    >>> time_told(0.0123), time_told(2.5e-5), time_told(12)
    ('12.3 ms', '25 µs', '12 s')
    """
    size, unit = next((one for one in UNITS if seconds >= one[0]), UNITS[-1])
    return f"{_digits(seconds / size)} {unit}"


def ratio_told(ratio: float) -> str:
    """A ratio to two digits, or whole.

    >>> ratio_told(0.1234), ratio_told(3.14), ratio_told(1234.5)
    ('0.12', '3.1', '1,234')
    """
    return f"{ratio:,.0f}" if ratio >= 10 else f"{ratio:.2g}"


def _digits(number: float) -> str:
    return f"{number:,.0f}" if number >= 100 else f"{number:.3g}"


def written(text: str, name: str, lines: Iterable[str]) -> str:
    r"""A text with what stands between the two marks of a name written anew.

    Args:
        text: The text.
        name: The marks' name.
        lines: What is to stand between them.

    Raises:
        ValueError: When the marks are not there.

    >>> written("<!-- a -->\nold\n<!-- end of a -->\n", "a", ["new"])
    '<!-- a -->\nnew\n<!-- end of a -->\n'
    """
    begin, end = f"<!-- {name} -->\n", f"<!-- end of {name} -->\n"
    before, found, rest = text.partition(begin)
    _, ended, after = rest.partition(end)
    if not (found and ended):
        raise ValueError(f"there are no marks of {name!r}")
    return before + begin + "".join(f"{line}\n" for line in lines) + end + after


def write(name: str, lines: Iterable[str], readme: Path = README) -> None:
    """Write what stands between two marks of README.md anew."""
    text = written(readme.read_text("utf-8"), name, lines)
    readme.write_text(text, encoding="utf-8")
