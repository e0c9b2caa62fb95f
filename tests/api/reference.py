"""The API reference as one HTML page, from the docstrings: `python -m tests.api.reference FOLDER`.

pdoc reads the docstrings as they are, Google's sections with Markdown in the prose, and links every
name in backticks and every type of a signature; a warning of it is an error here, and `page.faults`
goes over what comes out. The page follows `groups.py`, not the modules that names happen to be in.
"""

import inspect
import sys
import warnings
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pdoc
import pdoc.render_helpers
from markupsafe import Markup

import letterfit
from tests.api import page
from tests.api.docstrings import PUBLIC
from tests.api.fields import with_fields
from tests.api.groups import GROUPS, Group
from tests.api.reading import constant_docstring, members

TEMPLATE = Path(__file__).parent / "template"


def named(name: str) -> type:
    """A type that stands for numpy's alias of that name, which is long when it is spelled out."""
    return type(name, (), {"__module__": "numpy.typing"})


SHORT = {npt.ArrayLike: named("ArrayLike"), npt.NDArray[np.float64]: named("NDArray[float64]")}


class Made:
    """Stands for a default that is made anew, or is a function: its name would say nothing."""

    def __repr__(self) -> str:
        return "..."


def anchor(group: Group) -> str:
    """The id of a group's heading."""
    return "group-" + group.title.lower().replace(" ", "-")


def public_bases(cls: pdoc.doc.Class) -> list[str]:
    """The nearest public class that a class is one of, if there is one."""
    return [base.__name__ for base in cls.obj.__mro__[1:] if base in PUBLIC.values()][:1]


def inherited(cls: pdoc.doc.Class) -> list[str]:
    """What a class has from its public bases, by the place where it is told."""
    bases = [base for base in cls.obj.__mro__[1:] if base in PUBLIC.values()]
    own = set(vars(cls.obj))
    return [f"{b.__name__}.{name}" for b in bases for name, _ in members(b) if name not in own]


def short_signature(signature: inspect.Signature, *, colon: bool) -> Markup:
    """A signature with numpy's aliases by their names."""
    given = [
        each.replace(
            annotation=SHORT.get(each.annotation, each.annotation),
            default=Made() if repr(each.default).startswith("<f") else each.default,
        )
        for each in signature.parameters.values()
    ]
    result = SHORT.get(signature.return_annotation, signature.return_annotation)
    short = signature.replace(parameters=given, return_annotation=result)
    return pdoc.render_helpers.format_signature(short, colon)


def build(folder: Path) -> str:
    """Write the reference into a folder; a warning on the way is raised."""
    pdoc.render.configure(
        docformat="google", show_source=False, search=False, template_directory=TEMPLATE
    )
    for extra in ("header-ids", "toc"):  # every "Raises:" would have the same id
        pdoc.render_helpers.markdown_extensions.pop(extra, None)
    pdoc.render.env.globals["groups"] = GROUPS
    for function in (anchor, public_bases, inherited):
        pdoc.render.env.filters[function.__name__] = function
    pdoc.render.env.filters["format_signature"] = short_signature
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        module = pdoc.doc.Module(letterfit)
        for name, member in module.members.items():
            if isinstance(member, pdoc.doc.Variable):
                member.docstring = constant_docstring(name)
        html = with_fields(pdoc.render.html_module(module, {"letterfit": module}))
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "letterfit.html").write_text(html, encoding="utf-8")
    return html


if __name__ == "__main__":
    found = list(page.faults(build(Path(sys.argv[1])), tuple(PUBLIC)))
    sys.exit("\n".join(found) or 0)
