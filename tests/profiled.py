"""A file as a printer makes it that is off: every page drawn at other scales across and down."""

import io

import pikepdf


def stretched(data, across, down):
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            page.contents_add(pikepdf.Stream(pdf, f"{across} 0 0 {down} 0 0 cm".encode()), prepend=True)
        out = io.BytesIO()
        pdf.save(out, object_stream_mode=pikepdf.ObjectStreamMode.disable)
        return out.getvalue()
