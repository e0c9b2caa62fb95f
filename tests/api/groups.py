"""The public names in the order in which a book comes about, for whoever reads the reference."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Group:
    """Names that belong together.

    Args:
        title: What they are about, in a word or two.
        says: What is done with them, in one sentence.
        names: The names, those to begin with first.
    """

    title: str
    says: str
    names: tuple[str, ...]


def group(title: str, says: str, names: str) -> Group:
    """A group, its names parted by spaces."""
    return Group(title, says, tuple(names.split()))


GROUPS = (
    group(
        "Script",
        "A script as it was typed becomes pages, panels and what is lettered in them.",
        "read_script parse_script parse_script_bytes Script ScriptPage ScriptPanel Dialogue",
    ),
    group(
        "Paper and plans",
        "Where the panels of a page stand: paper, tiers, and plans as text.",
        "Paper parse_plans parse_tiers write_tiers plans_to_toml plan_script plan_page LaidPage"
        " PagePlan Tier PlannedPanel Plans PageShape TierShape PanelShape StackShape InsetShape",
    ),
    group(
        "Report",
        "The whole way in one call, and what came of it, panel by panel.",
        "preflight preflight_many preflight_stream PreflightSettings ScriptBegun ScriptEnded"
        " ScriptRefused ScriptReport PageReport PanelReport BalloonReport EffectReport"
        " PanelOverflow FigureRemedy Outlines Limits parse_limits pace_of Pace PagePace TierPace"
        " Typical SilentRun SpeakerShare",
    ),
    group(
        "Output",
        "A report as text, JSON, CSV, SVG, HTML and PDF; a script as text and JSON; notebooks.",
        "to_text to_json to_json_lines to_json_line to_csv to_html to_pdf to_svg figures_to_svg"
        " script_to_text script_to_json"
        " page_plans_to_text page_plans_to_json page_plan_to_json page_plan_to_svg plans_to_json"
        " report_schema lines_schema plans_schema page_plans_schema SideBySide",
    ),
    group(
        "Lettering",
        "How words are set: the trade's habits, breaks of lines, and fonts.",
        "Lettering Habits BreakRules BreakPrices open_typeface FontChoice Typeface Face font_facts"
        " FontFacts FileFace Axis Instance NearLanguage Licence Embedding fonts_to_text"
        " fonts_to_json",
    ),
    group(
        "Fit",
        "A text in the balloon that suits it best, or in a given one.",
        "fit_balloon fit_into fit_balloons balloon_front Breaks FittedBalloon Line Glyph Overflow"
        " balloon_to_text balloon_to_json balloon_to_svg",
    ),
    group(
        "Joined balloons",
        "One speech in two balloons that share one outline.",
        "fit_joined JoinedBalloon Joined joined_to_text joined_to_json joined_to_svg",
    ),
    group(
        "Tables of texts",
        "Many texts, each in its own outline: what a translator has.",
        "read_table parse_table fit_table TextRow FittedTable FittedRow CommonSize table_to_text"
        " table_to_csv table_to_json",
    ),
    group(
        "Outlines",
        "The shapes that a balloon may have.",
        "FAMILIES Family Outline Ellipse Superellipse RoundedRect CaptionBox Cloud Burst Whisper",
    ),
    group(
        "Place",
        "Outlines in a panel: where each stands, in what order they read, what figure stays clear.",
        "place_outlines place_panels PanelTask PanelLayout PlacedOutline Speaker Tail Reading Proof"
        " check_layout check_proof reads_in_order",
    ),
    group(
        "Cuts",
        "What to take out of a text that is too long, and the least that must go.",
        "suggest_cuts least_cut least_panel_cut Cut LeastCut LeastWords Giving Proposal"
        " cuts_schema",
    ),
    group(
        "Tier advice",
        "The grid of a page, changed least, so that every panel holds its figure.",
        "advise_tiers tier_advice TierAdvice TierLimits tiers_to_text tiers_to_json tiers_schema",
    ),
    group(
        "Pages that exist",
        "A page drawn in SVG, measured in the figures of a planned one, and two pages compared.",
        "read_drawn_page parse_drawn_page DrawnPage DrawnPanel DrawnBalloon DrawnLettering"
        " DrawnLine Region measure_page PageMeasures TierMeasures PanelMeasures BalloonMeasures"
        " LetteringFault compare_pages PageComparison measures_to_text measures_to_json"
        " comparison_to_text comparison_to_json measures_schema comparison_schema",
    ),
    group(
        "Errors and findings",
        "Input that cannot be used is an error; everything else worth knowing is a value.",
        "Finding LetterfitError ScriptError FontError PageError OutlineError TableError"
        " DrawingError",
    ),
    group(
        "Geometry",
        "Points and rectangles in millimetres, y downwards.",
        "Point Rect Insets MM_PER_PT",
    ),
)
