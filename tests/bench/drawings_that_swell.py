"""Small drawings that are endless work: nested repeats, arcs, curves and lines."""

from __future__ import annotations

SVG = (b'<v:svg xmlns:v="http://www.w3.org/2000/svg" xmlns:k="http://www.w3.org/1999/xlink" '
       b'width="90mm" height="90mm" viewBox="0 0 90 90"><v:g id="n0"><v:rect width="9" '
       b'height="9"/></v:g>'
       + b"".join(b'<v:g id="n%d">%s</v:g>' % (i, b'<v:use k:href="#n%d"/>' % (i - 1) * 10)
                  for i in range(1, 9)) + b"</v:svg>")
PLAIN = b'<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="90mm" viewBox="0 0 90 90">'
LONG_DRAWINGS = {
    "nested.svg": SVG,
    "arcs.svg": PLAIN + b'<path d="M0 0' + b" A5 5 0 0 1 9 9 A5 5 0 0 1 1 1" * 30_000
                + b'"/></svg>',
    "curves.svg": PLAIN + b'<path d="M0 0 c' + b"5 5 9 0 1 2 " * 20_000 + b'"/></svg>',
    "lines.dxf": b"0\nSECTION\n2\nENTITIES\n" + b"".join(
        b"0\nLINE\n8\n1\n10\n%d\n20\n0\n11\n%d\n21\n9\n" % (i % 997, (i * 7) % 997)
        for i in range(60_000)) + b"0\nENDSEC\n0\nEOF\n",
}
