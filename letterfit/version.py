"""The version, once: the package, its metadata and every report take it from here."""

VERSION = "0.1.0"
