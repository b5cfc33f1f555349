/**
 * Free length x rate: the best score of any combination with that spring as a figure on a shade, and for a spring that
 * never works a letter for the check that rejects most of its combinations.
 */
import type { TopLevelSpec } from 'vega-lite';
import type { SpringCell } from '../../domain/result.ts';
import { paint } from '../theme.ts';
import { CONFIG, SCHEMA } from './config.ts';
import { TYPE_SIZE } from './draw.ts';
import { type ChosenSpring, type MapCell, MOST_CELLS, mapCells } from './springCells.ts';

const WIDTH = 262;
const ROW = 20;

export interface SpringMap {
  readonly cells: readonly SpringCell[];
  /** The spring of the best combination, outlined. */
  readonly chosen: ChosenSpring;
}

export function springMap({ cells, chosen }: SpringMap): TopLevelSpec {
  const drawn = mapCells(cells, chosen, MOST_CELLS);
  const columns = [...new Set(drawn.map(({ column }) => column))].sort(
    (a, b) => Number.parseFloat(a) - Number.parseFloat(b),
  );
  const rows = [...new Set(drawn.map(({ row }) => row))];
  const places = { columns, rows };
  const width = Math.min(WIDTH, columns.length * 48);
  return {
    $schema: SCHEMA,
    width,
    height: rows.length * ROW,
    padding: 4,
    background: 'transparent',
    config: CONFIG,
    layer: [
      ...shades(drawn, places),
      figures(
        drawn.filter(({ score }) => score !== null),
        places,
        paint('ink'),
      ),
      figures(
        drawn.filter(({ score }) => score === null),
        places,
        paint('muted'),
      ),
    ],
  } as TopLevelSpec;
}

interface Places {
  readonly columns: readonly string[];
  readonly rows: readonly string[];
}

/** The whole order stands in each scale: layers hold only some of the cells. */
function encoding({ columns, rows }: Places) {
  const axis = (title: string) => ({ title, domain: false, ticks: false, labelAngle: 0 });
  return {
    x: {
      field: 'column',
      type: 'ordinal',
      scale: { domain: columns },
      axis: { ...axis('free length, mm (below: in)'), labelExpr: "split(datum.label, '|')" },
    },
    y: { field: 'row', type: 'ordinal', scale: { domain: rows }, axis: axis('rate, N/mm (lbf/in)') },
  };
}

/** A shade for what works, an empty frame for what doesn’t, a thick frame for the best combination’s spring. */
function shades(drawn: readonly MapCell[], places: Places): object[] {
  const layer = (values: readonly MapCell[], mark: object, extra: object = {}) => ({
    data: { values },
    mark: { type: 'rect', ...mark },
    encoding: { ...encoding(places), ...extra },
  });
  const works = drawn.filter(({ score }) => score !== null);
  return [
    layer(drawn, { fill: paint('panel'), stroke: paint('paper'), strokeWidth: 1.5 }),
    layer(
      works,
      { fill: paint('accent'), stroke: paint('paper'), strokeWidth: 1.5 },
      {
        fillOpacity: {
          field: 'score',
          type: 'quantitative',
          scale: { domain: [0, 1], range: [0.12, 0.55] },
          legend: null,
        },
      },
    ),
    layer(
      drawn.filter(({ isChosen }) => isChosen),
      { fill: null, stroke: paint('ink'), strokeWidth: 2 },
    ),
  ];
}

function figures(drawn: readonly MapCell[], places: Places, fill: string): object {
  const texts = drawn.map(({ column, row, score, letter }) => ({
    column,
    row,
    text: score === null ? letter : score.toFixed(2).replace(/^0/, ''),
  }));
  return {
    data: { values: texts },
    mark: { type: 'text', fontSize: TYPE_SIZE, baseline: 'middle', fill },
    encoding: { ...encoding(places), text: { field: 'text', type: 'nominal' } },
  };
}
