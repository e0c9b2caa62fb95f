"""Notebooks as things to run and to read: each in a kernel of its own, without a network.

A first cell goes before those of the notebook: warnings that its code raises become errors, and so
does every connection and every name that is looked up (Python's audit events).
"""

import json
import os
from collections.abc import Iterator
from copy import deepcopy
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import nbformat
from nbclient import NotebookClient

FOLDER = Path(__file__).parents[2] / "notebooks"
PATHS = sorted(FOLDER.glob("*.ipynb"))
VERSION = 4

FIRST = """\
import sys
import warnings

warnings.filterwarnings("error", module=r"__main__|letterfit")


def _offline(event, arguments):
    if event in ("socket.connect", "socket.getaddrinfo", "socket.gethostbyname", "socket.sendto"):
        raise PermissionError(f"a notebook needs no network: {event}")


sys.addaudithook(_offline)
"""

Notebook = Any
"""A notebook as nbformat reads it, which gives no type."""


@dataclass(frozen=True, slots=True)
class Fault:
    """What went wrong in a cell: its source, the error's name and its message."""

    source: str
    name: str
    message: str


def read(path: Path) -> Notebook:
    """A notebook."""
    return nbformat.read(path, as_version=VERSION)


def code(notebook: Notebook) -> list[Any]:
    """Its cells of code."""
    return [cell for cell in notebook.cells if cell.cell_type == "code"]


def made_of(*sources: str) -> Notebook:
    """A notebook of some cells of code."""
    cells: list[dict[str, Any]] = [
        {
            "cell_type": "code",
            "execution_count": None,
            "id": f"made-{number}",
            "metadata": {},
            "outputs": [],
            "source": source,
        }
        for number, source in enumerate(sources)
    ]
    whole = {"cells": cells, "metadata": {}, "nbformat": VERSION, "nbformat_minor": 5}
    return nbformat.reads(json.dumps(whole), as_version=VERSION)


def run(notebook: Notebook, folder: Path) -> Notebook:
    """The notebook with its outputs, all cells tried.

    Args:
        notebook: The notebook, which stays as it is.
        folder: Where its kernel works.
    """
    ran = made_of(FIRST)
    ran.cells += deepcopy(notebook.cells)
    client = NotebookClient(
        ran, timeout=120, allow_errors=True, resources={"metadata": {"path": str(folder)}}
    )
    client.execute(env={**os.environ, "PYTHONPATH": str(FOLDER.parent)})
    ran.cells = ran.cells[1:]
    return ran


def faults(ran: Notebook) -> Iterator[Fault]:
    """Errors, and whatever was written to standard error, in a notebook that was run."""
    for cell in code(ran):
        for output in cell.outputs:
            if output.output_type == "error":
                yield Fault(cell.source, output.ename, output.evalue)
            elif output.output_type == "stream" and output.name == "stderr":
                yield Fault(cell.source, "stderr", output.text)
