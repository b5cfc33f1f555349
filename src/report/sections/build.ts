/** For one given build: every failing check, and every quantity of both corners. */
import { CHECK_LABELS } from '../../domain/checks.ts';
import type { Combination, Failure, SetupResult } from '../../domain/result.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import type { WorkingLine } from '../../domain/workingLine.ts';
import { AXLE_TITLES } from '../labels.ts';
import { fixed, PAGE } from '../numbers.ts';
import { type Measure, measure, wordOf } from '../read.ts';

export interface BuildView {
  readonly setup: string;
  readonly id: string;
  readonly failures: readonly FailureView[];
  readonly groups: readonly QuantityGroup[];
  readonly pair: readonly QuantityRow[];
}

export interface FailureView {
  readonly where: string;
  readonly check: string;
  readonly message: string;
  /** Null where no amount exists. */
  readonly shortfall: string | null;
}

export interface QuantityGroup {
  readonly name: string;
  readonly rows: readonly QuantityRow[];
}

export interface QuantityRow {
  readonly symbol: string;
  readonly label: string;
  readonly unit: string;
  readonly imperialUnit: string | null;
  readonly values: readonly Measure[];
  readonly how: string;
}

export function buildView(setup: SetupResult, combination: Combination): BuildView {
  return {
    setup: setup.name,
    id: combination.id,
    failures: failureViews(combination),
    groups: cornerGroups(combination),
    pair: pairRows(combination),
  };
}

export function failureViews({ axles, failures }: Combination): FailureView[] {
  return [
    ...AXLE_NAMES.flatMap((axle) => axles[axle].failures.map((f) => failureView(AXLE_TITLES[axle], f))),
    ...failures.map((f) => failureView('Both', f)),
  ];
}

function failureView(where: string, { check, message, shortfall, unit }: Failure): FailureView {
  const amount = shortfall === null ? null : `${fixed(shortfall, unit === '' ? 3 : 2, PAGE)} ${unit}`.trim();
  return { where, check: CHECK_LABELS[check], message, shortfall: amount };
}

/** Front and rear side by side, group by group; a line that only one axle has leaves the other's place empty. */
function cornerGroups({ axles, working }: Combination): QuantityGroup[] {
  if (working === undefined) return [];
  const lines = AXLE_NAMES.flatMap((axle) => working.axles[axle]);
  const names = [...new Set(lines.map((line) => line.group))];
  return names.map((name) => {
    const symbols = [...new Set(lines.filter((line) => line.group === name).map((line) => line.symbol))];
    return {
      name,
      rows: symbols.map((symbol) =>
        rowOf(
          AXLE_NAMES.map((axle) => find(axle, symbol)),
          solid(symbol),
        ),
      ),
    };
  });

  function find(axle: AxleName, symbol: string): WorkingLine | null {
    return working?.axles[axle].find((line) => line.symbol === symbol) ?? null;
  }

  /** A solid height is not always given: each axle says where its own comes from. */
  function solid(symbol: string): string | null {
    if (!SOLID_SYMBOLS.includes(symbol)) return null;
    return AXLE_NAMES.map((axle) => `${axle}: ${wordOf(axles[axle], 'solid_height_source')}`).join('; ');
  }
}

const SOLID_SYMBOLS = ['S', 'S_least'];

function pairRows({ working }: Combination): QuantityRow[] {
  return (working?.pair ?? []).map((line) => rowOf([line], null));
}

/** One row of the lines of the same quantity, at least one of which exists. */
function rowOf(lines: readonly (WorkingLine | null)[], source: string | null): QuantityRow {
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
