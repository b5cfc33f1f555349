/** Room to write in, with the units to write in, and what the scenario holds already. */
import type { MeasuredField } from '../../domain/measuring.ts';
import { AXLE_NAMES, type AxleName } from '../../domain/scenario.ts';
import { type Dimension, imperialUnit, innerUnit } from '../../domain/units.ts';
import { PAGE, unitSymbol } from '../numbers.ts';
import { measure } from '../read.ts';
import type { Row } from './rows.ts';

export interface Boxes {
  /** No box: a table of its own follows. */
  readonly isElsewhere: boolean;
  /** One box for the car, else front and rear. */
  readonly isOne: boolean;
  readonly columns: readonly (readonly Entry[])[];
}

export interface Entry {
  readonly label: string;
  readonly unit: string;
  readonly given: string;
}

export function boxesOf({ boxes }: Row, fields: readonly MeasuredField[]): Boxes {
  const isOne = boxes === 'car';
  const axles: readonly AxleName[] = isOne ? ['front'] : AXLE_NAMES;
  const entries = boxes === 'wheels' ? wheelEntries : plainEntries;
  return { isElsewhere: boxes === 'none', isOne, columns: axles.map((axle) => entries(fields, axle)) };
}

function plainEntries(fields: readonly MeasuredField[], axle: AxleName): Entry[] {
  return fields.map(({ path, dimension, values }) => ({
    label: fields.length > 1 ? (path.split('.').at(-1) ?? '') : '',
    unit: unitText(dimension),
    given: givenText(values[axle], dimension),
  }));
}

/** One load stands for both wheels, or each has its own. */
function wheelEntries(fields: readonly MeasuredField[], axle: AxleName): Entry[] {
  const valuesOf = (path: string) => fields.find((field) => field.path === path)?.values[axle] ?? [];
  const both = valuesOf('wheel_load');
  return (['left', 'right'] as const).map((side) => {
    const own = valuesOf(`wheel_load.${side}`);
    return { label: side, unit: unitText('mass'), given: givenText(own.length > 0 ? own : both, 'mass') };
  });
}

function unitText(dimension: Dimension): string {
  const imperial = imperialUnit(dimension);
  const units = [innerUnit(dimension), ...(imperial ? [imperial] : [])].map((unit) => unitSymbol(unit, PAGE));
  return units.filter((unit) => unit !== '').join(' · ');
}

/** Up to this many values are written out one by one. */
const MOST_LISTED = 3;

export function givenText(values: readonly number[], dimension: Dimension): string {
  if (values.length === 0) return '';
  const shown = values.map((value) => measure(value, dimension));
  const [first, last] = [shown[0], shown.at(-1)];
  if (!first || !last) return '';
  const many = values.length > MOST_LISTED;
  const join = (texts: readonly (string | null)[]) => (many ? `${texts[0]} to ${texts.at(-1)}` : texts.join(', '));
  const metric = `${join(shown.map((one) => one.metric))} ${first.unit}`.trim();
  const imperial = first.imperial === null ? '' : ` (${join(shown.map((one) => one.imperial))} ${first.imperialUnit})`;
  return `${metric}${imperial}${many ? `, ${values.length} values` : ''}`;
}
