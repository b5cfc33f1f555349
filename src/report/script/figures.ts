/** Where a text carries a figure in both worlds: `3.0 mm (0.12 in)`. */

const ONE = '[\\u2212+-]?\\d[\\d.\\u202f]*';
const FIGURE = `(?:${ONE} to )?${ONE}`;
const PAIR = new RegExp(`(${FIGURE}\\s[^\\s()]+ )(\\(${FIGURE}\\s(?:in|lb|psi|mph|1/in)[^\\s()]*\\))`, 'g');
/** A value that does not exist is a dash. */
const AT_END = new RegExp(`(?:(?:${ONE}|\\u2013) to )?(?:${ONE}|\\u2013)(?:\\s[^\\s()]+)?\\s*$`);

export interface Piece {
  readonly text: string;
  /** Which world it belongs to; null for what stands around. */
  readonly world: 'metric' | 'imperial' | null;
}

/** The text in pieces, in order; one piece where it holds no figure in both worlds. */
export function pieces(text: string): Piece[] {
  const found: Piece[] = [];
  let from = 0;
  for (const { index, 0: whole, 1: metric = '', 2: imperial = '' } of text.matchAll(PAIR)) {
    found.push({ text: text.slice(from, index), world: null });
    found.push({ text: metric, world: 'metric' }, { text: imperial, world: 'imperial' });
    from = index + whole.length;
  }
  found.push({ text: text.slice(from), world: null });
  return found.filter((piece) => piece.text !== '');
}

/** Where the figure begins that ends a text, with its unit or range; the text's length where none does. */
export function figureAtEnd(text: string): number {
  return AT_END.exec(text)?.index ?? text.length;
}

/** `mm, in`: the two units of a column's head, or null. */
export function headUnits(text: string): readonly [metric: string, imperial: string] | null {
  const [metric, imperial, ...more] = text.split(', ');
  return metric && imperial && more.length === 0 ? [metric, imperial] : null;
}
