#!/usr/bin/env python3
"""Make the code pages: single-byte fonts with their metrics prepared.

Why: reading and cutting a TrueType font for every document costs many times
what drawing the page does. A font of at most 224 characters can be embedded
as it stands, with its widths in a table made here, once.

One code page ("core") covers the page's own words and most European names.
The others are added to a document only if a name in it needs them. Every
character is in exactly one page.

Needs Python 3 with fontTools, and the Lato fonts 2.0 (SIL Open Font License),
which Debian has as fonts-lato. The cut fonts get another name, as the licence
asks.

    python3 make.py /usr/share/fonts/truetype/lato
"""

import json
import pathlib
import sys
import zlib

from fontTools import subset
from fontTools.agl import UV2AGL
from fontTools.ttLib import TTFont

HERE = pathlib.Path(__file__).parent
OUT = HERE / "cut"
WEIGHTS = {"regular": "Lato-Regular.ttf", "bold": "Lato-Bold.ttf"}
FIRST_CODE, LAST_CODE = 32, 255
THIN_SPACE = 0.2  # em; the face has it at an eighth, which can't be seen in small sizes
SLOTS = LAST_CODE - FIRST_CODE + 1

ASCII = "".join(map(chr, range(0x20, 0x7F)))
SYMBOLS = "–—’“”…·°±×−≥≤₂²□\u2009"
EUROPEAN = (
    "ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜÝß"
    "àáâãäåæçèéêëìíîïñòóôõöøùúûüý"
    "ĄąĆćČčĎďĐđĘęĚěĞğİıŁłŃńŇňŐőŘřŚśŞşŠšŤťŮůŰűŹźŻżŽžĂăȘșȚțŒœ"
)
# 127 is a control character, so it stays unused.
CORE = ASCII + "\0" + SYMBOLS + EUROPEAN

# Pages of their own, so that a name needs one more page and not two.
SCRIPTS = {
    "vietnamese": [(0x1EA0, 0x1EF9), (0x1A0, 0x1A1), (0x1AF, 0x1B0), (0x128, 0x129), (0x168, 0x169)],
    "latin": [(0xA1, 0x17F)],
    "greek": [(0x370, 0x3FF)],
    "cyrillic": [(0x400, 0x4DF), (0x2116, 0x2116)],
}
# What is left is shared out in rising order over numbered pages.
REST = [(0xA0, 0x2AF), (0x300, 0x3FF), (0x400, 0x52F), (0x1E00, 0x1FFF), (0x2010, 0x2044), (0x2070, 0x209C), (0x20A0, 0x20BF), (0x2116, 0x2122)]


def spread(ranges):
    return [chr(c) for lo, hi in ranges for c in range(lo, hi + 1)]


def pages(covered):
    """The code pages by name, each a list of characters (or NUL: unused)."""
    result = {"core": list(CORE)}
    taken = set(CORE)
    for name, ranges in SCRIPTS.items():
        result[name] = [c for c in spread(ranges) if c in covered and c not in taken]
        taken.update(result[name])
    rest = [c for c in spread(REST) if c in covered and c not in taken]
    for n, start in enumerate(range(0, len(rest), SLOTS), 1):
        result[f"more{n}"] = rest[start:start + SLOTS]
    for name, chars in result.items():
        assert len(chars) <= SLOTS, (name, len(chars))
        missing = [c for c in chars if c != "\0" and c not in covered]
        assert not missing, (name, missing)
    return result


def glyph_name(char):
    return UV2AGL.get(ord(char)) or "uni%04X" % ord(char)


def tag(page):
    """The six capitals that mark a cut font."""
    return ("TB" + "".join(c for c in page.upper() if c.isalpha()) + str("XXXX"))[:5] + chr(ord("A") + int("0" + "".join(filter(str.isdigit, page))))


def load(path):
    font = TTFont(path)
    font["hmtx"][font.getBestCmap()[0x2009]] = (round(THIN_SPACE * font["head"].unitsPerEm), 0)
    return font


def cut(source, chars, style):
    options = subset.Options(hinting=False, glyph_names=True, notdef_outline=True, layout_features=[],
                             drop_tables=["GSUB", "GPOS", "GDEF", "kern", "DSIG", "gasp", "FFTM"], name_IDs=[0, 6, 13, 14])
    font = load(source)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[ord(c) for c in chars if c != "\0"])
    cutter.subset(font)
    postscript = f"TenbackSans-{style.title()}"
    for record in font["name"].names:
        if record.nameID == 6:
            record.string = postscript
    font["head"].created = font["head"].modified = 3_000_000_000  # same bytes every time
    font.recalcTimestamp = False
    path = OUT / "cut.ttf"
    font.save(path)
    data = path.read_bytes()
    path.unlink()
    return data, load(source), postscript


def define(data, source, page, chars, style, postscript):
    """The definition that the PDF library reads, plus the characters."""
    scale = 1000 / source["head"].unitsPerEm
    cmap, hmtx, os2, head = source.getBestCmap(), source["hmtx"], source["OS/2"], source["head"]
    missing = round(hmtx[".notdef"][0] * scale)
    widths, diff = [missing] * 256, []
    for i, c in enumerate(chars):
        if c == "\0":
            diff.append(".notdef")
            continue
        widths[FIRST_CODE + i] = round(hmtx[cmap[ord(c)]][0] * scale)
        diff.append(glyph_name(c))
    return {
        "Tp": "TrueType",
        "Name": f"{tag(page)}+{postscript}",
        "Desc": {
            "Ascent": round(os2.sTypoAscender * scale), "Descent": round(os2.sTypoDescender * scale),
            "CapHeight": round(os2.sCapHeight * scale), "Flags": 32,
            "FontBBox": {"Xmin": round(head.xMin * scale), "Ymin": round(head.yMin * scale),
                         "Xmax": round(head.xMax * scale), "Ymax": round(head.yMax * scale)},
            "ItalicAngle": 0, "StemV": 120 if style == "bold" else 70, "MissingWidth": missing,
        },
        "Up": -100, "Ut": 50,
        "Cw": widths,
        "Enc": page,
        "Diff": f"{FIRST_CODE} " + " ".join("/" + n for n in diff),
        "File": f"{page}-{style}.z",
        "Size1": 0, "Size2": 0, "OriginalSize": len(data),
        "Chars": "".join(chars),
    }


def main(folder):
    folder = pathlib.Path(folder)
    OUT.mkdir(exist_ok=True)
    covered = None
    for name in WEIGHTS.values():
        have = {chr(c) for c in TTFont(folder / name).getBestCmap()}
        covered = have if covered is None else covered & have
    for old in list(OUT.glob("*")):
        old.unlink()
    for page, chars in pages(covered).items():
        for style, name in WEIGHTS.items():
            data, source, postscript = cut(folder / name, chars, style)
            packed = zlib.compress(data, 9)
            definition = define(data, source, page, chars, style, postscript)
            (OUT / f"{page}-{style}.z").write_bytes(packed)
            (OUT / f"{page}-{style}.json").write_text(json.dumps(definition, ensure_ascii=False) + "\n", encoding="utf-8")
            print(f"{page}-{style}: {len(chars)} characters, {len(data)} bytes, packed {len(packed)}")


main(sys.argv[1])
