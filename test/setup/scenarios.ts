/** The results of the scenarios that come with the tool, swept anew. */
import { fileURLToPath } from 'node:url';
import type { Result } from '../../src/domain/result.ts';
import type { Scenario } from '../../src/domain/scenario.ts';
import { readScenario } from '../../src/input/readScenario.ts';
import { sift } from '../../src/pipeline.ts';

export const SCENARIOS = ['hill-hatch', 'kit-two-seater', 'loaded-estate'] as const;
export type ScenarioName = (typeof SCENARIOS)[number];

export async function sweptScenario(name: ScenarioName): Promise<Result> {
  return sift(await readReal(name), 'test');
}

export async function realScenario(name: ScenarioName): Promise<Scenario> {
  return (await readReal(name)).scenario;
}

/** The same with its files and fields. */
export async function readReal(name: ScenarioName) {
  const read = await readScenario(fileURLToPath(new URL(`../../scenarios/${name}/scenario.yaml`, import.meta.url)));
  if (!read.ok) throw new Error(`Scenario ${name} has ${read.problems.length} problems.`);
  return read;
}
