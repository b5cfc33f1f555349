/** The one table of what is usual where nobody measured: a value, how far off it may be, and who says so. */

import { readQuantity } from '../values/quantity.ts';

/** A field's neighbours as written, and the path of the mapping they stand in. */
interface Beside {
  readonly siblings: Readonly<Record<string, unknown>>;
  readonly at: string;
}

export interface AssumedValue {
  /** As the user would write it. */
  readonly take: string | number | object;
  /** How far off it may be to either side, in inner units; of a gas push as a fraction of 1. */
  readonly give: number;
  /** Not given: common practice, no source. */
  readonly source?: string;
}

/** What is usual where more is known: the first that holds counts. */
interface Kind extends AssumedValue {
  readonly of: string;
  readonly holds: (beside: Beside) => boolean;
}

export interface Assumable extends AssumedValue {
  readonly kinds?: readonly Kind[];
}

const TYRES =
  'from memory: Rhyne (2005), Tire Science and Technology 33(3), at 210 kPa and the usual diameter of such a tyre';

const isRear = ({ at }: Beside) => at.endsWith('rear');
const isDriven = ({ siblings }: Beside) => siblings.driven === true;
const isNotDriven = ({ siblings }: Beside) => siblings.driven === false;

function isNarrowerThan(limit: number): Kind['holds'] {
  return ({ siblings }) => {
    const read = readQuantity(siblings.tyre_width, { dimension: 'length', sign: 'positive' });
    return 'value' in read && read.value < limit;
  };
}
const isOf =
  (material: string): Kind['holds'] =>
  ({ siblings }) =>
    siblings.material === material;

// biome-ignore format: one row a value
export const ASSUMABLE = {
  unsprungMass: {
    take: '32 kg', give: 12,
    kinds: [
      { of: 'a driven rear axle', holds: (b) => isRear(b) && isDriven(b), take: '38 kg', give: 14 },
      { of: 'a rear axle that is not driven', holds: (b) => isRear(b) && isNotDriven(b), take: '28 kg', give: 9 },
      { of: 'a driven front axle', holds: isDriven, take: '35 kg', give: 10 },
      { of: 'a front axle that is not driven', holds: isNotDriven, take: '29 kg', give: 9 },
      { of: 'a rear axle', holds: isRear, take: '33 kg', give: 15 },
    ],
  },
  tyreRate: {
    take: '215 N/mm', give: 50,
    kinds: [
      { of: 'a tyre narrower than 175 mm', holds: isNarrowerThan(175), take: '185 N/mm', give: 40, source: TYRES },
      { of: 'a tyre of 175 mm to less than 200 mm', holds: isNarrowerThan(200), take: '205 N/mm', give: 40, source: TYRES },
      { of: 'a tyre of 200 mm to less than 230 mm', holds: isNarrowerThan(230), take: '230 N/mm', give: 45, source: TYRES },
      { of: 'a tyre of 230 mm or wider', holds: isNarrowerThan(Number.POSITIVE_INFINITY), take: '255 N/mm', give: 50, source: TYRES },
    ],
  },
  closedFraction: {
    take: 0.35, give: 0.15,
    kinds: [
      { of: 'a foam stop', holds: isOf('foam'), take: 0.3, give: 0.08 },
      { of: 'a rubber stop', holds: isOf('rubber'), take: 0.5, give: 0.1 },
    ],
  },
  pitchInertiaRatio: { take: 0.95, give: 0.1 },
  gas: { take: { out: '150 N' }, give: 0.9 },
  lockRing: { take: '8 mm', give: 4 },
  engagement: { take: '6 mm', give: 4 },
  bushGive: { take: '3 mm', give: 2 },
  lowerBush: { take: '15 mm', give: 6 },
  washers: { take: '3 mm', give: 2 },
  isolator: { take: '6 mm', give: 3 },
} as const satisfies Readonly<Record<string, Assumable>>;

/** What is usual beside these neighbours. */
export function assumedBeside(usual: Assumable, siblings: Beside['siblings'], at: string): AssumedValue {
  return usual.kinds?.find(({ holds }) => holds({ siblings, at })) ?? usual;
}

/** `32 kg, 12 kg either way` */
export function assumedInWords({ take, give }: AssumedValue): string {
  return `${valueInWords(take)}, ${giveInWords(take, give)} either way`;
}

/** All of a row with its sources: the value, and what it is where more is known. */
export function allAssumedInWords({ kinds = [], ...base }: Assumable): string {
  const said = [assumedInWords(base), ...kinds.map((kind) => `of ${kind.of} ${assumedInWords(kind)}`)];
  const sources = new Set([base, ...kinds].map(({ source = 'common practice, no source' }) => source));
  return `${said.join('; ')} (${[...sources].join('; ')})`;
}

const isRecord = (take: unknown) => typeof take === 'object';

function valueInWords(take: AssumedValue['take']): string {
  return isRecord(take) ? Object.values(take).join(', ') : String(take);
}

function giveInWords(take: AssumedValue['take'], give: number): string {
  if (isRecord(take)) return `${(100 * give).toFixed(0)} %`;
  const unit = typeof take === 'string' ? take.replace(/^\S+ /, '') : '';
  return `${give} ${unit}`.trim();
}
