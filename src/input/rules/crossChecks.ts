/**
 * Checks that span several entries of a scenario. They look at every entry that is sound by itself, whatever is wrong
 * elsewhere, so that all problems come at once.
 */
import type { z } from 'zod';
import type { LoadedCatalogues } from '../catalogue/loadCatalogues.ts';
import * as say from '../messages/rule.ts';
import { wheelLoad } from '../schema/axle.ts';
import { bumpStop } from '../schema/bumpStop.ts';
import { damper } from '../schema/damper.ts';
import { type PathComplaint, valueAt } from '../schema/issues.ts';
import { one } from '../schema/leaves.ts';
import { setup } from '../schema/setup.ts';
import { sleeve } from '../schema/sleeveAndPerch.ts';
import type { PathKey } from '../source/nodeAt.ts';
import { leastLoad } from '../values/wheelLoads.ts';
import { optionCounts } from './optionCounts.ts';
import { partNames } from './partNames.ts';
import { planChecks } from './plan.ts';
import { priceChecks } from './prices.ts';

const AXLES = ['front', 'rear'] as const;

type Path = readonly PathKey[];

export function crossChecks(data: unknown, catalogues: LoadedCatalogues): readonly PathComplaint[] {
  return [
    ...AXLES.flatMap((axle) => ledges(data, ['axles', axle])),
    ...AXLES.flatMap((axle) => grooves(data, ['axles', axle])),
    ...AXLES.flatMap((axle) => partNames(data, ['axles', axle])),
    ...AXLES.flatMap((axle) => optionCounts(data, ['axles', axle], catalogues)),
    ...curves(data),
    ...loadStates(data),
    ...cornering(data),
    ...wantedFrequencies(data),
    ...planChecks(data),
    ...priceChecks(data, catalogues),
  ];
}

/** The ledge a sleeve stands on is part of the body: below its top, for every damper of the axle. */
function ledges(data: unknown, axle: Path): readonly PathComplaint[] {
  const dampers = sound(data, [...axle, 'dampers'], damper).map(({ value }) => ({
    name: value.name,
    body: Math.min(...value.body_length),
  }));
  const shortest = dampers.sort((a, b) => a.body - b.body)[0];
  if (shortest === undefined) return [];
  return sound(data, [...axle, 'sleeves'], sleeve).flatMap(({ value, path }) => {
    const ledge = Math.max(...value.ledge_height);
    if (ledge < shortest.body) return [];
    const complaint = say.ledgeAboveBody(ledge, shortest.name, shortest.body);
    return [{ path: [...path, 'ledge_height'], at: 'value' as const, complaint }];
  });
}

/** A single tube is never grooved: every sleeve of the axle may come onto every damper. */
function grooves(data: unknown, axle: Path): readonly PathComplaint[] {
  const [single] = sound(data, [...axle, 'dampers'], damper).filter(({ value }) => value.body === 'single_tube');
  if (single === undefined) return [];
  return sound(data, [...axle, 'sleeves'], sleeve).flatMap(({ value, path }) => {
    const drop = Math.max(...value.groove_drop);
    if (drop === 0) return [];
    const complaint = say.grooveInSingleTube(drop, single.value.name);
    return [{ path: [...path, 'groove_drop'], at: 'value' as const, complaint }];
  });
}

/** Standing on the stop, and full bump under a load, need the force of every stop. */
function curves(data: unknown): readonly PathComplaint[] {
  const without = AXLES.flatMap((axle) => sound(data, ['axles', axle, 'bump_stops'], bumpStop))
    .filter(({ value }) => value.curve === undefined)
    .map(({ value }) => value.name);
  const names = [...new Set(without)];
  if (names.length === 0) return [];
  return list(data, ['setups']).flatMap((_, i) => {
    const path = ['setups', i];
    const bump = valueAt(data, [...path, 'bump']);
    const byLoad = typeof bump === 'object' && bump !== null;
    const standing = valueAt(data, [...path, 'standing_on_stop']) === true;
    return [
      ...(byLoad
        ? [{ path: [...path, 'bump'], at: 'value' as const, complaint: say.curvesNeeded('bump: { load }', names) }]
        : []),
      ...(standing
        ? [
            {
              path: [...path, 'standing_on_stop'],
              at: 'value' as const,
              complaint: say.curvesNeeded('standing_on_stop', names),
            },
          ]
        : []),
    ];
  });
}

/** No load state may take away the whole sprung mass of a wheel. */
function loadStates(data: unknown): readonly PathComplaint[] {
  const mass = one('mass', 'positive', '');
  return AXLES.flatMap((axle) => {
    const load = wheelLoad.safeParse(valueAt(data, ['axles', axle, 'wheel_load']));
    const unsprung = mass.safeParse(valueAt(data, ['axles', axle, 'unsprung_mass']));
    if (!load.success || !unsprung.success || leastLoad(load.data) <= unsprung.data) return [];
    const sprung = leastLoad(load.data) - unsprung.data;
    return sound(data, ['setups'], setup).flatMap(({ value, path }) =>
      value.load_states.flatMap((state, i) => {
        if (state[axle] > -sprung) return [];
        const complaint = say.stateLighterThanWheel(state[axle], sprung);
        return [{ path: [...path, 'load_states', i, axle], at: 'value' as const, complaint }];
      }),
    );
  });
}

/** Cornering is computed from the height of the sprung mass and the roll data of both axles. */
function cornering(data: unknown): readonly PathComplaint[] {
  const needed = [
    ['car', 'sprung_centre_height'],
    ['axles', 'front', 'roll'],
    ['axles', 'rear', 'roll'],
  ];
  const lacking = needed.filter((path) => valueAt(data, path) === undefined).map((path) => path.join('.'));
  if (lacking.length === 0) return [];
  return list(data, ['setups']).flatMap((_, i) =>
    list(data, ['setups', i, 'load_cases']).flatMap((loadCase, k): readonly PathComplaint[] => {
      if (valueAt(loadCase, ['lateral']) === undefined) return [];
      return [{ path: ['setups', i, 'load_cases', k, 'lateral'], at: 'value', complaint: say.corneringNeeds(lacking) }];
    }),
  );
}

/** A weight on the front frequency means nothing without a wanted one in every setup. */
function wantedFrequencies(data: unknown): readonly PathComplaint[] {
  const path = ['ranking', 'weights', 'front_frequency'];
  const weight = valueAt(data, path);
  if (typeof weight !== 'number' || !(weight > 0)) return [];
  const lacking = list(data, ['setups']).some(
    (_, i) => valueAt(data, ['setups', i, 'front', 'frequency', 'wanted']) === undefined,
  );
  const complaint = say.weightWithout('front_frequency', '`front.frequency.wanted` in every setup');
  return lacking ? [{ path, at: 'value', complaint }] : [];
}

/** The entries of a list that their schema accepts, read. */
function sound<T>(
  data: unknown,
  path: Path,
  schema: z.ZodType<T>,
): readonly { readonly value: T; readonly path: Path }[] {
  return list(data, path).flatMap((item, i) => {
    const read = schema.safeParse(item);
    return read.success ? [{ value: read.data, path: [...path, i] }] : [];
  });
}

function list(data: unknown, path: Path): readonly unknown[] {
  const value = valueAt(data, path);
  return Array.isArray(value) ? value : [];
}
