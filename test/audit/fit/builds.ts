/** Simulated builds: the parts as chosen, their values moved inside tolerance, perhaps one thing wrong, and measured. */
import { symmetricDraws } from '../../../src/advice/cars.ts';
import { type MeasuredUnit, type Readings, unmeasured } from '../../../src/audit/fit/measured.ts';
import { heightOn, perchFor } from '../../../src/model/corner/balance.ts';
import { geometryOf } from '../../../src/model/corner/geometry.ts';
import { cornerAt } from '../../../src/model/corner/options.ts';
import { siteOf } from '../../../src/model/corner/site.ts';
import { snugAt } from '../../../src/model/corner/snug.ts';
import { fromBase32 } from '../../../src/model/ids.ts';
import type { AxleName, AxleOptions, Scenario } from '../../../src/model/scenario.ts';
import { type Model, offBy, TOLERANCE_INPUTS } from '../../../src/result/tolerance/inputs.ts';
import { realScenario, type ScenarioName } from '../../setup/scenarios.ts';

export const READINGS: Readings = { length: 0.5, rideHeight: 2, wheelLoad: 1, wire: 0.05, coils: 0.1, rateShare: 0.01 };

/** A combination of each scenario that comes with the tool, the best of one of its setups. */
export const BUILT: Readonly<Record<ScenarioName, { readonly setup: string } & Readonly<Record<AxleName, string>>>> = {
  'hill-hatch': { setup: 'low', front: '2M5', rear: '6G' },
  'kit-two-seater': { setup: 'road', front: 'K', rear: '25W' },
  'loaded-estate': { setup: 'daily', front: '2G5', rear: '16C' },
};

export interface Chosen {
  readonly scenario: Scenario;
  readonly model: Model;
  readonly options: AxleOptions;
}

/** Another build of the first scenario, whose rear spring is loose at droop, so that the gap can be read with it snug. */
export const SNUG_BUILD = { setup: 'street', front: 'CX', rear: '58' } as const;

export async function chosen(name: ScenarioName, axle: AxleName, build = BUILT[name]): Promise<Chosen> {
  const scenario = await realScenario(name);
  const setup = scenario.setups.find((s) => s.name === build.setup);
  if (!setup) throw new Error(`no setup ${build.setup}`);
  const { options } = scenario.axles[axle];
  const corner = cornerAt(options, fromBase32(build[axle]));
  return {
    scenario,
    options,
    model: { site: siteOf(scenario, setup, axle, { wheelLoad: scenario.axles[axle].wheelLoad }), corner },
  };
}

/** The model with inputs off by draws spread evenly within their tolerances; `ids` null: all of them. */
export function movedModel(
  { scenario, model }: Chosen,
  start: Model,
  seed: number,
  ids: readonly string[] | null,
): Model {
  const draw = symmetricDraws(seed);
  return TOLERANCE_INPUTS.reduce((built, input) => {
    const by = draw();
    const width = input.width(model, scenario.tolerances);
    return width === null || (ids !== null && !ids.includes(input.id)) ? built : input.moved(built, offBy(width, by));
  }, start);
}

/** Everything that can be measured on a build, read with errors drawn within the readings (`noise` 0: read perfectly). */
export function measuredOn({ site, corner }: Model, axle: AxleName, seed: number, noise = 1): MeasuredUnit {
  const next = symmetricDraws(seed);
  const draw = () => noise * next();
  const geometry = geometryOf(site, corner);
  const { perchLowest } = geometry;
  const { spring, helper } = corner;
  const target = perchFor(site, corner, geometry, site.target.targetHeight, site.sprungLoad);
  const standing = Math.min(geometry.perchHighest, Math.max(perchLowest, target));
  // A careful builder reads the gap only where the spring can be just snug.
  const perches = [perchLowest, perchLowest + 20].filter((perch) => snugAt(corner, geometry, perch).preload === 0);
  const wire = spring.wire?.diameter ?? 10;
  const mm = () => READINGS.length * draw();
  return {
    ...unmeasured(axle, null),
    freeLength: spring.freeLength + mm(),
    rate: spring.rate * (1 + READINGS.rateShare * draw()),
    coil: {
      wire: wire + READINGS.wire * draw(),
      coils: spring.solid.height / wire + READINGS.coils * draw(),
      ends: 'closed_ground',
    },
    helperFreeLength: helper ? helper.freeLength + mm() : null,
    sleeveLength: corner.sleeve.length - corner.sleeve.trim + mm(),
    stopLength: corner.bumpStop.length + mm(),
    lowestPerch: perchLowest + mm(),
    sleeveToSeat: {
      distance: corner.damper.extended - geometry.seatBelowShoulder - geometry.sleeveTop + mm(),
      damperLength: null,
    },
    extendedGap: corner.damper.extended - geometry.stopLength + mm(),
    snugGaps: perches.map((perch) => ({ perch: perch + mm(), gap: snugAt(corner, geometry, perch).gap + mm() })),
    standing: [
      {
        perch: standing + mm(),
        rideHeight: heightOn(site, corner, geometry, site.sprungLoad, standing) + READINGS.rideHeight * draw(),
      },
    ],
    wheelLoad: site.sprungMass + site.unsprungMass + READINGS.wheelLoad * draw(),
  };
}
