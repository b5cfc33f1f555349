/** Where the words of a drawing get in one another’s way. */
import type { PlacedDrawing } from '../../../src/report/drawing/cornerDrawing.ts';
import { type Box, type PlacedText, widthOf } from '../../../src/report/drawing/shapes.ts';

/** Above and below the baseline, in shares of the type size. */
const ASCENT = 0.78;
const DESCENT = 0.22;

/** The room a text takes at most, in any typeface a reader is likely to have. */
function boxOf(placed: PlacedText): Box {
  const width = widthOf(placed);
  const before = placed.anchor === 'start' ? 0 : placed.anchor === 'middle' ? width / 2 : width;
  const { x, y, size } = placed;
  if (placed.upright) {
    return { left: x - ASCENT * size, right: x + DESCENT * size, top: y + before - width, bottom: y + before };
  }
  return { left: x - before, right: x - before + width, top: y - ASCENT * size, bottom: y + DESCENT * size };
}

/** Pairs of texts whose boxes, by the table of text widths, overlap. */
export function overlaps({ texts }: PlacedDrawing): string[] {
  return texts.flatMap((a, k) =>
    texts.slice(k + 1).flatMap((b) => {
      const [one, two] = [boxOf(a), boxOf(b)];
      const apart = one.right <= two.left || two.right <= one.left || one.bottom <= two.top || two.bottom <= one.top;
      return apart ? [] : [`“${a.text}” on “${b.text}”`];
    }),
  );
}

/** Texts that leave the sheet. */
export function outside({ width, height, texts }: PlacedDrawing): string[] {
  return texts.flatMap((text) => {
    const { left, right, top, bottom } = boxOf(text);
    return left < 0 || right > width || top < 0 || bottom > height ? [text.text] : [];
  });
}
