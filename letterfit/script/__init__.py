"""Typed scripts in, `Script` values out: text or .docx, in eight languages."""

from letterfit.script.model import Dialogue, Kind, Script, ScriptPage, ScriptPanel
from letterfit.script.parse import parse_script
from letterfit.script.sources import parse_script_bytes, read_script

__all__ = [
    "Dialogue",
    "Kind",
    "Script",
    "ScriptPage",
    "ScriptPanel",
    "parse_script",
    "parse_script_bytes",
    "read_script",
]
