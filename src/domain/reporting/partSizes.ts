/** The sizes of a part as they were given: one table of the fields of every part, none of which can be forgotten. */
import { snakeKey } from '../keys.ts';
import type {
  BumpStop,
  Damper,
  GasSpring,
  Helper,
  Isolator,
  Mount,
  Part,
  Perch,
  RodEnd,
  Sleeve,
  Spring,
} from '../parts.ts';
import { keyOf } from '../quantities/quantity.ts';
import type { PartSizes, SizeValue } from '../result.ts';
import type { AxleOptions, Family } from '../scenario.ts';
import type { Dimension } from '../units.ts';

/** How each field is written: a number by its dimension, which gives its key the unit; a word; or as it says itself. */
type SizeTable<P> = {
  readonly [Field in Exclude<keyof P, keyof Part>]: Dimension | 'word' | ((value: P[Field]) => PartSizes);
};

const DAMPER: SizeTable<Damper> = {
  extended: 'length',
  compressed: 'length',
  bodyLength: 'length',
  bodyDiameter: 'length',
  body: 'word',
  gas: gasSizes,
  forceVelocity: (points) => ({
    force_velocity:
      points?.map(({ velocity, bump, rebound }) => ({
        velocity_m_per_s: velocity,
        bump_n: bump,
        rebound_n: rebound,
      })) ?? null,
  }),
};

const MOUNT: SizeTable<Mount> = {
  raise: 'length',
  bareRaise: 'length',
  spacer: 'length',
  flangeDepth: 'length',
  bore: 'length',
  spigot: 'length',
  seat: 'word',
  bolted: 'word',
  lowerBush: 'length',
  washers: 'length',
  washerDiameter: 'length',
  bushGive: 'length',
};

const ISOLATOR: SizeTable<Isolator> = { thickness: 'length', bore: 'length', spigot: 'length' };

const BUMP_STOP: SizeTable<BumpStop> = {
  length: (cut) => ({ cut_length_mm: cut }),
  uncutLength: 'length',
  closedFraction: 'ratio',
  closedAtForce: 'force',
  diameter: 'length',
  packer: 'length',
  packerDiameter: 'length',
  curve: (curve) => ({
    curve_measured_length_mm: curve?.measuredLength ?? null,
    curve: curve?.points.map(({ squeeze, force }) => ({ squeeze_mm: squeeze, force_n: force })) ?? null,
  }),
};

const ROD_END: SizeTable<RodEnd> = {
  threadStart: 'length',
  threadEnd: 'length',
  plateThickness: 'length',
  upperBush: 'length',
  upperWashers: 'length',
  nut: 'length',
  jamNut: 'length',
};

const SLEEVE: SizeTable<Sleeve> = {
  ledgeHeight: 'length',
  length: 'length',
  bore: 'length',
  outerDiameter: 'length',
  trim: 'length',
  grooveDrop: 'length',
  threadPitch: 'length',
};

const PERCH: SizeTable<Perch> = {
  lockRing: 'length',
  height: 'length',
  inset: 'length',
  spigotDiameter: 'length',
  engagement: 'length',
};

const HELPER: SizeTable<Helper> = {
  freeLength: 'length',
  blockHeight: 'length',
  rate: 'rate',
  bore: 'length',
  coupler: 'length',
  couplerBore: 'length',
};

const SPRING: SizeTable<Spring> = {
  freeLength: 'length',
  rate: 'rate',
  rateEstimated: 'word',
  bore: 'length',
  solid: ({ source, height, least, most, thinWire, thickWire }) => ({
    ...{
      solid_height_mm: height,
      solid_height_source: source,
      least_solid_height_mm: least,
      most_solid_height_mm: most,
    },
    ...{ thin_wire_mm: thinWire, thick_wire_mm: thickWire },
  }),
  wire: (wire) => ({
    wire_mm: wire?.diameter ?? null,
    wire_estimated: wire?.estimated ?? null,
    active_coils: wire?.activeCoils ?? null,
    coils: wire?.totalCoils ?? null,
    material: wire?.material ?? null,
    material_given: wire?.materialGiven ?? null,
  }),
};

export type PartOf<F extends Family> = NonNullable<AxleOptions[F][number]>;

const SIZES: { readonly [F in Family]: SizeTable<PartOf<F>> } = {
  damper: DAMPER,
  mount: MOUNT,
  isolator: ISOLATOR,
  bumpStop: BUMP_STOP,
  rodEnd: ROD_END,
  sleeve: SLEEVE,
  perch: PERCH,
  helper: HELPER,
  spring: SPRING,
};

function gasSizes(gas: GasSpring): PartSizes {
  if (gas.kind === 'none') return { gas: 'none' };
  if (gas.kind === 'linear') return { gas: 'linear', gas_out_n: gas.outForce, gas_in_n: gas.inForce };
  return {
    ...{ gas: 'charge', gas_charge_at_working_temperature_mpa: gas.chargePressure },
    ...{ rod_area_mm2: gas.rodArea, gas_volume_mm3: gas.gasVolume },
  };
}

/** In the order of the table. */
export function sizesOf<F extends Family>(family: F, part: PartOf<F>): PartSizes {
  const table: Readonly<Record<string, Written>> = SIZES[family];
  const given = part as unknown as Readonly<Record<string, unknown>>;
  return Object.assign({}, ...Object.entries(table).map(([field, how]) => sizeOf(field, given[field], how)));
}

type Written = Dimension | 'word' | ((value: never) => PartSizes);

function sizeOf(field: string, value: unknown, how: Written): PartSizes {
  if (typeof how === 'function') return how(value as never);
  const id = snakeKey(field);
  return { [how === 'word' ? id : keyOf({ id, dimension: how })]: value as SizeValue };
}
