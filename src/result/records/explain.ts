/** The full working of one combination. */
import type { CriterionScore } from '../../model/corner/score.ts';
import type { AxleName, Family } from '../../model/scenario.ts';
import { STANDARD_ATMOSPHERE, STANDARD_GRAVITY } from '../../model/units.ts';
import { pairQuantities } from '../quantities/pair.ts';
import type { Quantity, WorkingLine } from '../quantities/quantity.ts';
import type { CombinationWorking, Failure, Flag, PartChoice } from '../result.ts';
import { combinationOf, type JudgedPair, quantitiesOf } from './combination.ts';

export function explanationOf(pair: JudgedPair, fingerprint: string): Explanation {
  const combination = combinationOf(pair, 1, fingerprint);
  const { front, rear } = combination.axles;
  const working = workingOfPair(pair);
  return {
    id: combination.id,
    setup: pair.setup.name,
    scenarioName: pair.scenario.name,
    workable: combination.workable,
    failures: [...front.failures, ...rear.failures, ...combination.failures],
    flags: [...front.flags, ...rear.flags, ...combination.flags],
    axles: {
      front: { id: front.id, parts: front.parts, lines: working.axles.front },
      rear: { id: rear.id, parts: rear.parts, lines: working.axles.rear },
    },
    pair: working.pair,
    criteria: combination.criteria,
    score: combination.score,
  };
}

/** Every quantity of both corners and of the pair, as lines. */
export function workingOfPair(pair: JudgedPair): CombinationWorking {
  const lines = (axle: AxleName) => workingLines(quantitiesOf(pair, axle), pair.workings[axle]);
  return {
    axles: { front: lines('front'), rear: lines('rear') },
    pair: workingLines(pairQuantities(pair.setup), { scenario: pair.scenario, ...pair.workings }),
  };
}

// The full working of one combination: what `explain` prints.

export type { WorkingLine };

export interface Explanation {
  readonly id: string;
  readonly setup: string;
  readonly scenarioName: string;
  readonly workable: boolean;
  readonly failures: readonly Failure[];
  readonly flags: readonly Flag[];
  readonly axles: Readonly<Record<AxleName, ExplainedCorner>>;
  readonly pair: readonly WorkingLine[];
  readonly criteria: readonly CriterionScore[];
  readonly score: number;
}

export interface ExplainedCorner {
  readonly id: string;
  readonly parts: Readonly<Record<Family, PartChoice>>;
  readonly lines: readonly WorkingLine[];
}

// Quantities as lines of a working: each formula in symbols, then with its numbers put in.

/** Constants that expressions may name beside quantities. */
export const EXPRESSION_CONSTANTS: Readonly<Record<string, number>> = {
  g_n: STANDARD_GRAVITY,
  p_a: STANDARD_ATMOSPHERE,
  pi: Math.PI,
};

const FUNCTIONS = new Set(['min', 'max', 'sqrt']);

/** Lines of all quantities that exist, in their order. */
export function workingLines<T>(quantities: readonly Quantity<T>[], from: T): WorkingLine[] {
  const values = new Map(Object.entries(EXPRESSION_CONSTANTS));
  for (const q of quantities) values.set(q.symbol, q.read(from) ?? Number.NaN);
  return quantities.flatMap((q) => {
    const value = q.read(from);
    if (value === null) return unknownLine(q);
    const expression = q.expression(from);
    const { symbol, label, dimension, group } = q;
    const filled = expression === null ? null : fillIn(expression, values);
    return [{ symbol, label, expression, filled, value, dimension, source: q.source(from), group }];
  });
}

/** A quantity whose value is not known says so where others say their source. */
function unknownLine<T>({ symbol, label, dimension, group, unknown }: Quantity<T>): WorkingLine[] {
  if (unknown === null) return [];
  return [{ symbol, label, expression: null, filled: null, value: null, dimension, source: unknown, group }];
}

/** Puts numbers in place of symbols, six significant digits; what is negative goes into brackets. */
export function fillIn(expression: string, values: ReadonlyMap<string, number>): string {
  return expression.replace(/[A-Za-z_][A-Za-z_0-9]*/g, (name) => {
    if (FUNCTIONS.has(name)) return name;
    const value = values.get(name);
    if (value === undefined) return name;
    const text = shortNumber(value);
    return value < 0 ? `(${text})` : text;
  });
}

function shortNumber(value: number): string {
  return Number.isFinite(value) ? String(Number(value.toPrecision(6))) : String(value);
}
