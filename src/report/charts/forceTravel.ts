/**
 * Forces at the wheel over its travel: spring with a helper’s knee, gas, stop, and all together, with upright marks
 * where something begins or ends. Bump is to the right; 0 is standing.
 */

import type { TopLevelSpec } from 'vega-lite';
import type { ForceCurve } from '../../model/corner/forceCurve.ts';
import { paint } from '../frame/theme.ts';
import { chartOf, number, PLOT, scaleOver, stepDomain } from './axes.ts';
import { bandFor, type ChartMark, markLayers } from './marksAbove.ts';

export interface ForceChart {
  readonly curve: ForceCurve;
  /** Ride height standing, and where the stop is just met, mm. */
  readonly standing: number;
  readonly stopAt: number;
  /** Force at the wheel standing, N. */
  readonly load: number;
  /** Marks with their ride heights, mm. */
  readonly marks: readonly ChartMark[];
  /** Pixels of the plot; by default a phone’s page. */
  readonly plot?: { readonly width: number; readonly height: number };
}

const ON_SCREEN = { width: PLOT, height: 210 };
/** A third of a printed page. */
export const ON_PAPER = { width: 206, height: 78 };
/** Highest force shown, in loads carried standing: a stop nearly closed would flatten all the rest. */
const MOST_LOADS = 5;

/** Told apart by dashes as well as by colour, so that grey paper does. */
export const SERIES = [
  { name: 'total', key: 'total_n', stroke: paint('ink'), dash: [1, 0] },
  { name: 'spring', key: 'spring_n', stroke: paint('accent'), dash: [12, 2] },
  { name: 'gas', key: 'gas_n', stroke: paint('muted'), dash: [5, 3] },
  { name: 'bump stop', key: 'stop_n', stroke: paint('alert'), dash: [2, 2] },
  { name: 'twisted bushes', key: 'bush_n', stroke: paint('muted'), dash: [8, 3, 2, 3] },
] as const;

export function forceChart(chart: ForceChart): TopLevelSpec {
  const shown = SERIES.filter(({ key }) => key === 'total_n' || chart.curve[key].some((force) => (force ?? 0) !== 0));
  const marks = chart.marks.map((mark) => ({ ...mark, at: chart.standing - mark.at }));
  const { width, height } = chart.plot ?? ON_SCREEN;
  const top = bandFor(marks);
  const bottom = top + height;
  const domain = stepDomain([...marks.map(({ at }) => at), ...travels(chart)], 10, 2);
  return chartOf(width, bottom, [
    lines(chart, shown, domain, [bottom, top], shown.length > 3 && width < PLOT ? 2 : 4),
    ...markLayers(marks, { width, bottom, domain }, top),
  ]);
}

type Shown = readonly (typeof SERIES)[number][];

function lines(
  chart: ForceChart,
  shown: Shown,
  domain: readonly [number, number],
  range: readonly [number, number],
  columns: number,
) {
  return {
    data: { values: rowsOf(chart, shown) },
    mark: { type: 'line', strokeJoin: 'round', strokeWidth: 2 },
    encoding: {
      x: number('travel', {
        scale: scaleOver(domain),
        axis: {
          title: ['wheel travel in bump, mm', '(below: hub to arch, mm)'],
          tickCount: 7,
          labelExpr: `[datum.label, format(${chart.standing} - datum.value, '.0f')]`,
          grid: false,
        },
      }),
      y: number('force', {
        scale: { domain: [lowestForce(chart), highestForce(chart)], range, nice: true },
        axis: { title: 'force at the wheel, N', tickCount: 5, format: 'd' },
      }),
      ...styles(shown, columns),
    },
  };
}

function styles(shown: Shown, columns: number) {
  const domain = shown.map(({ name }) => name);
  const by = (range: readonly unknown[], legend: unknown) => ({
    field: 'part',
    type: 'nominal',
    scale: { domain, range },
    legend,
  });
  const legend = { title: null, orient: 'bottom', columns, symbolType: 'stroke', columnPadding: 10 };
  return {
    stroke: by(
      shown.map(({ stroke }) => stroke),
      legend,
    ),
    strokeDash: by(
      shown.map(({ dash }) => dash),
      legend,
    ),
  };
}

/** Past the stop of unknown force nothing is known of stop and total; what rises out of the chart ends at its top. */
function rowsOf(chart: ForceChart, shown: Shown) {
  const { curve, standing, stopAt } = chart;
  const top = highestForce(chart);
  return shown.flatMap(({ name, key }) => {
    const points = curve.height_mm.flatMap((height, k): Point[] => {
      const force = curve[key][k] ?? null;
      return force === null ? [] : [{ travel: standing - height, force }];
    });
    const isKnown = curve.stop_known || key !== 'total_n';
    const known = isKnown ? points : points.filter(({ travel }) => travel <= standing - stopAt + 1e-3);
    return below(known, top).map(({ travel, force }) => ({
      travel: Math.round(travel * 10) / 10,
      force: Math.round(force),
      part: name,
    }));
  });
}

interface Point {
  readonly travel: number;
  readonly force: number;
}

/** The points up to `top`, with one on it where a line leaves. */
export function below(points: readonly Point[], top: number): Point[] {
  return points.flatMap((point, k) => {
    if (point.force <= top) return [point];
    const neighbours = [points[k - 1], points[k + 1]];
    return neighbours.flatMap((other) => (other && other.force < top ? [crossing(other, point, top)] : []));
  });
}

function crossing(low: Point, high: Point, top: number): Point {
  const share = (top - low.force) / (high.force - low.force);
  return { travel: low.travel + share * (high.travel - low.travel), force: top };
}

function travels({ curve, standing }: ForceChart): number[] {
  return [curve.height_mm[0], curve.height_mm.at(-1)].flatMap((height) =>
    height === undefined ? [] : [standing - height],
  );
}

function highestForce({ curve, load }: ForceChart): number {
  return Math.min(Math.max(...known(curve.total_n), ...curve.spring_n), MOST_LOADS * load);
}

function lowestForce({ curve }: ForceChart): number {
  return Math.min(0, ...curve.bush_n, ...known(curve.total_n));
}

function known(forces: readonly (number | null)[]): number[] {
  return forces.filter((force) => force !== null);
}
