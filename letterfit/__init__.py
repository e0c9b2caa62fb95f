r"""Letterfit: does a comics script's lettering fit its pages?

The public names and nothing else. Lengths are millimetres, y downwards; type sizes are points.
Values are frozen; input that cannot be used raises a `LetterfitError`, and what does not fit is a
value. Limits and print settings are common practice and advice; the printer's own specification
decides. Examples have the public names at hand, as after `from letterfit import *`.

>>> import letterfit as lf
>>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: The gate is shut.\n")
>>> report = lf.preflight(script, paper=lf.Paper.named("a5"))
>>> report.fits, round(report.pages[0].panels[0].figure_height_mm)
(True, 182)
"""

from importlib import import_module

from letterfit.version import VERSION

__version__ = VERSION

HOMES = {
    "letterfit.balloons": ("balloon_front", "fit_balloon", "fit_balloons", "fit_into"),
    "letterfit.cuts.least": ("LeastCut",),
    "letterfit.cuts.model": ("Cut", "Giving", "LeastWords", "Proposal"),
    "letterfit.cuts.suggest": ("least_cut", "suggest_cuts"),
    "letterfit.drawn.burst": ("Burst",),
    "letterfit.drawn.cloud": ("Cloud",),
    "letterfit.drawn.plain_lines": ("Whisper",),
    "letterfit.errors": (
        "DrawingError",
        "FontError",
        "LetterfitError",
        "OutlineError",
        "PageError",
        "ScriptError",
        "TableError",
    ),
    "letterfit.existing.model": (
        "DrawnBalloon",
        "DrawnLettering",
        "DrawnLine",
        "DrawnPage",
        "DrawnPanel",
        "Region",
    ),
    "letterfit.existing.reading": ("parse_drawn_page", "read_drawn_page"),
    "letterfit.families": ("FAMILIES", "Family"),
    "letterfit.findings": ("Finding",),
    "letterfit.fit.breaking": ("Breaks",),
    "letterfit.fit.joined": ("JoinedBalloon",),
    "letterfit.fit.model": ("FittedBalloon", "Line", "Overflow"),
    "letterfit.geometry": ("Insets", "MM_PER_PT", "Point", "Rect"),
    "letterfit.joined_outline": ("Joined",),
    "letterfit.joining": ("fit_joined",),
    "letterfit.lettering.breaks.prices": ("BreakPrices",),
    "letterfit.lettering.breaks.rules": ("BreakRules",),
    "letterfit.lettering.fonts.alphabets": ("NearLanguage",),
    "letterfit.lettering.fonts.choice": ("FontChoice",),
    "letterfit.lettering.fonts.contents": ("Axis", "FileFace", "Instance"),
    "letterfit.lettering.fonts.embedding": ("Embedding", "Licence"),
    "letterfit.lettering.fonts.face": ("Face",),
    "letterfit.lettering.fonts.facts": ("FontFacts", "font_facts"),
    "letterfit.lettering.fonts.typeface": ("Typeface", "open_typeface"),
    "letterfit.lettering.settings": ("Lettering",),
    "letterfit.lettering.style.habits": ("Habits",),
    "letterfit.lettering.words": ("Glyph",),
    "letterfit.outline": ("CaptionBox", "Ellipse", "Outline", "RoundedRect", "Superellipse"),
    "letterfit.output.balloon_json": ("balloon_to_json",),
    "letterfit.output.cuts_schema": ("cuts_schema",),
    "letterfit.output.fonts_json": ("fonts_to_json",),
    "letterfit.output.html.document": ("to_html",),
    "letterfit.output.joined_json": ("joined_to_json",),
    "letterfit.output.lines_json": ("to_json_line", "to_json_lines"),
    "letterfit.output.measures_json": ("comparison_to_json", "measures_to_json"),
    "letterfit.output.measures_schemas": ("comparison_schema", "measures_schema"),
    "letterfit.output.page_plan_json": ("page_plan_to_json", "page_plans_to_json"),
    "letterfit.output.pdf.proof": ("to_pdf",),
    "letterfit.output.plan_schemas": ("page_plans_schema", "plans_schema", "tiers_schema"),
    "letterfit.output.plans_json": ("plans_to_json",),
    "letterfit.output.report_csv": ("to_csv",),
    "letterfit.output.report_json": ("to_json",),
    "letterfit.output.report_schema": ("lines_schema", "report_schema"),
    "letterfit.output.script_json": ("script_to_json",),
    "letterfit.output.svg.balloon_file": ("balloon_to_svg",),
    "letterfit.output.svg.figures": ("figures_to_svg",),
    "letterfit.output.svg.joined_file": ("joined_to_svg",),
    "letterfit.output.svg.page": ("to_svg",),
    "letterfit.output.svg.plan_page": ("page_plan_to_svg",),
    "letterfit.output.table_csv": ("table_to_csv",),
    "letterfit.output.table_json": ("table_to_json",),
    "letterfit.output.terminal.balloon": ("balloon_to_text",),
    "letterfit.output.terminal.fonts": ("fonts_to_text",),
    "letterfit.output.terminal.joined": ("joined_to_text",),
    "letterfit.output.terminal.measures": ("comparison_to_text", "measures_to_text"),
    "letterfit.output.terminal.plan": ("page_plans_to_text",),
    "letterfit.output.terminal.report": ("to_text",),
    "letterfit.output.terminal.script": ("script_to_text",),
    "letterfit.output.terminal.table": ("table_to_text",),
    "letterfit.output.terminal.tiers": ("tiers_to_text",),
    "letterfit.output.tiers_json": ("tiers_to_json",),
    "letterfit.paper.model": ("PagePlan", "PlannedPanel", "Plans", "Tier"),
    "letterfit.paper.notation": ("parse_tiers", "write_tiers"),
    "letterfit.paper.plan": ("plan_page",),
    "letterfit.paper.read_plans": ("parse_plans",),
    "letterfit.paper.shapes": ("InsetShape", "PageShape", "PanelShape", "StackShape", "TierShape"),
    "letterfit.paper.sheet": ("Paper",),
    "letterfit.paper.write_plans": ("plans_to_toml",),
    "letterfit.place.check_proofs": ("check_proof",),
    "letterfit.place.checker": ("check_layout",),
    "letterfit.place.model": (
        "PanelLayout",
        "PlacedOutline",
        "Proof",
        "Reading",
        "Speaker",
        "Tail",
    ),
    "letterfit.place.order": ("reads_in_order",),
    "letterfit.place.solver": ("PanelTask", "place_outlines", "place_panels"),
    "letterfit.report.catalogue": (
        "ScriptBegun",
        "ScriptEnded",
        "ScriptRefused",
        "preflight_many",
        "preflight_stream",
    ),
    "letterfit.report.comparing": ("PageComparison", "compare_pages", "measure_page"),
    "letterfit.report.house_rules": ("parse_limits",),
    "letterfit.report.laid": ("LaidPage", "plan_script"),
    "letterfit.report.limits": ("Limits",),
    "letterfit.report.manner": ("Outlines",),
    "letterfit.report.measures": (
        "BalloonMeasures",
        "LetteringFault",
        "PageMeasures",
        "PanelMeasures",
        "TierMeasures",
    ),
    "letterfit.report.model": (
        "BalloonReport",
        "EffectReport",
        "FigureRemedy",
        "PageReport",
        "PanelOverflow",
        "PanelReport",
        "ScriptReport",
    ),
    "letterfit.report.pace": (
        "Pace",
        "PagePace",
        "SilentRun",
        "SpeakerShare",
        "TierPace",
        "Typical",
        "pace_of",
    ),
    "letterfit.report.panel_cut": ("least_panel_cut",),
    "letterfit.report.preflighting": ("PreflightSettings",),
    "letterfit.script.model": ("Dialogue", "Script", "ScriptPage", "ScriptPanel"),
    "letterfit.script.parse": ("parse_script",),
    "letterfit.script.sources": ("parse_script_bytes", "read_script"),
    "letterfit.shown": ("SideBySide",),
    "letterfit.stages": ("preflight",),
    "letterfit.table.fitting": ("fit_table",),
    "letterfit.table.model": ("CommonSize", "FittedRow", "FittedTable", "TextRow"),
    "letterfit.table.reading": ("parse_table", "read_table"),
    "letterfit.tiers.advise": ("advise_tiers", "tier_advice"),
    "letterfit.tiers.model": ("TierAdvice", "TierLimits"),
}
"""Where each public name is made: a module is imported when one of its names is asked for."""

_HOME = {name: module for module, names in HOMES.items() for name in names}

__all__ = [*sorted(_HOME)]  # noqa: PLE0604 - made of the names above, all strings


def __getattr__(name: str) -> object:
    """A public name, imported when it is first asked for (PEP 562)."""
    if name not in _HOME:
        msg = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(msg)
    value: object = getattr(import_module(_HOME[name]), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    """The public names, those too that nobody asked for yet."""
    return sorted({*globals(), *__all__})
