/** How many combinations fall at each check, in the order of the checks; and why a setup has none that works. */
import { CHECK, CORNER_CHECKS } from '../../model/corner/checks.ts';
import { AXLE_NAMES, type AxleName } from '../../model/scenario.ts';
import type { AxleTally, SetupResult } from '../../result/result.ts';
import { ofSetups, section } from '../frame/section.ts';
import { count, PAGE, percent } from '../text/numbers.ts';

export const funnel = section({
  id: 'funnel',
  link: 'Why the rest fail',
  title: 'Why the rest fail',
  view: ({ result, isBuild }) => (isBuild ? null : ofSetups(result.setups.map(funnelView))),
  prints: false,
  leaves: 'why the rest fail',
});

export function funnelView(setup: SetupResult) {
  const tallies = AXLE_NAMES.map((axle) => setup.axles[axle]);
  const busy = CORNER_CHECKS.filter((check) => tallies.some((tally) => tally.rejected[check] > 0));
  return {
    setup: setup.name,
    rows: busy.map((check) => ({
      check: CHECK[check].label,
      cells: tallies.map((tally) => funnelCell(tally.rejected[check], tally.combinations)),
    })),
    /** Checks at which nothing fell on either axle. */
    idle: CORNER_CHECKS.filter((check) => !busy.includes(check)).map((check) => CHECK[check].label),
    combinations: tallies.map((tally) => count(tally.combinations, PAGE)),
    passed: tallies.map((tally) => funnelCell(tally.passed, tally.combinations)),
    pairs: {
      considered: count(setup.pairs.considered, PAGE),
      outOfBalance: count(setup.pairs.rejected_by_balance, PAGE),
      workable: count(setup.pairs.workable, PAGE),
    },
  };
}

/** `width`: 0 to 100, of the bar. */
function funnelCell(part: number, whole: number) {
  const width = whole > 0 ? ((100 * part) / whole).toFixed(1) : '0';
  return { count: count(part, PAGE), share: percent(part, whole, PAGE), width };
}

/** Axles of which no combination passes; `pairs` where both have some, but no two of them go together. */
export function nothingView(setup: SetupResult) {
  const axles = AXLE_NAMES.filter((axle) => setup.axles[axle].passed === 0).map((axle) =>
    nothingAxle(axle, setup.axles[axle]),
  );
  return { axles, pairs: axles.length > 0 ? null : count(setup.pairs.considered, PAGE) };
}

function nothingAxle(axle: AxleName, tally: AxleTally) {
  const { check, rejected } = mostRejecting(tally);
  return {
    axle,
    combinations: count(tally.combinations, PAGE),
    check: CHECK[check].label,
    rejected: count(rejected, PAGE),
    share: percent(rejected, tally.combinations, PAGE),
  };
}

/** The check that rejects most; of equals the one judged first. */
export function mostRejecting(tally: AxleTally) {
  return CORNER_CHECKS.map((check) => ({ check, rejected: tally.rejected[check] })).reduce((most, next) =>
    next.rejected > most.rejected ? next : most,
  );
}
