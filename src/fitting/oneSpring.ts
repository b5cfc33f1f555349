/** One spring, asked for in a few words, among the parts of a scenario. */
import { springsOf } from '../input/assemble/springs.ts';
import type { Complaint } from '../input/problems/problems.ts';
import { complaintsOf } from '../input/schema/issues.ts';
import { BENCH_SPRING_PARTS } from '../input/schema/scenario.ts';
import { readYaml } from '../input/source/yaml.ts';
import type { Spring } from '../model/parts.ts';
import { AXLE_NAMES, type BenchAxle, type BenchScenario, type Scenario } from '../model/scenario.ts';
import { fixed, PLAIN } from '../report/text/numbers.ts';
import { springIn } from './question.ts';

export type AskedSpring =
  | { readonly springs: readonly Spring[] /** What was taken from the scenario. */; readonly taken: string | null }
  | { readonly complaints: readonly Complaint[] };

/** The spring that a few words mean; null where they can't be told. What bore it has, the scenario's own springs say. */
export function askedSpring(text: string, { axles }: BenchScenario): AskedSpring | null {
  const fields = springIn(text);
  if (fields === null) return null;
  const bore = AXLE_NAMES.flatMap((axle) => axles[axle]?.options.spring ?? []).find((s) => !Number.isNaN(s.bore))?.bore;
  const isTaken = bore !== undefined && !fields.some((field) => field.startsWith('bore:'));
  const all = isTaken ? [...fields, `bore: "${bore} mm"`] : fields;
  const { document } = readYaml(`{ ${all.join(', ')} }`);
  const parsed = BENCH_SPRING_PARTS.spring.safeParse(document?.data);
  if (!parsed.success) {
    const found = complaintsOf(BENCH_SPRING_PARTS.spring, parsed.error.issues, document?.data);
    return { complaints: found.map(({ complaint }) => complaint) };
  }
  const { springs, problems } = springsOf([parsed.data], NO_CATALOGUES);
  if (problems.length > 0) return { complaints: problems.map(({ complaint }) => complaint) };
  return { springs, taken: isTaken ? `bore ${fixed(bore, 1, PLAIN)} mm, as the scenario’s own springs` : null };
}

const NO_CATALOGUES = { byName: new Map(), complaints: [] };

/** A scenario with these springs in place of its own. */
export function withSprings(scenario: BenchScenario, springs: readonly Spring[]): BenchScenario {
  const axles = AXLE_NAMES.flatMap((axle) => {
    const bench = scenario.axles[axle];
    return bench === undefined ? [] : [[axle, { ...bench, options: { ...bench.options, spring: springs } }] as const];
  });
  return { ...scenario, axles: Object.fromEntries(axles) };
}

/** A whole car as corners on the bench: its wishes left out. */
export function benchOf(car: Scenario): BenchScenario {
  const { name, description, currency, margins, tolerances, assumptions } = car;
  const axles = AXLE_NAMES.map((axle): readonly [string, BenchAxle] => {
    const { options, roll, wheelLoad, wheelLoads, motion, ...own } = car.axles[axle];
    return [axle, { own, wheel: { wheelLoad, wheelLoads, motion }, options }];
  });
  return { name, description, currency, margins, tolerances, assumptions, axles: Object.fromEntries(axles) };
}
