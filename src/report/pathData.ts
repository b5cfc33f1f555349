/** Path data of SVG written short: each point from the one before, letters and blanks only where they are needed. */

/** How many numbers follow a letter, for the letters that occur in our pictures. */
const ARGUMENTS: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, A: 7, Z: 0 };
const PIECE = /([A-Za-z])|(-?(?:\d+\.?\d*|\.\d+)(?:e-?\d+)?)/g;

interface Pen {
  x: number;
  y: number;
  startX: number;
  startY: number;
}

/**
 * The same path to a tenth of a pixel; as it is where it holds a curve that is not known here. Points are rounded
 * before their differences are taken, so that no error adds up along the path.
 * @param moveX @param moveY where the whole path is moved to
 */
export function shortPath(d: string, moveX = 0, moveY = 0): string | null {
  const segments = segmentsOf(d);
  if (segments === null) return null;
  const pen: Pen = { x: 0, y: 0, startX: 0, startY: 0 };
  /** Where the path goes, as it was written, not rounded. */
  const exact: Pen = { x: moveX, y: moveY, startX: moveX, startY: moveY };
  let text = '';
  let implied = '';
  for (const { letter, numbers } of segments) {
    const [command, ...values] = relative(letter, numbers, pen, exact, text === '', { moveX, moveY });
    text += written(command, values, implied);
    implied = command === 'm' ? 'l' : command === 'M' ? 'L' : command;
  }
  return text;
}

export interface Reach {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** The box around the corner points of a path; null where it can't be told. Arcs may bulge out of it. */
export function reachOf(d: string): Reach | null {
  const segments = segmentsOf(d);
  if (segments === null) return null;
  const exact: Pen = { x: 0, y: 0, startX: 0, startY: 0 };
  const pen = { ...exact };
  const points = segments.map(({ letter, numbers }) => {
    relative(letter, numbers, pen, exact, true, { moveX: 0, moveY: 0 });
    return { ...exact };
  });
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}

interface Segment {
  readonly letter: string;
  readonly numbers: readonly number[];
}

function segmentsOf(d: string): Segment[] | null {
  const segments: Segment[] = [];
  let letter = '';
  let numbers: number[] = [];
  const pieces = [...d.matchAll(PIECE)];
  for (const [, word, number] of pieces) {
    if (word !== undefined) {
      if (numbers.length > 0 || ARGUMENTS[word.toUpperCase()] === undefined) return null;
      letter = word;
    } else numbers.push(Number(number));
    const needed = ARGUMENTS[letter.toUpperCase()];
    if (needed === undefined) return null;
    if (numbers.length === needed && (word === undefined || needed === 0)) {
      segments.push({ letter, numbers });
      numbers = [];
      if (letter === 'M') letter = 'L';
      if (letter === 'm') letter = 'l';
    }
  }
  return numbers.length > 0 || segments[0]?.letter !== 'M' ? null : segments;
}

type Command = readonly [letter: string, ...numbers: number[]];

function relative(
  letter: string,
  numbers: readonly number[],
  pen: Pen,
  exact: Pen,
  isFirst: boolean,
  { moveX, moveY }: { readonly moveX: number; readonly moveY: number },
): Command {
  const kind = letter.toUpperCase();
  if (kind === 'Z') {
    Object.assign(exact, { x: exact.startX, y: exact.startY });
    Object.assign(pen, { x: pen.startX, y: pen.startY });
    return ['z'];
  }
  const isOwn = letter === kind;
  const along = (value: number | undefined, now: number, move: number) => (value ?? 0) + (isOwn ? move : now);
  exact.x = kind === 'V' ? exact.x : along(kind === 'A' ? numbers[5] : numbers[0], exact.x, moveX);
  exact.y = kind === 'H' ? exact.y : along(numbers.at(-1), exact.y, moveY);
  const [x, y] = [tenth(exact.x), tenth(exact.y)];
  const [dx, dy] = [tenth(x - pen.x), tenth(y - pen.y)];
  Object.assign(pen, { x, y });
  if (kind === 'A') return ['a', tenth(numbers[0] ?? 0), tenth(numbers[1] ?? 0), ...numbers.slice(2, 5), dx, dy];
  if (kind !== 'M') return dy === 0 ? ['h', dx] : dx === 0 ? ['v', dy] : ['l', dx, dy];
  Object.assign(pen, { startX: x, startY: y });
  Object.assign(exact, { startX: exact.x, startY: exact.y });
  return isFirst ? ['M', x, y] : ['m', dx, dy];
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10 + 0;
}

function written(letter: string, numbers: readonly number[], implied: string): string {
  let text = letter === implied && letter !== 'm' && letter !== 'z' ? '' : letter;
  for (const [k, number] of numbers.entries()) {
    const digits = String(number).replace(/^(-?)0\./, '$1.');
    const needsBlank = !digits.startsWith('-') && (k > 0 || text === '');
    text += needsBlank ? ` ${digits}` : digits;
  }
  return text;
}
