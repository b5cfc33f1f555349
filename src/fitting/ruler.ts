/** The damper's way as a ruler of signs: what meets where as it goes in, for a terminal. */
import type { BenchState } from '../model/corner/bench.ts';
import { CONTACT, contactLengths } from '../model/corner/contacts.ts';
import { fixed, PLAIN } from '../report/text/numbers.ts';

const COLUMNS = 72;

interface Mark {
  readonly at: number;
  readonly sign: string;
  readonly label: string;
}

/** Fully in at the left, fully out at the right: the stop's squeeze, and each contact by a letter told below. */
export function rulerText({ site, corner, geometry, low, high }: BenchState): string[] {
  const { compressed, extended } = corner.damper;
  const perch = (low.perch + high.perch) / 2;
  const marks = contactLengths(site, corner, geometry, Number.isFinite(perch) ? perch : corner.sleeve.ledgeHeight)
    .filter(([name, length]) => CONTACT[name].part !== 'tyre' && Number.isFinite(length))
    .sort(([, a], [, b]) => b - a)
    .map(([name, at], k): Mark => ({ at, sign: String.fromCharCode(97 + k), label: CONTACT[name].label }));
  const least = Math.min(compressed, ...marks.map(({ at }) => at));
  const column = (length: number) => Math.round(((length - least) / (extended - least)) * (COLUMNS - 1));
  const line: string[] = Array.from({ length: COLUMNS }, (_, k) => {
    const isStop = k >= column(geometry.closedLength) && k <= column(geometry.stopLength);
    return isStop ? '#' : '-';
  });
  for (const { at, sign } of marks.toReversed()) {
    const place = column(at);
    if (place >= 0 && place < COLUMNS) line[place] = sign;
  }
  const length = (value: number) => `${fixed(value, 0, PLAIN)}`;
  const ends = `${length(least)}`.padEnd(COLUMNS - length(extended).length) + length(extended);
  return [
    `|${line.join('')}|`,
    ` ${ends}  mm, damper in to out`,
    ` # bump stop ${length(geometry.stopLength)} to ${length(geometry.closedLength)}; ${marks.map(({ sign, label, at }) => `${sign} ${label} ${length(at)}`).join('; ')}`,
  ];
}
