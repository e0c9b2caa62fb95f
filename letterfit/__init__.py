"""Letterfit: does a comics script's lettering fit its pages?

The public names and nothing else. Lengths are millimetres, y downwards; type sizes are points.
"""

from letterfit.cuts import Cut, LeastCut, Proposal, least_cut, suggest_cuts
from letterfit.drawn import Burst, Cloud, Whisper
from letterfit.errors import (
    FontError,
    LetterfitError,
    OutlineError,
    PageError,
    ScriptError,
    TableError,
)
from letterfit.families import FAMILIES
from letterfit.findings import Finding
from letterfit.fit import Breaks, FittedBalloon, Line, Overflow
from letterfit.fit.joined import JoinedBalloon
from letterfit.geometry import MM_PER_PT, Insets, Point, Rect
from letterfit.joined_outline import Joined
from letterfit.joining import fit_joined
from letterfit.lettering import (
    BreakPrices,
    BreakRules,
    FontChoice,
    FontFacts,
    Habits,
    Lettering,
    Typeface,
    font_facts,
    open_typeface,
)
from letterfit.outline import (
    CaptionBox,
    Ellipse,
    Outline,
    RoundedRect,
    Superellipse,
)
from letterfit.output import (
    balloon_to_json,
    balloon_to_svg,
    balloon_to_text,
    fonts_to_json,
    fonts_to_text,
    joined_to_json,
    joined_to_svg,
    joined_to_text,
    report_schema,
    script_to_text,
    table_to_csv,
    table_to_json,
    table_to_text,
    to_json,
    to_svg,
    to_text,
)
from letterfit.output.script_json import script_to_json
from letterfit.paper import PagePlan, Paper, Plans, Tier, parse_plans, plan_page
from letterfit.place import (
    PanelLayout,
    PanelTask,
    PlacedOutline,
    Proof,
    Reading,
    Speaker,
    Tail,
    check_layout,
    place_outlines,
    place_panels,
)
from letterfit.place.check_proofs import check_proof
from letterfit.place.order import reads_in_order
from letterfit.report import (
    BalloonReport,
    Limits,
    Outlines,
    PageReport,
    PanelReport,
    ScriptReport,
)
from letterfit.script import (
    Dialogue,
    Script,
    ScriptPage,
    ScriptPanel,
    parse_script,
    parse_script_bytes,
    read_script,
)
from letterfit.stages import balloon_front, fit_balloon, fit_balloons, fit_into, preflight
from letterfit.table import (
    CommonSize,
    FittedRow,
    FittedTable,
    TextRow,
    fit_table,
    parse_table,
    read_table,
)
from letterfit.version import VERSION

__version__ = VERSION

__all__ = [
    "FAMILIES",
    "MM_PER_PT",
    "BalloonReport",
    "BreakPrices",
    "BreakRules",
    "Breaks",
    "Burst",
    "CaptionBox",
    "Cloud",
    "CommonSize",
    "Cut",
    "Dialogue",
    "Ellipse",
    "Finding",
    "FittedBalloon",
    "FittedRow",
    "FittedTable",
    "FontChoice",
    "FontError",
    "FontFacts",
    "Habits",
    "Insets",
    "Joined",
    "JoinedBalloon",
    "LeastCut",
    "LetterfitError",
    "Lettering",
    "Limits",
    "Line",
    "Outline",
    "OutlineError",
    "Outlines",
    "Overflow",
    "PageError",
    "PagePlan",
    "PageReport",
    "PanelLayout",
    "PanelReport",
    "PanelTask",
    "Paper",
    "PlacedOutline",
    "Plans",
    "Point",
    "Proof",
    "Proposal",
    "Reading",
    "Rect",
    "RoundedRect",
    "Script",
    "ScriptError",
    "ScriptPage",
    "ScriptPanel",
    "ScriptReport",
    "Speaker",
    "Superellipse",
    "TableError",
    "Tail",
    "TextRow",
    "Tier",
    "Typeface",
    "Whisper",
    "balloon_front",
    "balloon_to_json",
    "balloon_to_svg",
    "balloon_to_text",
    "check_layout",
    "check_proof",
    "fit_balloon",
    "fit_balloons",
    "fit_into",
    "fit_joined",
    "fit_table",
    "font_facts",
    "fonts_to_json",
    "fonts_to_text",
    "joined_to_json",
    "joined_to_svg",
    "joined_to_text",
    "least_cut",
    "open_typeface",
    "parse_plans",
    "parse_script",
    "parse_script_bytes",
    "parse_table",
    "place_outlines",
    "place_panels",
    "plan_page",
    "preflight",
    "read_script",
    "read_table",
    "reads_in_order",
    "report_schema",
    "script_to_json",
    "script_to_text",
    "suggest_cuts",
    "table_to_csv",
    "table_to_json",
    "table_to_text",
    "to_json",
    "to_svg",
    "to_text",
]
