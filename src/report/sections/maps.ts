/** Maps of a setup: frequencies of the shortlist, what bump travel is traded for, and springs by length and rate. */
import { CHECK } from '../../model/corner/checks.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { CornerKey } from '../../result/quantities/corner.ts';
import type { Combination, Result, SetupResult } from '../../result/result.ts';
import { drawChart } from '../charts/draw.ts';
import { frequencyMap, unwrittenRanks as unwrittenFrequencies } from '../charts/frequencyMap.ts';
import { checksShown, springMap } from '../charts/springMap.ts';
import { markUndominated, tradeOff, unwrittenRanks as unwrittenTrades } from '../charts/tradeOff.ts';
import { ofAnswers, section } from '../frame/section.ts';
import type { Answer } from '../text/answers.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { fixed, PAGE } from '../text/numbers.ts';
import { choiceOf } from '../text/parts.ts';

export const maps = section({
  id: 'maps',
  link: 'Maps',
  title: 'Maps',
  view: (page) => ofAnswers(page, (answer) => mapsView(page.result, answer)),
  prints: false,
  leaves: 'maps',
});

/** A map of one point says nothing. */
const FEWEST_POINTS = 2;

/** Null where there is nothing to map: a single build, or no shortlist and no counts per spring. */
export async function mapsView(result: Result, { setup, combination }: Answer) {
  if (result.mode === 'build') return null;
  const frequencies = await frequencyDrawing(setup);
  const trade = await tradeDrawing(result, setup);
  const springs = [];
  for (const axle of AXLE_NAMES) springs.push(...(await springView(setup, axle, combination)));
  if (!frequencies && !trade && springs.length === 0) return null;
  const { target, from, to } = setup.balance;
  return {
    setup: setup.name,
    basis: setup.frequency_basis,
    balance: { target: fixed(target, 2, PAGE), from: fixed(from, 2, PAGE), to: fixed(to, 2, PAGE) },
    frequencies,
    trade,
    springs,
  };
}

async function frequencyDrawing({ shortlist, balance, targets }: SetupResult) {
  const points = shortlist.flatMap(({ rank, values }) => {
    const front = values.front_frequency_hz ?? null;
    const rear = values.rear_frequency_hz ?? null;
    return front === null || rear === null ? [] : [{ rank, front, rear }];
  });
  if (points.length < FEWEST_POINTS) return null;
  const accepted = (axle: AxleName) => [targets[axle].frequency_from_hz, targets[axle].frequency_to_hz] as const;
  const map = { points, balance, front: accepted('front'), rear: accepted('rear') };
  return { drawing: await drawChart(frequencyMap(map)), unwritten: unwrittenFrequencies(map) };
}

async function tradeDrawing({ scenario }: Result, { shortlist }: SetupResult) {
  const isBest = markUndominated(shortlist.map(({ criteria }) => criteria.map(({ desirability }) => desirability)));
  const isPrice = shortlist.every(({ values }) => (values.price_total ?? null) !== null);
  const points = shortlist.flatMap((combination, k) => {
    const bump = leastOf(combination, 'bump_travel_mm');
    const cost = isPrice ? (combination.values.price_total ?? null) : leastOf(combination, 'thinnest_spare_mm');
    if (bump === null || cost === null) return [];
    return [{ rank: combination.rank, bump, cost, isUndominated: isBest[k] ?? false }];
  });
  if (points.length < FEWEST_POINTS) return null;
  const costTitle = isPrice
    ? `all parts, both sides, ${scenario.currency}`
    : 'thinnest clearance beyond its margin, mm';
  const map = { points, costTitle, costStep: isPrice ? 20 : 2 };
  return { drawing: await drawChart(tradeOff(map)), unwritten: unwrittenTrades(map), isPrice };
}

/** At the axle that has less of it. */
function leastOf({ axles }: Combination, key: CornerKey): number | null {
  const values = AXLE_NAMES.map((axle) => axles[axle].values[key] ?? null);
  return values.some((value) => value === null) ? null : Math.min(...values.map((value) => value ?? 0));
}

async function springView({ axles }: SetupResult, axle: AxleName, bought: Combination) {
  const cells = axles[axle].spring_cells;
  if (!cells || cells.length < FEWEST_POINTS) return [];
  const { spring } = bought.axles[axle].parts;
  const chosen = { freeLength: choiceOf(spring, 'free_length_mm'), rate: choiceOf(spring, 'rate_n_per_mm') };
  return [
    {
      axle,
      title: AXLE_TITLES[axle],
      drawing: await drawChart(springMap({ cells, chosen })),
      letters: checksShown(cells).map((check) => ({ letter: CHECK[check].letter, check: CHECK[check].label })),
      works: String(cells.filter(({ workable }) => workable > 0).length),
      springs: String(cells.length),
    },
  ];
}
