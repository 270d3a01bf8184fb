"""What every section of a pack is made from. A section file has one function `build(context) -> Section | None` (None: nothing to show)."""

from msgspec import Struct, field

from creasewright.booklet.drawing import Photograph
from creasewright.booklet.text_ruler import TextRuler
from creasewright.cutting.plan import PaperPlan
from creasewright.fitting.worked import Worked
from creasewright.hands.error_table import HandErrors, hand_errors
from creasewright.problems import Finding
from creasewright.reading.page_layout import PageLayout, PageSize, SectionLayout
from creasewright.reading.settings import TemplateWishes, Tools
from creasewright.scoring.score_board import Board
from creasewright.units.printer import Printer


class PackContext(Struct, frozen=True):
    worked: Worked
    plans: tuple[PaperPlan, ...]
    """One for each paper that has pieces; `Piece.key` in them is the letter."""
    findings: tuple[Finding, ...]
    tools: Tools
    layout: PageLayout
    section: SectionLayout
    page: PageSize
    text: TextRuler
    words: dict[str, str]
    """The reader's words, from the words file of the layout: engine word to reader's word (`blank` to `piece`, `head` to `top` …)."""
    printer: Printer | None = None
    """The one printer that full-size drawings are made for; None: any that prints at 100 %."""
    wishes: TemplateWishes = field(default_factory=TemplateWishes)
    """What templates the maker asks for, and how their pages are joined."""
    photograph: Photograph | None = None
    """Of the finished thing, by its designer."""

    @property
    def system(self) -> str:
        """`in` or `mm`."""
        return self.worked.system

    @property
    def errors(self) -> HandErrors:
        """What the maker's hands err by."""
        return hand_errors({operation: length.mm(self.system) for operation, length in self.tools.hand_errors.items()})

    @property
    def board(self) -> Board:
        """The maker's score board."""
        tools, system = self.tools, self.system
        return Board(tools.grooves.mm(system), tools.board.mm(system), tuple(each.mm(system) for each in tools.spacers), tools.stop)

    def word_pairs(self) -> tuple[tuple[str, str], ...]:
        """All of the reader's words, to look things up by."""
        return tuple(self.words.items())

    def word(self, key: str) -> str:
        """The reader's word for one of the engine's; the engine's own where the table has none."""
        return self.words.get(key, key)
