/**
 * The numbers of a model that an audit may correct: how each is read, and the model with another value in its place.
 * Those that were cut are what was measured after cutting; `motion_offset` is a shift of the damper lengths measured
 * against ride height, 0 as given.
 */
import type { Corner } from '../../model/corner/site.ts';
import { type Dimension, STANDARD_GRAVITY } from '../../model/units.ts';
import type { Model } from '../../result/tolerance/inputs.ts';

export const PARAMETERS = [
  'free_length',
  'rate',
  'solid_height',
  'helper_free_length',
  'sleeve_length',
  'stop_length',
  'wheel_load',
  'flange_depth',
  'body_length',
  'ledge_height',
  'perch_height',
  'motion_offset',
] as const;
export type ParameterName = (typeof PARAMETERS)[number];

interface Parameter {
  readonly dimension: Dimension;
  /** Null where the corner has no such part. */
  readonly read: (model: Model) => number | null;
  readonly set: (model: Model, value: number) => Model;
}

const corner = (model: Model, change: Partial<Corner>): Model => ({
  site: model.site,
  corner: { ...model.corner, ...change },
});

/** A length of a part that every corner has, and nothing else of it with it. */
const lengthOf = <F extends 'spring' | 'mount' | 'damper' | 'sleeve' | 'perch'>(
  family: F,
  field: keyof Corner[F],
): Parameter => ({
  dimension: 'length',
  read: (m) => m.corner[family][field] as number,
  set: (m, length) => corner(m, { [family]: { ...m.corner[family], [field]: length } }),
});

const TABLE: Readonly<Record<ParameterName, Parameter>> = {
  free_length: lengthOf('spring', 'freeLength'),
  rate: {
    dimension: 'rate',
    read: (m) => m.corner.spring.rate,
    set: (m, rate) => corner(m, { spring: { ...m.corner.spring, rate, rateEstimated: false } }),
  },
  solid_height: {
    dimension: 'length',
    read: (m) => m.corner.spring.solid.height,
    set: (m, height) => {
      const solid = { source: 'wire x coils', height, least: height, most: height } as const;
      return corner(m, { spring: { ...m.corner.spring, solid: { ...solid, thinWire: null, thickWire: null } } });
    },
  },
  helper_free_length: {
    dimension: 'length',
    read: (m) => m.corner.helper?.freeLength ?? null,
    set: (m, freeLength) => (m.corner.helper ? corner(m, { helper: { ...m.corner.helper, freeLength } }) : m),
  },
  sleeve_length: {
    dimension: 'length',
    read: (m) => m.corner.sleeve.length - m.corner.sleeve.trim,
    set: (m, cut) => {
      // A sleeve longer than it was bought was bought longer; any other difference is cut off.
      const length = Math.max(m.corner.sleeve.length, cut);
      return corner(m, { sleeve: { ...m.corner.sleeve, length, trim: length - cut } });
    },
  },
  stop_length: {
    dimension: 'length',
    read: (m) => m.corner.bumpStop.length,
    set: (m, length) => {
      const uncutLength = Math.max(m.corner.bumpStop.uncutLength, length);
      return corner(m, { bumpStop: { ...m.corner.bumpStop, length, uncutLength } });
    },
  },
  wheel_load: { dimension: 'mass', read: (m) => m.site.sprungMass + m.site.unsprungMass, set: withWheelLoad },
  flange_depth: lengthOf('mount', 'flangeDepth'),
  body_length: lengthOf('damper', 'bodyLength'),
  ledge_height: lengthOf('sleeve', 'ledgeHeight'),
  perch_height: lengthOf('perch', 'height'),
  motion_offset: {
    dimension: 'length',
    read: () => 0,
    set: ({ site, corner: parts }, offset) => {
      const bases = site.motion.bases.map((base) => base + offset);
      return { corner: parts, site: { ...site, motion: { ...site.motion, bases } } };
    },
  },
};

export function dimensionOf(name: ParameterName): Dimension {
  return TABLE[name].dimension;
}

/** The value in a model, in inner units; null where its part does not exist. */
export function readParameter(model: Model, name: ParameterName): number | null {
  return TABLE[name].read(model);
}

/** The model with another value in its place; a part that does not exist stays so. */
export function withParameter(model: Model, name: ParameterName, value: number): Model {
  return TABLE[name].set(model, value);
}

/** Another load on the wheel moves every load state with it. */
function withWheelLoad({ site, corner: parts }: Model, wheelLoad: number): Model {
  const sprungMass = wheelLoad - site.unsprungMass;
  const more = sprungMass - site.sprungMass;
  const loads = site.loads.map((load) => {
    const mass = load.sprungMass + more;
    return { ...load, sprungMass: mass, sprungLoad: mass * STANDARD_GRAVITY };
  });
  const sprungLoad = sprungMass * STANDARD_GRAVITY;
  const heaviestLoad = Math.max(sprungLoad, ...loads.map((l) => l.sprungLoad));
  return { corner: parts, site: { ...site, sprungMass, sprungLoad, loads, heaviestLoad } };
}
