/** The damper's way as a ruler of signs: what meets where as it goes in, for a terminal. */
import type { BenchState } from '../model/corner/bench.ts';
import { CONTACT, contactLengths } from '../model/corner/contacts.ts';
import { fixed, PLAIN } from '../report/text/numbers.ts';

const COLUMNS = 72;

/** Fully in at the left, fully out at the right: the stop's squeeze, and by a letter told below what meets at each place. */
export function rulerText({ site, corner, geometry, low, high }: BenchState): string[] {
  const { compressed, extended } = corner.damper;
  const perch = (low.perch + high.perch) / 2;
  const contacts = contactLengths(site, corner, geometry, Number.isFinite(perch) ? perch : corner.sleeve.ledgeHeight)
    .filter(([name, length]) => CONTACT[name].part !== 'tyre' && Number.isFinite(length))
    .sort(([, a], [, b]) => b - a);
  const least = Math.min(compressed, ...contacts.map(([, at]) => at));
  const column = (length: number) => Math.round(((length - least) / (extended - least)) * (COLUMNS - 1));
  const line: string[] = Array.from({ length: COLUMNS }, (_, k) => {
    const isStop = k >= column(geometry.closedLength) && k <= column(geometry.stopLength);
    return isStop ? '#' : '-';
  });
  const length = (value: number) => fixed(value, 0, PLAIN);
  const marks = new Map<number, string[]>();
  for (const [name, at] of contacts) {
    const place = Math.min(column(at), COLUMNS - 1);
    marks.set(place, [...(marks.get(place) ?? []), `${CONTACT[name].label} ${length(at)}`]);
  }
  const legend = [...marks].map(([place, labels], k) => {
    const sign = String.fromCharCode(97 + k);
    line[place] = sign;
    return `${sign} ${labels.join(', ')}`;
  });
  return [
    `|${line.join('')}|`,
    ` ${length(least).padEnd(COLUMNS - length(extended).length)}${length(extended)}  mm, damper in to out`,
    ` # bump stop ${length(geometry.stopLength)} to ${length(geometry.closedLength)}; ${legend.join('; ')}`,
  ];
}
