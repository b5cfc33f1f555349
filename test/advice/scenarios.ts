/** The three scenarios that come with the tool, read from disk, for tests of advice end to end. */

import { readFileSync } from 'node:fs';
import { readScenario } from '../../src/input/readScenario.ts';
import { memoryFiles } from '../../src/input/source/files.ts';
import type { Scenario } from '../../src/model/scenario.ts';

export const NAMES = ['hill-hatch', 'kit-two-seater', 'loaded-estate'] as const;
export type Name = (typeof NAMES)[number];

const textOf = (name: Name, file: string) =>
  readFileSync(new URL(`../../scenarios/${name}/${file}`, import.meta.url), 'utf8');

/** Reads a scenario with pieces of its text exchanged; each `from` must stand in it. */
export async function scenarioOf(
  name: Name,
  edits: readonly (readonly [from: string, to: string])[] = [],
): Promise<Scenario> {
  const text = edits.reduce(
    (before, [from, to]) => {
      if (!before.includes(from)) throw new Error(`not in the scenario: ${from}`);
      return before.replace(from, () => to);
    },
    textOf(name, 'scenario.yaml'),
  );
  const catalogue = name === 'kit-two-seater' ? [] : [{ path: 'springs.csv', text: textOf(name, 'springs.csv') }];
  const read = await readScenario('scenario.yaml', memoryFiles([{ path: 'scenario.yaml', text }, ...catalogue]));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.scenario;
}
