/** For one given build: every failing check, and every quantity of both corners. */
import { CHECK } from '../../model/corner/checks.ts';
import { AXLE_NAMES } from '../../model/scenario.ts';
import type { WorkingLine } from '../../result/quantities/quantity.ts';
import type { Combination, Failure, SetupResult } from '../../result/result.ts';
import { ofSetups, section } from '../frame/section.ts';
import { AXLE_TITLES } from '../text/labels.ts';
import { fixed, PAGE } from '../text/numbers.ts';
import { measure, wordOf } from '../text/parts.ts';

export const numbers = section({
  id: 'numbers',
  link: 'Every number',
  title: 'Every number',
  view: ({ found, isBuild }) =>
    isBuild ? ofSetups(found.flatMap((setup) => setup.shortlist.map((one) => buildView(setup, one)))) : null,
  prints: false,
  leaves: 'every number with its formula',
});

export function buildView(setup: SetupResult, combination: Combination) {
  return {
    setup: setup.name,
    id: combination.id,
    failures: failureViews(combination),
    groups: cornerGroups(combination),
    pair: (combination.working?.pair ?? []).map((line) => rowOf([line], null)),
  };
}

export function failureViews({ axles, failures }: Combination) {
  return [
    ...AXLE_NAMES.flatMap((axle) => axles[axle].failures.map((f) => failureView(AXLE_TITLES[axle], f))),
    ...failures.map((f) => failureView('Both', f)),
  ];
}

/** `shortfall` null: no amount exists. */
function failureView(where: string, { check, message, shortfall, unit }: Failure) {
  const amount = shortfall === null ? null : `${fixed(shortfall, unit === '' ? 3 : 2, PAGE)} ${unit}`.trim();
  return { where, check: CHECK[check].label, message, shortfall: amount };
}

/** Front and rear side by side, group by group; a line that only one axle has leaves the other's place empty. */
function cornerGroups({ axles, working }: Combination) {
  if (working === undefined) return [];
  const lines = AXLE_NAMES.flatMap((axle) => working.axles[axle]);
  const names = [...new Set(lines.map((line) => line.group))];
  return names.map((name) => {
    const symbols = [...new Set(lines.filter((line) => line.group === name).map((line) => line.symbol))];
    return {
      name,
      rows: symbols.map((symbol) => rowOf(linesOf(symbol), solid(symbol))),
    };
  });

  function linesOf(symbol: string) {
    return AXLE_NAMES.map((axle) => working?.axles[axle].find((line) => line.symbol === symbol) ?? null);
  }

  /** A solid height is not always given: each axle says where its own comes from. */
  function solid(symbol: string): string | null {
    if (!SOLID_SYMBOLS.includes(symbol)) return null;
    return AXLE_NAMES.map((axle) => `${axle}: ${wordOf(axles[axle], 'solid_height_source')}`).join('; ');
  }
}

const SOLID_SYMBOLS = ['S', 'S_least'];

/** One row of the lines of the same quantity, at least one of which exists. */
function rowOf(lines: readonly (WorkingLine | null)[], source: string | null) {
  const existing = lines.filter((line) => line !== null);
  const [first] = existing;
  if (first === undefined) throw new Error('A row of the working has no line.');
  const { symbol, label, dimension } = first;
  const { unit, imperialUnit } = measure(0, dimension);
  const values = lines.map((line) => measure(line?.value ?? null, dimension));
  return { symbol, label, unit, imperialUnit, values, how: source ?? howOf(existing) };
}

/** The formula, or where the value comes from; both where the axles differ. */
function howOf(lines: readonly WorkingLine[]): string {
  const said = lines.map(({ symbol, expression, source }) =>
    expression === null ? source : `${symbol} = ${expression}`,
  );
  return [...new Set(said)].join('; ');
}
