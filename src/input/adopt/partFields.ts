/** Which fields of a scenario hold a part's numbers, and the value of each in the part as built. */
import type { AxleAdoption } from '../../domain/audit/adoption.ts';
import type { ParameterName } from '../../domain/audit/parameters.ts';
import type { Corner } from '../../domain/corner/site.ts';
import type { Dimension } from '../../domain/units.ts';

/** Families that are adopted, each with its list in the scenario. Springs have an own file. */
export const LISTS = {
  damper: 'dampers',
  mount: 'mounts',
  bumpStop: 'bump_stops',
  sleeve: 'sleeves',
  perch: 'perches',
  helper: 'helpers',
} as const;
export type PartFamily = keyof typeof LISTS;

export interface PartField {
  readonly field: readonly string[];
  readonly dimension: Dimension;
  readonly value: number;
  /** True: the number was measured. Else it is only written where it was a choice among several. */
  readonly changed: boolean;
}

/** Which part a parameter belongs to. */
const FAMILY_OF: Readonly<Partial<Record<ParameterName, PartFamily>>> = {
  helper_free_length: 'helper',
  sleeve_length: 'sleeve',
  stop_length: 'bumpStop',
  flange_depth: 'mount',
  body_length: 'damper',
  ledge_height: 'sleeve',
  perch_height: 'perch',
};

export function changedFamilies({ changed }: AxleAdoption): readonly PartFamily[] {
  const families = (Object.keys(changed) as ParameterName[]).flatMap((name) => FAMILY_OF[name] ?? []);
  return [...new Set(families)];
}

/** All fields of a family's part, as built. */
export function fieldsOf(family: PartFamily, { corner, changed }: AxleAdoption): readonly PartField[] {
  const has = (name: ParameterName) => changed[name] !== undefined;
  const length = (field: string, value: number | null, isChanged = false): PartField[] =>
    value === null ? [] : [{ field: [field], dimension: 'length', value, changed: isChanged }];
  return FIELDS[family](corner, has, length);
}

type Length = (field: string, value: number | null, changed?: boolean) => PartField[];
type Has = (name: ParameterName) => boolean;

const FIELDS: Readonly<Record<PartFamily, (corner: Corner, has: Has, length: Length) => readonly PartField[]>> = {
  damper: ({ damper }, has, length) => [
    ...length('extended', damper.extended),
    ...length('compressed', damper.compressed),
    ...length('body_length', damper.bodyLength, has('body_length')),
    ...length('body_diameter', damper.bodyDiameter),
  ],
  mount: ({ mount }, has, length) => [
    ...length('raise', mount.bareRaise),
    ...length('plate_height', mount.bareRaise + mount.lowerBush + mount.washers),
    ...length('spacer', mount.spacer),
    ...length('flange_depth', mount.flangeDepth, has('flange_depth')),
    ...length('bore', mount.bore),
    ...length('spigot', mount.spigot),
    ...length('lower_bush', mount.lowerBush),
    ...length('washers', mount.washers),
    ...length('washer_diameter', mount.washerDiameter),
    ...length('bush_give', mount.bushGive),
  ],
  bumpStop: ({ bumpStop }, has, length) => [
    ...length('length', bumpStop.uncutLength, has('stop_length')),
    ...length('cut_length', bumpStop.length, has('stop_length')),
    { field: ['closed_fraction'], dimension: 'ratio', value: bumpStop.closedFraction, changed: false },
    ...length('diameter', bumpStop.diameter),
    ...length('packer', bumpStop.packer),
    ...length('packer_diameter', bumpStop.packer > 0 ? bumpStop.packerDiameter : null),
  ],
  sleeve: ({ sleeve }, has, length) => [
    ...length('ledge_height', sleeve.ledgeHeight, has('ledge_height')),
    ...length('length', sleeve.length, has('sleeve_length')),
    ...length('bore', sleeve.bore),
    ...length('outer_diameter', sleeve.outerDiameter),
    ...length('groove_drop', sleeve.grooveDrop),
    ...length('trim', sleeve.trim, has('sleeve_length')),
  ],
  perch: ({ perch }, has, length) => [
    ...length('lock_ring', perch.lockRing),
    ...length('height', perch.height, has('perch_height')),
    ...length('inset', perch.inset),
    ...length('spigot_diameter', perch.spigotDiameter),
    ...length('engagement', perch.engagement),
  ],
  helper: ({ helper }, has, length) =>
    helper === null
      ? []
      : [
          ...length('free_length', helper.freeLength, has('helper_free_length')),
          ...length('block_height', helper.blockHeight),
          { field: ['rate'], dimension: 'rate', value: helper.rate, changed: false },
          ...length('bore', helper.bore),
          { field: ['coupler', 'thickness'], dimension: 'length', value: helper.coupler, changed: false },
          { field: ['coupler', 'bore'], dimension: 'length', value: helper.couplerBore, changed: false },
        ],
};
