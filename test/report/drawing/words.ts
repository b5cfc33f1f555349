/** Where the words of a drawing get in one another’s way. */
import type { PlacedDrawing } from '../../../src/report/drawing/cornerDrawing.ts';
import { boxOf } from '../../../src/report/drawing/shapes.ts';

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
