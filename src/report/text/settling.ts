/** How much of an answer rests on usual values that nobody measured, and what would settle it, in words. */
import type { Combination, Settling, SettlingMeasurement } from '../../result/result.ts';
import { STANDS_AT } from '../../result/tolerance/bands.ts';
import type { Answer } from './answers.ts';
import { fixed, type NumberStyle, PAGE, withUnits } from './numbers.ts';

/** Of several setups the one that rests on them most; null where nothing is assumed. */
export function mostResting(answers: readonly Answer[]): (Answer & { readonly settling: Settling }) | null {
  const resting = answers.flatMap((answer) => {
    const { settling } = answer.combination;
    return settling === undefined ? [] : [{ ...answer, settling }];
  });
  return resting.sort((a, b) => b.settling.assumed_share - a.settling.assumed_share)[0] ?? null;
}

/** `8 values are assumed, and make 36 % of the spread of this answer; of that of the front height, ± 8.8 mm, 53 %.` */
export function restsText({ assumed, assumed_share, numbers }: Settling, style: NumberStyle): string {
  const n = assumed.length;
  const heights = numbers.filter(({ key }) => key === STANDS_AT);
  const said = heights.map(({ axle, half_width, assumed_share: share }) => {
    const about = `${style === PAGE ? '±' : '+-'} ${withUnits(half_width, 'length', style)}`;
    return `of that of the ${axle} height, ${about}, ${shareText(share, style)}`;
  });
  const whole = `${shareText(assumed_share, style)} of the spread of this answer`;
  const lead = n === 1 ? 'One value is assumed, and makes' : `${n} values are assumed, and make`;
  return `${lead} ${[whole, ...said].join('; ')}.`;
}

export const shareText = (share: number, style: NumberStyle) => `${fixed(100 * share, 0, style)} %`;

/** How many stand where the answer does. */
const MOST_FIRST = 3;

/** The measurements that settle most; one of the assumed values is among them. */
export function firstMeasurements({ measurements }: Settling): readonly SettlingMeasurement[] {
  const first = measurements.slice(0, MOST_FIRST);
  const assumed = measurements.find((one) => one.assumed);
  if (assumed === undefined || first.includes(assumed)) return first;
  return [...first.slice(0, -1), assumed];
}

/** `bathroom scale, about 90 minutes`; empty where nobody says what it takes. */
export function takesText({ tool, minutes }: Pick<SettlingMeasurement, 'tool' | 'minutes'>): string {
  return tool === null ? '' : `${tool}, about ${minutes} minutes`;
}

export const nameOf = ({ axle, label }: SettlingMeasurement) => (axle === null ? label : `${axle}: ${label}`);

export function measurementView(one: SettlingMeasurement) {
  return {
    name: nameOf(one),
    share: shareText(one.share, PAGE),
    isAssumed: one.assumed,
    field: one.field,
    how: one.how,
    takes: takesText(one),
  };
}

/** For the head of the page, in few words; null where nothing is assumed. */
export function restsInShort(answers: readonly Answer[]): string | null {
  const resting = mostResting(answers);
  if (resting === null) return null;
  const { settling, setup } = resting;
  const where = answers.length > 1 ? ` in setup ${setup.name}` : '';
  const first = firstMeasurements(settling).map((one) => `${nameOf(one)} ${shareText(one.share, PAGE)}`);
  return `${shareText(settling.assumed_share, PAGE)} of the spread of this answer${where} rests on assumed values (${settling.assumed.length}). What settles it most: ${first.join(', ')}.`;
}

/** For the head of an answer; null where nothing is assumed. @param setup named where the answer is of several */
export function restsView({ settling }: Pick<Combination, 'settling'>, setup: string | null = null) {
  if (settling === undefined) return null;
  return {
    setup,
    text: restsText(settling, PAGE),
    first: firstMeasurements(settling).map(measurementView),
  };
}
