/**
 * Tolerance bands of lengths, a row each: the likely band as a bar, the worst case as a line through it, the value as
 * an upright mark. A broken line stands at 0, left of which parts would touch.
 */

import type { TopLevelSpec } from 'vega-lite';
import { paint } from '../frame/theme.ts';
import { barLayer, chartOf, INCHES_BELOW, number, PLOT, pixels, scaleOver, stepDomain, textLayer } from './axes.ts';
import { TYPE_SIZE } from './draw.ts';

/** Lengths in mm. */
export interface BandRow {
  readonly name: string;
  readonly value: number;
  readonly likely: readonly [low: number, high: number];
  readonly worst: readonly [low: number, high: number];
}

/** With no axis at its left the plot takes the room of both. */
const WIDTH = PLOT + 44;
/** Of a row, px: from its top to its words' foot, the middle of its bar, and the next row. */
const WORDS = 12;
const MIDDLE = 22;
const PITCH = 36;
const HALF_BAR = 5;
const HALF_END = 4;
const HALF_MARK = 8;

export function bandChart(rows: readonly BandRow[]): TopLevelSpec {
  const domain = stepDomain([0, ...rows.flatMap(({ worst }) => worst)], 10, 1);
  const at = (k: number, half: number) => ({ top: k * PITCH + MIDDLE - half, bottom: k * PITCH + MIDDLE + half });
  const height = PITCH * rows.length;
  return chartOf(WIDTH, height, [
    zero(
      domain,
      rows.map((_, k) => ({ mm: 0, top: k * PITCH + WORDS + 2, bottom: (k + 1) * PITCH })),
    ),
    barLayer(rows.map(({ likely: [low, high] }, k) => ({ low, high, ...at(k, HALF_BAR) }))),
    lines(rows.map(({ worst: [low, high] }, k) => ({ low, high, middle: k * PITCH + MIDDLE }))),
    uprights(
      rows.flatMap(({ worst }, k) => worst.map((mm) => ({ mm, ...at(k, HALF_END) }))),
      1.5,
    ),
    uprights(
      rows.map(({ value }, k) => ({ mm: value, ...at(k, HALF_MARK) })),
      3,
    ),
    words(rows, domain),
  ]);
}

type Domain = readonly [number, number];

/** Beside the bars only: it would run through the names. */
function zero(domain: Domain, values: readonly object[]) {
  return {
    data: { values },
    mark: { type: 'rule', stroke: paint('alert'), strokeWidth: 1.5, strokeDash: [4, 3] },
    encoding: {
      x: number('mm', {
        scale: scaleOver(domain),
        axis: { title: 'mm (below: in)', tickCount: 6, grid: false, labelExpr: INCHES_BELOW },
      }),
      y: pixels('top', { axis: null }),
      y2: { field: 'bottom' },
    },
  };
}

function lines(values: readonly object[]) {
  return {
    data: { values },
    mark: { type: 'rule', stroke: paint('ink'), strokeWidth: 1.5 },
    encoding: {
      x: number('low'),
      x2: { field: 'high' },
      y: pixels('middle'),
    },
  };
}

function uprights(values: readonly object[], strokeWidth: number) {
  return {
    data: { values },
    mark: { type: 'rule', stroke: paint('ink'), strokeWidth },
    encoding: {
      x: number('mm'),
      y: pixels('top'),
      y2: { field: 'bottom' },
    },
  };
}

/** Names stand at the left of the plot, above their bars. */
function words(rows: readonly BandRow[], [from]: Domain) {
  const values = rows.map(({ name }, k) => ({ name, mm: from, y: k * PITCH + WORDS }));
  const mark = { align: 'left', baseline: 'bottom', dx: 4, fontSize: TYPE_SIZE, fill: paint('ink') };
  return textLayer(values, mark, 'name', { x: number('mm') });
}
