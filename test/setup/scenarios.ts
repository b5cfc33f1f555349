/** The results of the scenarios that come with the tool, swept once a run of the tests. */

import { mkdir, readFile, rename, rmdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { deserialize, serialize } from 'node:v8';
import { inject } from 'vitest';
import { readScenario } from '../../src/input/readScenario.ts';
import { diskFiles } from '../../src/input/source/disk.ts';
import type { Scenario } from '../../src/model/scenario.ts';
import { sift } from '../../src/pipeline.ts';
import { reportHtml } from '../../src/report/html.ts';
import type { Result } from '../../src/result/result.ts';
import type {} from './swept.ts';

export const SCENARIOS = ['hill-hatch', 'kit-two-seater', 'loaded-estate'] as const;
export type ScenarioName = (typeof SCENARIOS)[number];

/**
 * Our own output, kept for its stability: ids stand on paper beside cut parts, and must read back in every later version.
 * `best`: the first of each setup's shortlist; `plans`: all.
 */
export const DEMO_IDS: Readonly<Record<ScenarioName, { fingerprint: string; best: string[]; plans: string[] }>> = {
  'hill-hatch': {
    fingerprint: '4309930a',
    best: ['low-F2M5-R6G-3V', 'street-FCX-R58-S1'],
    plans: ['plan-138WW8T', 'plan-1ZA1Z5S', 'plan-1AQG8Z9', 'plan-0MET428', 'plan-26XB77K'],
  },
  'kit-two-seater': { fingerprint: '544fdeb3', best: ['road-FK-R25W-QR'], plans: [] },
  'loaded-estate': { fingerprint: 'fdd13554', best: ['daily-F2G5-R16C-2E'], plans: [] },
};

/** A copy of its own for each that asks. */
export async function sweptScenario(name: ScenarioName): Promise<Result> {
  return deserialize(await once(name, async () => serialize(await sift(await readReal(name), 'test'))));
}

/** The page of that result. */
export async function sweptPage(name: ScenarioName): Promise<string> {
  const kind = process.env.SPRINGSIFT_READABLE_SCRIPTS ? 'readable' : 'short';
  return String(
    await once(`${name}-${kind}.html`, async () => Buffer.from(await reportHtml(await sweptScenario(name)))),
  );
}

/** What the first to ask makes; the others wait for it. */
async function once(name: string, make: () => Promise<Buffer>): Promise<Buffer> {
  const file = join(inject('swept'), name);
  for (;;) {
    const made = await readFile(file).catch(() => null);
    if (made !== null) return made;
    const isFirst = await mkdir(`${file}.lock`).then(
      () => true,
      () => false,
    );
    if (!isFirst) {
      await setTimeout(100);
      continue;
    }
    try {
      await writeFile(`${file}.part`, await make());
      await rename(`${file}.part`, file);
    } finally {
      await rmdir(`${file}.lock`);
    }
  }
}

export async function realScenario(name: ScenarioName): Promise<Scenario> {
  return (await readReal(name)).scenario;
}

/** The same with its files and fields. */
export async function readReal(name: ScenarioName) {
  const read = await readScenario(
    fileURLToPath(new URL(`../../scenarios/${name}/scenario.yaml`, import.meta.url)),
    diskFiles,
  );
  if (!read.ok) throw new Error(`Scenario ${name} has ${read.problems.length} problems.`);
  return read;
}
