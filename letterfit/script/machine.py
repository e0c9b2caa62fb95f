"""The state machine of the parse: events come in, pages go out, and every line finds its place.

Three things may be open: a page, a panel in it, a speech in that. What an event does:

=============  ==============================================================================
event          what it does
=============  ==============================================================================
PageHeading    closes all three, opens a page (and a panel, if the heading names one)
PanelHeading   closes speech and panel, opens a panel; what stands behind it is description,
               unless it is lettered
Spoken         closes the speech, opens the next
Prose          goes on with the speech, else describes the panel, else is typed on the page,
               else is front matter
Bracketed      within a speech a direction or a beat, else prose
Numbered       "1." or "4.1": opens a panel where that number is due, else prose
Silence, Plan  are noted
Blank, Rule    close a speech that has words; one without (a name alone) waits for them
=============  ==============================================================================
"""

from collections import Counter
from typing import TYPE_CHECKING

from letterfit.script import notices
from letterfit.script.account import Place
from letterfit.script.cast import Cast
from letterfit.script.drafts import PageDraft, PanelDraft, SpeechDraft
from letterfit.script.events import (
    Blank,
    Bracketed,
    Event,
    Numbered,
    PlanLine,
    Prose,
    Rule,
    Silence,
    Spoken,
    Unnamed,
)
from letterfit.script.headings import PageHeading, PanelHeading
from letterfit.script.model import ScriptPage
from letterfit.script.speech import perhaps_speaker
from letterfit.script.spoken import label_of, spoken_line

if TYPE_CHECKING:
    from letterfit.findings import Finding


