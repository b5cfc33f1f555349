/** The sizes of a part as they were given, by the table of its fields, of which none can be forgotten. */
import { snakeKey } from '../../model/keys.ts';
import { type FieldsThatAre, type GasSpring, PART_FIELDS } from '../../model/parts.ts';
import type { AxleOptions, Family } from '../../model/scenario.ts';
import type { Dimension } from '../../model/units.ts';
import { keyOf } from '../quantities/quantity.ts';
import type { PartSizes, SizeValue } from '../result.ts';

export type PartOf<F extends Family> = NonNullable<AxleOptions[F][number]>;

type Writers<F extends Family, K extends keyof PartOf<F>> = { readonly [N in K]: (value: PartOf<F>[N]) => PartSizes };
type Records<F extends Family> = FieldsThatAre<'record', F> & keyof PartOf<F>;
type WritersOfRecords = { readonly [F in Family as Records<F> extends never ? never : F]: Writers<F, Records<F>> };

/** How each record is written, and a number whose key is not its field's name. */
const WRITERS: WritersOfRecords & { readonly bumpStop: Writers<'bumpStop', 'length'> } = {
  damper: {
    gas: gasSizes,
    forceVelocity: (points) => ({
      force_velocity:
        points?.map(({ velocity, bump, rebound }) => ({
          velocity_m_per_s: velocity,
          bump_n: bump,
          rebound_n: rebound,
        })) ?? null,
    }),
  },
  bumpStop: {
    length: (cut) => ({ cut_length_mm: cut }),
    curve: (curve) => ({
      curve_measured_length_mm: curve?.measuredLength ?? null,
      curve: curve?.points.map(({ squeeze, force }) => ({ squeeze_mm: squeeze, force_n: force })) ?? null,
    }),
  },
  spring: {
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
  },
};

function gasSizes(gas: GasSpring): PartSizes {
  if (gas.kind === 'none') return { gas: 'none' };
  if (gas.kind === 'linear') return { gas: 'linear', gas_out_n: gas.outForce, gas_in_n: gas.inForce };
  return {
    ...{ gas: 'charge', gas_charge_at_working_temperature_mpa: gas.chargePressure },
    ...{ rod_area_mm2: gas.rodArea, gas_volume_mm3: gas.gasVolume },
  };
}

/** In the order of the table; what was not given is null. */
export function sizesOf<F extends Family>(family: F, part: PartOf<F>): PartSizes {
  const given = part as unknown as Readonly<Record<string, SizeValue>>;
  const writers: Readonly<Record<string, (value: never) => PartSizes>> =
    { ...WRITERS }[family as keyof typeof WRITERS] ?? {};
  const sizes = Object.entries(PART_FIELDS[family]).map(([field, is]: [string, Dimension | 'word' | 'record']) => {
    const value = given[field] ?? null;
    const id = snakeKey(field);
    return (
      writers[field]?.(value as never) ?? { [is === 'word' ? id : keyOf({ id, dimension: is as Dimension })]: value }
    );
  });
  return Object.assign({}, ...sizes);
}
