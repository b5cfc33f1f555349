/** The answer of the bench for a terminal. */
import type { BenchState } from '../model/corner/bench.ts';
import { CONTACT, contactLengths } from '../model/corner/contacts.ts';
import type { BenchScenario } from '../model/scenario.ts';
import { mapStrings, visible } from '../report/text/escape.ts';
import { fixed, PLAIN } from '../report/text/numbers.ts';
import { hanging } from '../report/text/textWidth.ts';
import type { AxleFitting } from './fitting.ts';
import { answerLines, balanceText, choiceTextOf, countText, verdictLine } from './words.ts';

const LEAD = 20;

export function fittingText({ name }: Pick<BenchScenario, 'name'>, fittings: readonly AxleFitting[]): string {
  const blocks = fittings.map((fitting) => axleBlock(mapStrings(fitting, visible)));
  const balance = balanceText(fittings, PLAIN);
  return `${[visible(name), ...blocks, ...(balance === null ? [] : [balance])].join('\n\n')}\n`;
}

/** One axle; where several combinations were judged, how many fit and which is the best. */
export function axleBlock(fitting: AxleFitting): string {
  const [best] = fitting.best;
  const several = fitting.combinations > 1 && best !== undefined;
  const rows = [
    ...hanging('', verdictLine(fitting, PLAIN)),
    ...(several ? row('combinations', countText(fitting, PLAIN)) : []),
    ...(several
      ? row(
          best.verdict === 'fails' ? 'nearest' : 'best',
          choiceTextOf(fitting.bench.options, best.judgement.state.corner, PLAIN),
        )
      : []),
    ...answerLines(fitting, PLAIN).flatMap(({ about, text }) => row(about, text)),
  ];
  const [bar, ends, ...legend] = best === undefined ? [] : rulerText(best.state);
  const ruler = [bar, ends, ...legend.flatMap((text) => hanging('', text.trim()))].filter((text) => text !== undefined);
  return [...rows, '', ...ruler].join('\n');
}

function row(about: string, text: string): string[] {
  return hanging(`  ${about}`.padEnd(LEAD), text);
}

const COLUMNS = 72;

/** The damper’s way as a ruler of signs, fully in at the left, fully out at the right: the stop's squeeze, and by a letter told below what meets at each place. */
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
