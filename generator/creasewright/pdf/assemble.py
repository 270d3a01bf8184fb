"""What is added to the painted pages to make one tagged file: structure tree, links, metadata; as the bytes of PDF objects.

Each function is given the object numbers it refers to, and gives back objects in the order in which they are to be numbered.
Sources: ISO 32000-1, 14.7 (structure), 14.8 (tagged PDF), 12.5.6.5 (links), 14.3.2 (metadata).
"""

from collections.abc import Iterator, Sequence

from creasewright.booklet.drawing import Document
from creasewright.pdf.pdf_syntax import numbers, reference, text_string
from creasewright.pdf.tags import Content, Element, Link, StructureTree

MAKER = "Creasewright"
XML_ESCAPES = {ord("&"): "&amp;", ord("<"): "&lt;", ord(">"): "&gt;"}
"""All that text between tags needs (XML 1.0, 2.4)."""


def link_objects(tree: StructureTree, pages: Sequence[int], targets: dict[str, int]) -> tuple[bytes, ...]:
    """One annotation for each link of the tree. `targets` gives the page (from 0) of each bookmark key."""
    return tuple(
        (
            f"<< /Type /Annot /Subtype /Link /Rect [{numbers(link.box)}] /Border [0 0 0] /F 4 /P {reference(pages[link.page])}"
            f" /Dest [{reference(pages[targets[link.key]])} /Fit] /Contents {text_string(link.words)}"
            f" /StructParent {len(pages) + link.index} >>"
        ).encode("ascii")
        for link, _ in tree.links
    )


def structure_objects(tree: StructureTree, pages: Sequence[int], links: Sequence[int], first: int) -> tuple[bytes, ...]:
    """The structure tree root, its parent tree, then every element; numbered from `first` on.

    `pages` and `links` are the object numbers of pages and link annotations. Page i has the parent tree key i (its
    StructParents), link k the key len(pages) + k.
    """
    elements = list(_in_order(tree.root))
    number_of = {id(element): first + 2 + k for k, element in enumerate(elements)}
    parent_of = {id(kid): element for element in elements for kid in element.kids}
    root = (
        f"<< /Type /StructTreeRoot /K {reference(first + 2)} /ParentTree {reference(first + 1)}"
        f" /ParentTreeNextKey {len(pages) + len(links)} >>"
    )
    objects = [root, _parent_tree(tree, number_of, len(pages))]
    for element in elements:
        parent = parent_of.get(id(element))
        objects.append(_element(element, reference(number_of[id(parent)] if parent else first), number_of, pages, links))
    return tuple(text.encode("ascii") for text in objects)


def _in_order(element: Element) -> Iterator[Element]:
    yield element
    for kid in element.kids:
        if isinstance(kid, Element):
            yield from _in_order(kid)


def _parent_tree(tree: StructureTree, number_of: dict[int, int], page_count: int) -> str:
    entries = [
        f"{page} [{' '.join(reference(number_of[id(element)]) for element in elements)}]"
        for page, elements in enumerate(tree.content)
    ]
    entries += [f"{page_count + link.index} {reference(number_of[id(element)])}" for link, element in tree.links]
    return f"<< /Nums [{chr(10).join(entries)}] >>"


def _element(element: Element, parent: str, number_of: dict[int, int], pages: Sequence[int], links: Sequence[int]) -> str:
    home = next((kid.page for kid in element.kids if isinstance(kid, Content)), None)
    kids = " ".join(_kid(kid, home, number_of, pages, links) for kid in element.kids)
    entries = [f"/Type /StructElem /S /{element.kind} /P {parent} /K [{kids}]"]
    if home is not None:
        entries.append(f"/Pg {reference(pages[home])}")
    if element.alt:
        entries.append(f"/Alt {text_string(element.alt)}")
    if element.scope:
        entries.append(f"/A << /O /Table /Scope /{element.scope} >>")
    elif element.box:
        entries.append(f"/A << /O /Layout /Placement /Block /BBox [{numbers(element.box)}] >>")
    return f"<< {' '.join(entries)} >>"


def _kid(
    kid: Element | Content | Link, home: int | None, number_of: dict[int, int], pages: Sequence[int], links: Sequence[int]
) -> str:
    """One entry of `K`. `home` is the page that marked content numbers mean without saying so."""
    if isinstance(kid, Element):
        return reference(number_of[id(kid)])
    if isinstance(kid, Link):
        return f"<< /Type /OBJR /Pg {reference(pages[kid.page])} /Obj {reference(links[kid.index])} >>"
    if kid.page == home:
        return str(kid.mcid)
    return f"<< /Type /MCR /Pg {reference(pages[kid.page])} /MCID {kid.mcid} >>"


def metadata_object(document: Document) -> bytes:
    """The XMP packet. It claims no conformance: that is for a checker and a person to say."""
    properties = [
        f"<dc:title><rdf:Alt><rdf:li xml:lang='x-default'>{_xml(document.title)}</rdf:li></rdf:Alt></dc:title>",
        f"<dc:description><rdf:Alt><rdf:li xml:lang='x-default'>{_xml(document.subject)}</rdf:li></rdf:Alt></dc:description>",
        f"<dc:creator><rdf:Seq><rdf:li>{_xml(document.author)}</rdf:li></rdf:Seq></dc:creator>",
        f"<dc:language><rdf:Bag><rdf:li>{_xml(document.language)}</rdf:li></rdf:Bag></dc:language>",
        f"<xmp:CreatorTool>{MAKER}</xmp:CreatorTool><pdf:Producer>{MAKER}</pdf:Producer>",
    ]
    packet = (
        "<?xpacket begin='\ufeff' id='W5M0MpCehiHzreSzNTczkc9d'?>\n"
        "<x:xmpmeta xmlns:x='adobe:ns:meta/'><rdf:RDF xmlns:rdf='http://www.w3.org/1999/02/22-rdf-syntax-ns#'>\n"
        "<rdf:Description rdf:about='' xmlns:dc='http://purl.org/dc/elements/1.1/' xmlns:xmp='http://ns.adobe.com/xap/1.0/'"
        " xmlns:pdf='http://ns.adobe.com/pdf/1.3/'>\n" + "\n".join(properties) + "\n"
        "</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end='w'?>"
    ).encode()
    return b"<< /Type /Metadata /Subtype /XML /Length %d >>\nstream\n%s\nendstream" % (len(packet), packet)


def _xml(text: str) -> str:
    return "".join(sign for sign in text if sign.isprintable()).translate(XML_ESCAPES)
