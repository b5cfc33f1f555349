/**
 * Free length x rate: what would work with a spring of that size. Each way has its place in the cell, its shape and its
 * shade; what rests on the least that an estimated solid height could be is hollow.
 */

import type { TopLevelSpec } from 'vega-lite';
import type { WorksAt, WouldWork, WouldWorkCell } from '../../result/nothing.ts';
import { paint } from '../frame/theme.ts';
import { chartOf, PLOT } from './axes.ts';
import { encoding, lengthName, rateName } from './springMap.ts';

const ROW = 22;

/** The ways in which a cell can work, as the marks show them. */
export const WAY_MARKS = {
  as_listed: { label: 'with parts as listed', shape: 'square', offset: -12, fill: 'accent', sign: 'M1 1h8v8h-8z' },
  trim: { label: 'with another sleeve trim', shape: 'triangle-up', offset: -4, fill: 'ink', sign: 'M5 1 9 9H1z' },
  helper: { label: 'with a generic helper', shape: 'circle', offset: 4, fill: 'muted', sign: 'M5 1a4 4 0 1 1-.01 0z' },
  mount: { label: 'with another mount height', shape: 'diamond', offset: 12, fill: 'line', sign: 'M5 0 9 5 5 10 1 5z' },
} as const;
type Way = keyof typeof WAY_MARKS;
export const MARKED_WAYS = Object.keys(WAY_MARKS) as Way[];

export function wouldWorkMap({ cells, lengths_mm, rates_n_per_mm }: WouldWork): TopLevelSpec {
  const columns = lengths_mm.map(lengthName);
  const rows = rates_n_per_mm.map(rateName).toReversed();
  const layer = (values: readonly object[], mark: object) => ({
    data: { values },
    mark,
    encoding: encoding({ columns, rows }),
  });
  const place = ({ free_length_mm, rate_n_per_mm }: WouldWorkCell) => {
    return { column: lengthName(free_length_mm), row: rateName(rate_n_per_mm) };
  };
  const marks = MARKED_WAYS.flatMap((way) =>
    (['judged', 'least'] as const).flatMap((solid) => {
      const found = cells.filter((cell) => (cell[way] as WorksAt | null)?.solid === solid);
      return found.length === 0 ? [] : [layer(found.map(place), markOf(way, solid))];
    }),
  );
  const tried = { type: 'rect', fill: paint('panel'), stroke: paint('paper'), strokeWidth: 1.5 };
  const width = Math.min(PLOT, columns.length * 48);
  return chartOf(width, rows.length * ROW, [layer(cells.map(place), tried), ...marks]);
}

function markOf(way: Way, solid: WorksAt['solid']): object {
  const { shape, offset, fill } = WAY_MARKS[way];
  const shade = solid === 'judged' ? paint(fill) : paint('paper');
  return {
    type: 'point',
    shape,
    size: 46,
    xOffset: offset,
    filled: true,
    fill: shade,
    stroke: paint('ink'),
    opacity: 1,
    strokeWidth: 1,
  };
}
