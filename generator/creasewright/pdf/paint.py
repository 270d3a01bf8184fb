"""A document to a PDF file. Translates, decides nothing; the same document and digest give the same bytes.

Printing is asked for at true size, one-sided, on the paper of each page. The page's content is written by `content.py`; this
file keeps pages, forms, fonts and the file's own dictionaries (the only one, with `fonts.py`, that knows reportlab).
"""

from typing import BinaryIO
from zlib import compress

from reportlab import rl_config
from reportlab.pdfbase.pdfdoc import (
    PDFArray,
    PDFDictionary,
    PDFName,
    PDFPage,
    PDFStream,
    ViewerPreferencesPDFDictionary,
    checkPDFBoolean,
)
from reportlab.pdfgen.canvas import Canvas

from creasewright.booklet.drawing import Document, Form, Page, Photograph
from creasewright.pdf.assemble import MAKER, link_objects, metadata_object, structure_objects
from creasewright.pdf.content import ARTIFACT, PHOTOGRAPH, ContentStream, Inks, Shared, Sheet
from creasewright.pdf.fonts import FontRuler, font, font_name
from creasewright.pdf.page_labels import label_ranges
from creasewright.pdf.paths import PT_PER_MM, PathOperators
from creasewright.pdf.pdf_syntax import LITERAL_ESCAPES
from creasewright.pdf.tags import StructureTree

rl_config.useA85 = 0  # page streams stay binary: a fifth smaller
ViewerPreferencesPDFDictionary.validate = {
    **ViewerPreferencesPDFDictionary.validate,
    "PickTrayByPDFSize": checkPDFBoolean,
    "NumCopies": int,
    "Enforce": lambda value: value,
}
PAGE_ENTRIES = [*PDFPage.__NoDefault__, "StructParents", "Tabs"]
"""What a page dictionary may hold; the last two are ISO 32000-1, 14.7.4.4 and table 30."""

QUICK = 3
"""Level of compression of a page: half the time of the usual 6, for a file that is a twentieth larger."""


class _Flate:
    """A stream filter as reportlab asks for one."""

    pdfname = "FlateDecode"

    def encode(self, content: bytes) -> bytes:
        return compress(content, QUICK)


_FLATE = _Flate()


def paint(document: Document, out: BinaryIO, digest: bytes) -> None:
    """Writes the document. `digest` tells one input from another and becomes part of the file's identifier."""
    _Painter(document, digest).write(out)


class _Letters:
    """Text to strings of one document's font subsets; each text is looked up once."""

    def __init__(self, doc: object) -> None:
        self._doc = doc
        self._known: dict[tuple[str, str], tuple[tuple[str, str], ...]] = {}

    def __call__(self, text: str, face: str) -> tuple[tuple[str, str], ...]:
        known = self._known.get((text, face))
        if known is None:
            its_font = font(face)
            known = self._known[text, face] = tuple(
                (its_font.getSubsetInternalName(subset, self._doc), f"({codes.decode('latin-1').translate(LITERAL_ESCAPES)})")
                for subset, codes in its_font.splitString(text, self._doc)
            )
        return known


