/** Audits of the examples that come with the scenarios. */

import { fileURLToPath } from 'node:url';
import { audit } from '../../../src/audit/audit.ts';
import type { AuditResult } from '../../../src/audit/fit/types.ts';
import { readMeasured } from '../../../src/audit/read/readMeasured.ts';
import { readScenario } from '../../../src/input/readScenario.ts';
import { diskFiles } from '../../../src/input/source/disk.ts';
import type { ScenarioName } from '../../setup/scenarios.ts';

export async function exampleAudit(name: ScenarioName): Promise<AuditResult> {
  const folder = new URL(`../../../scenarios/${name}/`, import.meta.url);
  const checked = await readScenario(fileURLToPath(new URL('scenario.yaml', folder)), diskFiles);
  if (!checked.ok) throw new Error(name);
  const read = await readMeasured(fileURLToPath(new URL('built/measured.yaml', folder)), checked.scenario);
  if (!read.ok) throw new Error(`measurements of ${name}`);
  const done = await audit(checked, read, 'test');
  if (done === null) throw new Error(`nothing built of ${name}`);
  return done.result;
}
