/** Option shapes for measuring: the demo's front axle, its lists made longer until the product is large enough. */

import { join } from 'node:path';
import { readScenario } from '../../src/input/readScenario.ts';
import { diskFiles } from '../../src/input/source/disk.ts';
import { siteOf } from '../../src/model/corner/site.ts';
import type { Mount } from '../../src/model/parts.ts';
import type { AxleName, AxleOptions, Scenario } from '../../src/model/scenario.ts';
import { resolveSpring } from '../../src/model/spring/spring.ts';
import { type AxleLayout, axleLayout } from '../../src/sweep/layout.ts';

export async function demo(): Promise<Scenario> {
  const path = join(process.cwd(), 'scenarios/hill-hatch/scenario.yaml');
  const read = await readScenario(path, diskFiles);
  if (!read.ok) throw new Error('the demo scenario does not read');
  return read.scenario;
}

export interface Scale {
  readonly lengths: number;
  readonly rates: number;
  readonly trims: number;
  readonly spacers: number;
  readonly cuts: number;
}

/** 300 springs x 2 helpers, 80 trims, 5 x 20 mounts, 35 cuts: 1.68e8. */
export const HUNDRED_MILLION: Scale = { lengths: 6, rates: 50, trims: 80, spacers: 20, cuts: 35 };
/** The same with ten times the springs: 1.68e9. */
export const BILLION: Scale = { lengths: 12, rates: 250, trims: 80, spacers: 20, cuts: 35 };

const steps = (from: number, to: number, n: number) =>
  Array.from({ length: n }, (_, k) => from + (k * (to - from)) / Math.max(1, n - 1));

/** The demo's front options with each list stretched over its own range. */
export function scaled(options: AxleOptions, scale: Scale): AxleOptions {
  const [sleeve] = options.sleeve;
  const [stop] = options.bumpStop;
  if (!sleeve || !stop) throw new Error('the demo lost its sleeve or its stop');
  const estimate = {
    material: 'chrome_silicon',
    grade: null,
    shearModulus: null,
    thinStressShare: 0.56,
    thickStressShare: 0.45,
  };
  return {
    ...options,
    mount: options.mount.flatMap((mount: Mount) =>
      steps(0, 10, scale.spacers).map((spacer) => ({ ...mount, spacer, raise: mount.bareRaise + spacer })),
    ),
    bumpStop: steps(36, 50, scale.cuts).map((length) => ({ ...stop, length })),
    sleeve: steps(0, 40, scale.trims).map((trim) => ({ ...sleeve, trim })),
    spring: steps(180, 280, scale.lengths).flatMap((freeLength) =>
      steps(22, 64, scale.rates).map((rate) =>
        resolveSpring({
          name: `${freeLength} ${rate}`,
          // As dear as those of the demo's catalogue.
          price: Math.round(50 + freeLength / 10),
          freeLength,
          rate,
          bore: 60,
          solidHeight: freeLength * 0.36,
          wire: null,
          totalCoils: null,
          ends: 'closed_ground',
          coating: 0,
          estimate,
        }),
      ),
    ),
  };
}

/** The whole demo with a billion on each axle, for both setups and with prices ranked: 4.03e9. */
export function billionAnAxle(scenario: Scenario): Scenario {
  const spacers = { front: 12, rear: 30 };
  return withOptions(scenario, {
    front: scaled(scenario.axles.front.options, { ...BILLION, spacers: spacers.front }),
    rear: scaled(scenario.axles.rear.options, { ...BILLION, spacers: spacers.rear }),
  });
}

/** One setup of the demo with a billion on the front axle, prices aside. */
export function billion(scenario: Scenario): Scenario {
  const { setups, ranking, axles } = scenario;
  const few = { ...scenario, setups: setups.slice(0, 1), ranking: { ...ranking, price: null } };
  return withOptions(few, { front: scaled(axles.front.options, BILLION), rear: axles.rear.options });
}

function withOptions(scenario: Scenario, options: Readonly<Record<AxleName, AxleOptions>>): Scenario {
  const { front, rear } = scenario.axles;
  return {
    ...scenario,
    axles: { front: { ...front, options: options.front }, rear: { ...rear, options: options.rear } },
  };
}

export function frontLayout(scenario: Scenario, options: AxleOptions): AxleLayout {
  const setup = scenario.setups[0];
  if (!setup) throw new Error('the demo lost its setups');
  return axleLayout(siteOf(scenario, setup, 'front'), options, { ...scenario.ranking, price: null });
}

/** Springs of made-up lengths, rates and solid heights, the same in every run; every thirtieth is the one before under another name. */
export function catalogue(count: number): string {
  const random = (k: number) => Math.abs(Math.sin(k * 12.9898) * 43758.5453) % 1;
  const rows = Array.from({ length: count }, (_, row) => {
    const k = row % 30 === 29 ? row - 1 : row;
    const [length, rate] = [Math.round(1500 + 2500 * random(k)) / 10, Math.round(200 + 1300 * random(k + 0.3)) / 10];
    const solid = Math.round(10 * length * (0.3 + 0.25 * random(k + 0.6))) / 10;
    return `C${row},${length},${rate},${solid},60,${55 + Math.round(50 * random(k + 0.9))}`;
  });
  return ['name,free_length_mm,rate_n_per_mm,solid_height_mm,bore_mm,price', ...rows, ''].join('\n');
}
