"""Which templates a pack has and on how many pages they come, told before any page is laid out."""

from msgspec.structs import replace

from creasewright.booklet.context import PackContext
from creasewright.booklet.kit_templates import kit_templates
from creasewright.booklet.tiling.template import Template
from creasewright.booklet.tiling.tile_templates import layouts_of
from creasewright.booklet.tiling.window import Joining, PageSize, Window, window_of
from creasewright.units.printer import white_of


def pack_templates(context: PackContext) -> tuple[Template, ...]:
    """Empty where the layout leaves the templates out."""
    section = next((each for each in context.layout.sections_on if each.key == "templates"), None)
    return kit_templates(replace(context, section=section)) if section is not None else ()


def tile_page_size(context: PackContext) -> PageSize:
    """The page as templates are laid out on it: as it shall come out of the printer."""
    width, height = context.page.width, context.page.height
    return PageSize(width, height, white_of(context.printer, width, height))


def template_page_count(context: PackContext) -> int:
    templates = pack_templates(context)
    return sum(len(layout.printed) for layout in layouts_of(templates, template_window(context))) if templates else 0


def template_window(context: PackContext) -> Window:
    """Raises ProblemsFound where no page is left."""
    joining = Joining(context.wishes.joining, float(context.wishes.overlap.mm(context.system)))
    return window_of(tile_page_size(context), joining)


def template_prefix(context: PackContext) -> str:
    """What the numbers of template pages begin with: `T-`."""
    return next((each.numbered for each in context.layout.sections_on if each.key == "templates"), "")
