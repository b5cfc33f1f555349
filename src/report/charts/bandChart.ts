/**
 * Tolerance bands of lengths, a row each: the likely band as a bar, the worst case as a line through it, the value as
 * an upright mark. A broken line stands at 0, left of which parts would touch.
 */
import type { TopLevelSpec } from 'vega-lite';
import { paint } from '../theme.ts';
import { barLayer } from './bars.ts';
import { CONFIG, PLOT, roundedDomain, SCHEMA } from './config.ts';
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
  const domain = roundedDomain([0, ...rows.flatMap(({ worst }) => worst)], 10, 1);
  const at = (k: number, half: number) => ({ top: k * PITCH + MIDDLE - half, bottom: k * PITCH + MIDDLE + half });
  const height = PITCH * rows.length;
  return {
    $schema: SCHEMA,
    width: WIDTH,
    height,
    padding: 4,
    background: 'transparent',
    config: CONFIG,
    layer: [
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
    ],
  } as TopLevelSpec;
}

type Domain = readonly [number, number];

/** Beside the bars only: it would run through the names. */
function zero(domain: Domain, values: readonly object[]) {
  return {
    data: { values },
    mark: { type: 'rule', stroke: paint('alert'), strokeWidth: 1.5, strokeDash: [4, 3] },
    encoding: {
      x: {
        field: 'mm',
        type: 'quantitative',
        scale: { domain, nice: false, zero: false },
        // Inches below millimetres, as on a tape measure.
        axis: {
          title: 'mm (below: in)',
          tickCount: 6,
          grid: false,
          labelExpr: "[datum.label, format(datum.value / 25.4, '.2f')]",
        },
      },
      y: { field: 'top', type: 'quantitative', scale: null, axis: null },
      y2: { field: 'bottom' },
    },
  };
}

function lines(values: readonly object[]) {
  return {
    data: { values },
    mark: { type: 'rule', stroke: paint('ink'), strokeWidth: 1.5 },
    encoding: {
      x: { field: 'low', type: 'quantitative' },
      x2: { field: 'high' },
      y: { field: 'middle', type: 'quantitative', scale: null },
    },
  };
}

function uprights(values: readonly object[], strokeWidth: number) {
  return {
    data: { values },
    mark: { type: 'rule', stroke: paint('ink'), strokeWidth },
    encoding: {
      x: { field: 'mm', type: 'quantitative' },
      y: { field: 'top', type: 'quantitative', scale: null },
      y2: { field: 'bottom' },
    },
  };
}

/** Names stand at the left of the plot, above their bars. */
function words(rows: readonly BandRow[], [from]: Domain) {
  return {
    data: { values: rows.map(({ name }, k) => ({ name, mm: from, foot: k * PITCH + WORDS })) },
    mark: { type: 'text', align: 'left', baseline: 'bottom', dx: 4, fontSize: TYPE_SIZE, fill: paint('ink') },
    encoding: {
      x: { field: 'mm', type: 'quantitative' },
      y: { field: 'foot', type: 'quantitative', scale: null },
      text: { field: 'name', type: 'nominal' },
    },
  };
}