class _Painter:
    def __init__(self, document: Document, digest: bytes) -> None:
        font("Regular")
        self.document = document
        self.canvas = Canvas(
            "pack",
            pageCompression=1,
            invariant=1,
            initialFontName=font_name("Regular"),
            lang=document.language,
            pdfVersion=(1, 7),
        )
        self.doc = self.canvas._doc
        self.doc.updateSignature(digest)
        self.tree = StructureTree()
        form_names = {form.name: f"T{k}" for k, form in enumerate(document.forms)}
        self.shared = Shared(Inks(document.palette), _Letters(self.doc), PathOperators(), FontRuler(), form_names)
        self.targets: dict[str, int] = {}

    def write(self, out: BinaryIO) -> None:
        self._describe()
        for form in self.document.forms:
            self._form(form)
        if self.document.photograph is not None:
            self._photograph(self.document.photograph)
        for page in self.document.pages:
            self._page(page)
        self._tag()
        out.write(self.doc.GetPDFData(self.canvas))

    def _describe(self) -> None:
        canvas, document = self.canvas, self.document
        canvas.setTitle(document.title)
        canvas.setAuthor(document.author)
        canvas.setSubject(document.subject)
        canvas.setCreator(MAKER)
        canvas.setProducer(MAKER)
        for name, value in (
            ("PrintScaling", "None"),
            ("Duplex", "DuplexFlipLongEdge" if document.both_sides else "Simplex"),
            ("DisplayDocTitle", "true"),
            ("PickTrayByPDFSize", "true"),
            ("NumCopies", 1),
            ("Enforce", PDFArray([PDFName("PrintScaling")])),
        ):
            canvas.setViewerPreference(name, value)
        for labels in label_ranges(tuple(page.label for page in document.pages)):
            style = "ARABIC" if labels.start is not None else None
            canvas.addPageLabel(labels.index, style, labels.start, labels.prefix)

    def _form(self, form: Form) -> None:
        stream = ContentStream(self.shared, None, None)
        stream.draw(form.items, ARTIFACT)
        name = self.shared.form_names[form.name]
        self.canvas.beginForm(name, 0, 0, form.width * PT_PER_MM, form.height * PT_PER_MM)
        self.canvas.endForm()
        self.doc.idToObject[self.doc.getXObjectName(name)].stream = stream.finished()

    def _photograph(self, photograph: Photograph) -> None:
        """An image as it is: ISO 32000-1, 8.9.5."""
        entries = {
            "Type": "/XObject", "Subtype": "/Image", "Width": photograph.width, "Height": photograph.height,
            "ColorSpace": "/DeviceRGB", "BitsPerComponent": 8, "Filter": "/DCTDecode",
        }  # fmt: skip
        stream = PDFStream(PDFDictionary(entries), photograph.jpeg, filters=[])
        self.doc.Reference(stream, self.doc.getXObjectName(PHOTOGRAPH))

    def _page(self, page: Page) -> None:
        index = self.tree.new_page()
        stream = ContentStream(self.shared, Sheet(page.width, page.height, *page.stretch), self.tree)
        stream.draw(page.items, ARTIFACT)
        width, height = page.width * PT_PER_MM, page.height * PT_PER_MM
        self.canvas.setPageSize((width, height))
        for bookmark in page.bookmarks:
            if bookmark.key in self.targets:
                raise ValueError(f"two bookmarks {bookmark.key!r}")
            self.targets[bookmark.key] = index
            self.canvas.bookmarkPage(bookmark.key, fit="Fit")
            self.canvas.addOutlineEntry(bookmark.title, bookmark.key, level=bookmark.level)
            self.canvas.showOutline()
        self.canvas._formsinuse = stream.forms_used
        self.canvas.showPage()
        written = self.doc.idToObject[f"Page{index + 1}"]
        written.Contents = PDFStream(content=stream.finished(), filters=[_FLATE])
        written.CropBox = written.TrimBox = PDFArray([0, 0, width, height])

    def _tag(self) -> None:
        names = [f"Page{k + 1}" for k in range(len(self.document.pages))]
        numbers = [self._number(name) for name in names]
        unknown = sorted({link.key for link, _ in self.tree.links} - set(self.targets))
        if unknown:
            raise ValueError(f"links lead to bookmarks that no page has: {', '.join(unknown)}")
        links = [self._add(f"Link{k}", text) for k, text in enumerate(link_objects(self.tree, numbers, self.targets))]
        for index, name in enumerate(names):
            page = self.doc.idToObject[name]
            page.__NoDefault__ = PAGE_ENTRIES
            page.StructParents, page.Tabs = index, PDFName("S")
            page.Annots = [f"{links[link.index]} 0 R" for link, _ in self.tree.links if link.page == index]
        first = self.doc.objectcounter + 1
        for k, text in enumerate(structure_objects(self.tree, numbers, links, first)):
            self._add(f"Structure{k}", text)
        catalog = self.doc.Catalog
        catalog.StructTreeRoot = f"{first} 0 R"
        catalog.MarkInfo = PDFDictionary({"Marked": "true"})
        catalog.Metadata = f"{self._add('Metadata', metadata_object(self.document))} 0 R"

    def _add(self, name: str, content: bytes) -> int:
        self.doc.Reference(content, name)
        return self._number(name)

    def _number(self, name: str) -> int:
        return int(self.doc.idToObjectNumberAndVersion[name][0])