class Machine:
    """Reads events in order; `finish` gives the pages.

    Args:
        cast: The script's names.
        has_pages: Whether the script has page headings; without them a page is supposed.
    """

    def __init__(self, *, cast: Cast, has_pages: bool) -> None:
        self.cast = cast
        self.has_pages = has_pages
        self.front: list[str] = []
        self.pages: list[ScriptPage] = []
        self.findings: list[Finding] = []
        self.languages: Counter[str] = Counter()
        self._page: PageDraft | None = None
        self._panel: PanelDraft | None = None
        self._speech: SpeechDraft | None = None

    @property
    def page_numbers(self) -> tuple[int, ...]:
        """The numbers of the open page; empty before the first."""
        return self._page.page.numbers if self._page is not None else ()

    @property
    def _where(self) -> str:
        return "-".join(map(str, self.page_numbers))

    def take(self, event: Event, line: int) -> Place:
        """Let an event happen; where its line went."""
        match event:
            case Blank() | Rule():
                return self._pause(event)
            case PageHeading():
                return self._open_page(event, line)
            case PanelHeading():
                return self._open_panel(event, line)
            case Numbered():
                return self._numbered(event, line)
            case _ if self._page is None:
                return self._front_matter(event, line)
        return self._take_on_page(event, line)

    def _take_on_page(
        self, event: Spoken | Unnamed | Silence | PlanLine | Bracketed | Prose, line: int
    ) -> Place:
        match event:
            case Spoken():
                return self._open_speech(event, line)
            case Unnamed():
                return self._open_speech(self._by_the_last_speaker(event), line)
            case Silence():
                return self._silence(event, line)
            case PlanLine():
                return self._plan(event, line)
            case Bracketed():
                return self._bracketed(event, line)
            case Prose():
                return self._prose(event, line)

    def finish(self) -> tuple[ScriptPage, ...]:
        """Close what is open; all pages."""
        self._close_page()
        return tuple(self.pages)

    # Headings

    def _open_page(self, event: PageHeading, line: int) -> Place:
        self.languages.update(event.languages)
        same = event.numbers == self.page_numbers and event.panel is not None
        if not same:
            self._close_page()
            self._start_page(event, line)
        if event.panel is not None:
            self._open_panel(event.panel, line)
        elif event.rest:
            self._behind_heading(event.rest, line)
        return "heading"

    def _start_page(self, event: PageHeading, line: int) -> None:
        page = ScriptPage(
            numbers=event.numbers,
            line=line,
            spread=event.spread,
            stated_panel_count=event.panel_count,
        )
        self._page = PageDraft(page, event.splash, PanelDraft(1, line))

    def _suppose_page(self, number: int, line: int) -> None:
        self._start_page(PageHeading(numbers=(number,)), line)
        self.findings.append(notices.page_supposed(number, line=line))

    def _open_panel(self, event: PanelHeading, line: int) -> Place:
        self.languages.update(event.languages)
        if self._page is None:
            self._suppose_page(1, line)
        self._start_panel(event.number, line)
        if event.rest:
            self._behind_heading(event.rest, line)
        return "heading"

    def _start_panel(self, number: int | str | None, line: int) -> None:
        self._close_speech()
        if self._page is None:
            return
        draft = PanelDraft(len(self._page.panels) + 1 if number is None else number, line)
        if not self._page.panels and self._page.loose.elements:
            first = self._page.loose.elements[0].line
            self.findings.append(notices.lettering_before_panel(self._where, line=first))
        self._page.panels.append(draft)
        self._panel = draft

    def _numbered(self, event: Numbered, line: int) -> Place:
        """A bare "1." or "4.1" is a panel where panels are so typed and this number is due."""
        if self._page is None and event.page is not None and event.number == 1:
            if self.has_pages:
                return self._front_matter(event.prose, line)
            self._suppose_page(event.page, line)
        elif self._page is not None and self._begins_bare_page(event):
            self._close_page()
            self._suppose_page(event.page or 1, line)
        page = self._page
        if page is None:
            return self._front_matter(event.prose, line)
        if event.number != self._due(page) or event.page not in {None, *page.page.numbers}:
            return self._prose(event.prose, line)
        self._start_panel(event.typed, line)
        page.bare = event.number
        if event.rest:
            self._behind_heading(event.rest, line)
        return "heading"

    def _begins_bare_page(self, event: Numbered) -> bool:
        """Whether "5.1" comes after "4.3" in a script without page headings."""
        if self.has_pages or event.page is None or self._page is None:
            return False
        return event.number == 1 and event.page == self.page_numbers[-1] + 1

    def _due(self, page: PageDraft) -> int | None:
        """The bare number that would open the next panel; None where panels have keywords."""
        if not page.panels:
            return 1
        return None if page.bare is None else page.bare + 1

    def _behind_heading(self, text: str, line: int) -> None:
        spoken = spoken_line(text, cast=self.cast, behind_heading=True)
        if spoken is not None:
            self._open_speech(spoken, line)
        else:
            self._panel_or_loose().description.append(text.replace("\t", " "))

    # What is lettered

    def _open_speech(self, event: Spoken, line: int) -> Place:
        self._close_speech()
        label = label_of(event.typed, language=self.cast.language)
        self.languages.update(label.languages if label is not None else ())
        self._speech = SpeechDraft(event, line)
        return "lettering"

    def _by_the_last_speaker(self, event: Unnamed) -> Spoken:
        self._close_speech()
        elements = self._panel_or_loose().elements
        if not elements:
            return Spoken(kind="dialogue", words=event.words, index=event.index)
        last = elements[-1]
        return Spoken(
            kind=last.kind,
            speaker=last.speaker,
            modifiers=last.modifiers,
            index=event.index,
            words=event.words,
        )

    def _prose(self, event: Prose, line: int) -> Place:
        speech = self._speech
        if speech is not None and _goes_on(speech, event):
            speech.add(event.text, line)
            return "lettering"
        self._close_speech()
        self._panel_or_loose().description.append(event.text)
        if (name := perhaps_speaker(event.text, cast=self.cast)) is not None:
            self.findings.append(notices.perhaps_spoken(name, self._where, line=line))
        return "page" if self._panel is None else "description"

    def _bracketed(self, event: Bracketed, line: int) -> Place:
        if self._speech is not None and self._speech.hold(event):
            return "lettering"
        return self._prose(Prose(event.text), line)

    def _silence(self, event: Silence, line: int) -> Place:
        if self._speech is not None and event.text.strip(".!").islower():
            return self._prose(Prose(event.text), line)  # the last word of a speech: "silent."
        self._close_speech()
        self._panel_or_loose().notes.append(event.text)
        return "note"

    def _plan(self, event: PlanLine, line: int) -> Place:
        self._close_speech()
        draft = self._page
        if draft is None or draft.page.plan is not None:
            self.findings.append(notices.plan_twice(event.text, self._where, line=line))
            return "finding"
        draft.state_plan(event.plan, line)
        return "plan"

    def _pause(self, event: Blank | Rule) -> Place:
        if self._speech is not None and (self._speech.has_words or isinstance(event, Rule)):
            self._close_speech()
        return "blank" if isinstance(event, Blank) else "rule"

    # Before the first page

    def _front_matter(self, event: Event, line: int) -> Place:
        if isinstance(event, PlanLine):
            self.findings.append(notices.plan_outside_page(event.text, line=line))
        return "front matter"

    # Closing

    def _panel_or_loose(self) -> PanelDraft:
        if self._panel is not None:
            return self._panel
        if self._page is None:
            raise AssertionError("nothing is described before the first page")
        return self._page.loose

    def _close_speech(self) -> None:
        speech, self._speech = self._speech, None
        if speech is None:
            return
        balloons, left = speech.finish()
        panel = self._panel_or_loose()
        panel.elements += balloons
        panel.description += left
        if not balloons:
            name = speech.spoken.typed
            self.findings.append(notices.no_words(name, self._where, line=speech.line))

    def _close_page(self) -> None:
        self._close_speech()
        if self._page is not None:
            self.pages.append(self._page.finish())
        self._page = self._panel = None


def _goes_on(speech: SpeechDraft, prose: Prose) -> bool:
    """Whether prose right behind a speech is more of it."""
    if prose.described or speech.is_quoted_out:
        return False
    # In a screenplay the action goes back to the margin without a blank line.
    return not (speech.spoken.indent > prose.indent == 0 and speech.has_words)
