/** What becomes of random builds, in words: how many work, what the others do, and whether that rests on an estimate. */

import { FAILING_LABELS, FAILINGS, type Failing } from '../../model/corner/checkRecord.ts';
import { capital } from '../../model/corner/messages.ts';
import { wilsonInterval } from '../../model/formula/share.ts';
import { AXLE_NAMES } from '../../model/scenario.ts';
import type { BenchBuilds, Builds, SetupAdvice } from '../../result/advice.ts';
import type { Combination, TightClearance } from '../../result/result.ts';
import type { Answer } from './answers.ts';
import { fixed, type NumberStyle, PAGE, percent, withUnits } from './numbers.ts';

/** As a sentence begins that goes on with how many. */
const SENTENCES: Readonly<Record<Failing, string>> = {
  metal: 'at worst metal meets or a coil binds',
  seat: 'at worst the spring can leave its seat',
  margin: 'at worst a margin is eaten into',
  wish: 'at worst a wish is missed',
};

export interface FailView {
  readonly label: string;
  readonly share: string;
}

/** The four that fail, the worst first; none in a report of an earlier version. */
export function failViews({ fails }: Builds, style: NumberStyle): FailView[] {
  if (!fails) return [];
  return FAILINGS.map((failing) => ({
    label: FAILING_LABELS[failing],
    share: percent(fails[`${failing}_share`], 1, style),
  }));
}

/** `metal meets 3.0 %, spring can leave its seat 0.0 %, ...` */
export function failsText(builds: Builds, style: NumberStyle): string {
  return failViews(builds, style)
    .map(({ label, share }) => `${label} ${share}`)
    .join(', ');
}

/** The worst that any build does; null where all work, or the report does not tell them apart. */
export function worstText({ fails }: Builds, style: NumberStyle): string | null {
  const worst = fails && FAILINGS.find((failing) => fails[`${failing}_share`] > 0);
  return worst ? `${SENTENCES[worst]}, in ${percent(fails[`${worst}_share`], 1, style)}` : null;
}

/** The worst that any build of any setup does, with the setup in which most do; null as for one. */
export function worstOver(answers: readonly Answer[], style: NumberStyle): string | null {
  for (const failing of FAILINGS) {
    const shares = answers.map(({ builds }) => builds?.fails?.[`${failing}_share`] ?? 0);
    const most = Math.max(...shares);
    if (most <= 0) continue;
    const { setup } = answers[shares.indexOf(most)] as Answer;
    return `${SENTENCES[failing]}, in ${percent(most, 1, style)} of random builds within tolerance for ${setup.name}`;
  }
  return null;
}

/** `front and rear spring estimated`; null where no spring is. */
export function estimateText({ axles }: Pick<Combination, 'axles'>): string | null {
  const estimated = AXLE_NAMES.filter((axle) => axles[axle].flags.some(({ kind }) => kind === 'estimate'));
  return estimated.length > 0 ? `rests on an estimate of the ${estimated.join(' and ')} spring` : null;
}

export interface BuildsView {
  /** A sentence: the worst that any build does. */
  readonly worst: string;
  /** The next: how many work. */
  readonly works: string;
  readonly share: string;
  readonly fails: readonly FailView[];
  /** A sentence; null where nothing is estimated. */
  readonly estimate: string | null;
  /** A sentence; null where nothing was ranked by it. */
  readonly expected: string | null;
}

export function buildsView(
  builds: Builds,
  combination: Pick<Combination, 'axles'>,
  drawn: number,
  expected?: BenchBuilds,
): BuildsView {
  const [worst, estimate] = [worstText(builds, PAGE), estimateText(combination)];
  const share = percent(builds.share, 1, PAGE);
  return {
    worst: worst === null ? '' : `${capital(worst)} of ${drawn} random builds within tolerance.`,
    works: worst === null ? `${share} of ${drawn} random builds within tolerance work.` : `${share} work.`,
    share,
    fails: failViews(builds, PAGE),
    estimate: estimate === null ? null : `That ${estimate}.`,
    expected: expected ? `${capital(expectedText(expected, drawn, PAGE))}.` : null,
  };
}

/** In one line: `42.8 % work; at worst metal meets or a coil binds, in 3.0 %; rests on an estimate of the rear spring`. */
export function buildsText(builds: Builds, combination: Pick<Combination, 'axles'>, style: NumberStyle): string {
  const worst = worstText(builds, style);
  const works = `${percent(builds.share, 1, style)} work${worst === null ? '' : `; ${worst}`}`;
  const estimate = estimateText(combination);
  return estimate === null ? works : `${works}; ${estimate}`;
}

// What is expected of a purchase, in words.

/** `93 to 97 of 100`: where the share lies, 19 times in 20. */
function intervalText(share: number, drawn: number, style: NumberStyle): string {
  const { low, high } = wilsonInterval(share, drawn);
  return `${fixed(100 * low, 0, style)} to ${fixed(100 * high, 0, style)}`;
}

/** Below this share more or less is no difference that anybody would notice. */
const NOTICEABLE = 0.01;

/** Works, measured before cutting and as planned, and what is expected of the score. */
export function expectedText({ as_planned, measured_first }: BenchBuilds, drawn: number, style: NumberStyle): string {
  const hundred = ({ share }: Builds) => fixed(100 * share, 0, style);
  const gain = measured_first.share - as_planned.share;
  const interval = intervalText(measured_first.share, drawn, style);
  const scores = [measured_first, as_planned].map(({ expected_score }) => fixed(expected_score, 3, style));
  const counted = '(one that fails counts 0)';
  if (gain > NOTICEABLE) {
    const works = `measure before you cut: ${hundred(measured_first)} of 100 builds work (${interval}) instead of ${hundred(as_planned)}`;
    return `${works}; expected score ${scores.join(' instead of ')} ${counted}`;
  }
  const works = `${hundred(measured_first)} of 100 builds work (${interval}), measured before cutting`;
  return `${works}, which gains nothing over the cuts as planned; expected score ${scores[0]} ${counted}`;
}

/** Among how many it was sought: `all 9 front and 13 rear purchases that work as planned`. */
export function consideredText(considered: NonNullable<SetupAdvice['considered']>): string {
  const isAll = AXLE_NAMES.every((axle) => considered[axle].built === considered[axle].of);
  const { front, rear } = considered;
  return isAll
    ? `all ${front.of} front and ${rear.of} rear purchases that work as planned`
    : `the best ${front.built} of ${front.of} front and ${rear.built} of ${rear.of} rear purchases that work as planned; what the others would come to is not known`;
}

// What tolerances could do at worst, in words.

/** `coil bind: clearance 12.1 mm could be -1.1 mm at worst.` */
export function tightText({ contact, clearance_mm, worst_mm, seat }: TightClearance, style: NumberStyle): string {
  const length = (value: number) => withUnits(value, 'length', style);
  if (!seat) return `${contact}: clearance ${length(clearance_mm)} could be ${length(worst_mm)} at worst.`;
  const { slack_mm, worst_slack_mm, held_mm } = seat;
  const now = slack_mm < 0 ? `preloaded by ${length(-slack_mm)}` : `${length(slack_mm)} loose`;
  return `${contact}: at full droop ${now}, at worst ${length(worst_slack_mm)} loose; its seats hold ${length(held_mm)}.`;
}
