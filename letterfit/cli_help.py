"""Help in which options stand under headings: what comes out first, then what may be set."""

import click

HEADINGS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (
        "Output",
        ("json", "jsonl", "csv", "html", "svg", "svg-text", "figures", "pdf", "write-plan"),
    ),
    ("Page", ("paper", "plan", "house-rules", "reading", "figure", "tier-change", "panel-change")),
    (
        "Lettering",
        (
            *("typeface", "face", "instance", "axis", "size", "leading", "air", "tracking"),
            *("writing", "align", "aside", "caption-align", "effects-typeface", "effects-size"),
        ),
    ),
    (
        "Text",
        (
            *("language", "case", "keep-case", "emphasis", "crossbar", "crossbar-in", "dashes"),
            *("ellipses", "quotes"),
        ),
    ),
    (
        "Line breaks",
        ("hyphenate", "hyphenate-english", "japanese", "phrases", "without"),
    ),
    (
        "Balloons",
        (
            *("outline", "thought-outline", "shout-outline", "whisper-outline"),
            *("machine-outline", "same-speaker", "butted"),
        ),
    ),
)
"""Headings and the options under each; an option that is named nowhere stands under the last."""

REST = "Options"

MANY = 12
"""A command of no more options has them in one list."""


class Grouped(click.Command):
    """A command whose help has its options under headings, when it has many."""

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the options, each under its heading."""
        under = {name: heading for heading, names in HEADINGS for name in names}
        told: dict[str, list[tuple[str, str]]] = {heading: [] for heading, _ in HEADINGS}
        told[REST] = []
        for parameter in self.get_params(ctx):
            record = parameter.get_help_record(ctx)
            if isinstance(parameter, click.Option) and record is not None:
                name = parameter.opts[0].removeprefix("--")
                told[under.get(name, REST)].append(record)
        if sum(map(len, told.values())) <= MANY:
            super().format_options(ctx, formatter)
            return
        for heading, records in told.items():
            if records:
                with formatter.section(heading):
                    formatter.write_dl(records)
