"""Write what is kept anew: `python -m tests.golden`; look at what differs before you commit it."""

from tests.golden.made import FOLDER, made

for name, text in made().items():
    (FOLDER / name).write_text(text, encoding="utf-8", newline="\n")
