"""Typed scripts in, `Script` values out: text or .docx, in eight languages."""
