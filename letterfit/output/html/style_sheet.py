"""The style sheet: screen and paper, light and dark, wide and narrow."""

from letterfit.output.html.colours import DARK, LIGHT, variables

_SCREEN = """\
* { box-sizing: border-box; }
html { scroll-padding-top: 1rem; }
body { margin: 0 auto; padding: 1rem clamp(.75rem, 2vw, 2.5rem) 3rem; max-width: 110rem;
  background: var(--ground); color: var(--text);
  font: 1rem/1.5 system-ui, sans-serif; overflow-wrap: anywhere; }
h1, h2, h3, h4 { line-height: 1.25; margin: 0 0 .5rem; }
h1 { font-size: 1.9rem; }
h2 { font-size: 1.4rem; }
h3 { font-size: 1.05rem; }
h4 { font-size: 1rem; }
p { margin: 0 0 .6rem; }
a { color: var(--link); }
a:focus-visible, summary:focus-visible { outline: 3px solid var(--link); outline-offset: 2px; }
main:focus { outline: none; }
section { margin-top: 2.5rem; }
.skip { position: absolute; left: -99rem; }
.skip:focus { left: 1rem; top: .5rem; padding: .3rem .8rem; background: var(--ground); z-index: 2; }
.shapes { position: absolute; width: 0; height: 0; }
.quiet { color: var(--quiet); }
.fits { color: var(--fits); }
.doubt { color: var(--doubt); }
.fails { color: var(--fails); }
.mark { width: .72em; height: .72em; fill: currentColor; }
.mark .cross { fill: none; stroke: currentColor; stroke-width: 2.4; }
.state { white-space: nowrap; font-weight: 400; }
.verdict { font-size: 1.25rem; font-weight: 600; margin-bottom: .2rem; }
nav ul { display: flex; flex-wrap: wrap; gap: .4rem; margin: 1rem 0 0; padding: 0;
  list-style: none; }
nav a { display: block; padding: .25rem .7rem; background: var(--raised); border-radius: .4rem;
  border: 1px solid var(--line); text-decoration: none; }
nav a:hover { text-decoration: underline; }
.todo-list { margin: 0; padding-left: 1.8rem; max-width: 52rem; }
.todo-list li { margin-bottom: .7rem; }
.todo { display: block; font-weight: 600; }
.findings .todo { display: inline; }
.page { border-top: 1px solid var(--line); padding-top: 1.5rem; }
.sheet { margin: 0 0 1.5rem; position: relative; width: 100%; max-width: calc(var(--width) * 1mm);
  border: 1px solid var(--line); }
.sheet svg { display: block; width: 100%; }
.sheet .links { position: absolute; inset: 0; height: 100%; }
.links rect { fill: transparent; stroke: none; cursor: pointer; }
.links a:hover rect, .links a:focus rect, .links a:target rect { stroke: #155e75;
  stroke-width: 1.2; }
.links a:focus-visible { outline: none; }
.balloon:target .outline { stroke: #155e75; stroke-width: 1; }
.scroll { overflow-x: auto; margin-bottom: 1.5rem; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: 600; padding-bottom: .3rem; }
th, td { padding: .2rem .8rem .2rem 0; text-align: left; vertical-align: baseline; }
thead th { color: var(--quiet); font-weight: 400; border-bottom: 1px solid var(--line); }
tbody th { font-weight: 600; }
th, td, caption { overflow-wrap: normal; }
.number { text-align: right; white-space: nowrap; }
article { border-top: 1px solid var(--line); padding: .9rem 0 .6rem; }
article:target { background: var(--raised); box-shadow: -.7rem 0 0 var(--raised),
  .7rem 0 0 var(--raised); }
.panel-head { display: flex; flex-wrap: wrap; column-gap: 1.2rem; align-items: baseline; }
.panel-head p { margin: 0 0 .4rem; }
.description { color: var(--quiet); font-style: italic; }
.findings, .speeches { list-style: none; margin: 0 0 .6rem; padding: 0; }
.findings li + li { margin-top: .35rem; }
.speeches .findings { margin: .25rem 0 .5rem; }
.speeches > li { padding: .15rem 0 .15rem 5rem; position: relative; }
.speeches > li:target { background: var(--raised); }
.speeches .line { position: absolute; left: 0; }
.said:dir(rtl), .left:dir(rtl) { display: block; width: fit-content; }
.cut { margin: 0 0 .8rem; padding-left: .9rem; border-left: 3px solid var(--line); }
.cut p { margin-bottom: .2rem; }
.left { font-weight: 600; }
.cuts h4, .cuts h3 { margin-top: 1rem; }
.cuts .head { margin: .8rem 0 .2rem; }
del { color: var(--fails); text-decoration: line-through 2px; }
.bar { width: 8rem; height: .7rem; fill: currentColor; }
.bar .limit { stroke: currentColor; stroke-width: 1.5; fill: none; }
.legend dt { font-weight: 600; }
.legend dd { margin: 0 0 .7rem; }
.sample { width: 3rem; height: 2rem; vertical-align: middle; border: 1px solid var(--line); }
footer { margin-top: 2.5rem; border-top: 1px solid var(--line); padding-top: 1rem;
  color: var(--quiet); max-width: 60rem; }
"""

_NARROW = """\
@media (max-width: 40rem) {
  th, td { padding-right: .4rem; font-size: .75rem; }
  td .state, thead .number { white-space: normal; }
  .bar { width: 4rem; }
  .speeches > li { padding-left: 0; }
  .speeches .line { position: static; }
}
"""

_WIDE = """\
@media screen and (min-width: 64rem) {
  .spread:not(.wide) { display: grid; grid-template-columns: auto minmax(0, 1fr); gap: 2.5rem;
    align-items: start; }
  .spread:not(.wide) .sheet { --across: min(46vw, 96vh * var(--ratio), var(--width) * 1.25mm);
    position: sticky; top: 1rem; width: var(--across); max-width: none; }
  .spread:not(.wide) .links a { scroll-margin-top: calc(var(--across) * var(--top) / 100); }
}
"""

_PRINT = """\
@media print {
  @page { margin: 10mm; }
  body { padding: 0; max-width: none; font-size: 10pt; }
  nav, .skip, .sheet .links, .back { display: none; }
  a { color: inherit; text-decoration: none; }
  .page { break-before: page; border: 0; padding: 0; margin: 0; }
  .sheet { break-after: page; break-inside: avoid; border: 0; margin: 0;
    width: min(100%, var(--width) * 1mm, 88vh * var(--ratio)); }
  tr, li, .legend, .cut, article:not(:has(.cuts)) { break-inside: avoid; }
  h2, h3, h4, caption, thead, .panel-head, .description, .head, .way { break-after: avoid; }
}
"""


def style_sheet() -> str:
    """The whole style sheet; colours are light on paper, on a screen as its reader prefers."""
    dark = (
        f"@media screen and (prefers-color-scheme: dark) {{\n  :root {{ {variables(DARK)} }}\n}}\n"
    )
    light = f":root {{ color-scheme: light dark; {variables(LIGHT)} }}\n"
    return light + dark + _SCREEN + _NARROW + _WIDE + _PRINT
