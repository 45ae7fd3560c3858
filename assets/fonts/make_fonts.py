"""Makes the two bundled font files from the Inter 4.1 webfonts (SIL Open Font License 1.1, see OFL.txt).

    pip install fonttools brotli
    npm pack inter-ui@4.1.1 && tar xzf inter-ui-4.1.1.tgz
    python make_fonts.py package/web

Inter reserves no font name; the result is named "Coldmark Sans" all the same, because it is not Inter as its authors
ship it:
- only the characters a drawing office needs are kept (Latin, Greek, sub- and superscripts, arrows, operators, shapes);
- the tabular figures take the place of the proportional ones, so that columns of numbers line up everywhere;
- of the layout features only kerning and mark placement are kept, so that "->" or "4x4" stay as typed;
- the small triangles are the large ones drawn smaller.
"""

import sys
from pathlib import Path

from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

RANGES = [
    (0x20, 0x7E), (0xA0, 0x17F), (0x2B0, 0x2FF), (0x300, 0x30C), (0x370, 0x3FF), (0x1D62, 0x1D6A), (0x1E00, 0x1EFF), (0x2000, 0x206F),
    (0x2070, 0x209F), (0x20AC, 0x20AC), (0x2100, 0x214F), (0x2150, 0x218F), (0x2190, 0x21FF), (0x2200, 0x22FF),
    (0x2300, 0x23FF), (0x25A0, 0x25FF), (0x2600, 0x26FF), (0x2700, 0x27BF), (0x2C7C, 0x2C7C),
]
SMALL_TRIANGLES = {0x25B8: 0x25B6, 0x25BE: 0x25BC, 0x25B4: 0x25B2, 0x25C2: 0x25C0}


def tabular(font):
    """The figure substitutions of the feature "tnum", as a map from glyph name to glyph name."""
    gsub = font["GSUB"].table
    found = {}
    for record in gsub.FeatureList.FeatureRecord:
        if record.FeatureTag == "tnum":
            for index in record.Feature.LookupListIndex:
                for table in gsub.LookupList.Lookup[index].SubTable:
                    found.update(getattr(table, "ExtSubTable", table).mapping)
    return found


def small(font, of, scale=0.72):
    """A glyph drawn smaller about the middle of its box."""
    glyphs = font.getGlyphSet()
    box = font["glyf"][of]
    middle = ((box.xMin + box.xMax) / 2, (box.yMin + box.yMax) / 2)
    shift = [m * (1 - scale) for m in middle]
    pen = TTGlyphPen(glyphs)
    glyphs[of].draw(TransformPen(pen, (scale, 0, 0, scale, *shift)))
    return pen.glyph(), font["hmtx"][of]


def make(source, target, style):
    font = TTFont(source)
    cmap = dict(font.getBestCmap())
    figures = tabular(font)
    for table in font["cmap"].tables:
        if table.isUnicode():
            for digit in range(0x30, 0x3A):
                table.cmap[digit] = figures[cmap[digit]]
            for code, large in SMALL_TRIANGLES.items():
                name = f"small{code:04X}"
                if name not in font.getGlyphOrder():
                    glyph, metrics = small(font, cmap[large])
                    font["glyf"][name] = glyph
                    font["hmtx"][name] = metrics
                    font.setGlyphOrder(list(font["glyf"].glyphOrder))
                table.cmap[code] = name
    options = Options()
    options.layout_features = ["kern", "mark", "mkmk", "ccmp"]
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14]
    options.hinting = False
    options.notdef_outline = True
    options.glyph_names = False
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=[code for low, high in RANGES for code in range(low, high + 1)])
    subsetter.subset(font)
    names = {1: f"Coldmark Sans {style}", 2: "Regular", 3: f"Coldmark Sans {style}; from Inter 4.1",
             4: f"Coldmark Sans {style}", 6: f"ColdmarkSans-{style}"}
    for record in list(font["name"].names):
        if record.nameID in names:
            record.string = names[record.nameID]
    font.flavor = None
    font.save(target)


if __name__ == "__main__":
    folder = Path(sys.argv[1])
    here = Path(__file__).parent
    make(folder / "Inter-Regular.woff2", here / "ColdmarkSans-Regular.ttf", "Regular")
    make(folder / "Inter-SemiBold.woff2", here / "ColdmarkSans-SemiBold.ttf", "SemiBold")
