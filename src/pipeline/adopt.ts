/**
 * From an audit to a scenario that holds what was measured. Writes nothing, and gives nothing that was not read back,
 * found without a problem, and judged to the same numbers.
 */
import { posix } from 'node:path';
import {
  type AxleAdoption,
  adoptionOf,
  digitsFor,
  digitsOf,
  indexOf,
  siteTaken,
  unsettled,
} from '../domain/audit/adoption.ts';
import type { Corner } from '../domain/corner/site.ts';
import { fingerprintOf, pairId } from '../domain/ids.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type SideName } from '../domain/scenario.ts';
import { type AdoptedFiles, type AdoptedNames, adoptedFiles } from '../input/adopt/adopt.ts';
import { memoryFiles } from '../input/files.ts';
import { formatProblem } from '../input/problems.ts';
import { readScenario } from '../input/readScenario.ts';
import type { Checked } from '../pipeline.ts';
import type { Audit } from './audit.ts';

export type AdoptOutcome =
  | { readonly ok: true; readonly files: AdoptedFiles; readonly combination: string; readonly scenario: Scenario }
  | { readonly ok: false; readonly fault: AdoptFault };

export type AdoptFault =
  /** Something is built or measured wrong at these units: first put it right. */
  | {
      readonly kind: 'unsettled';
      readonly units: readonly { readonly axle: AxleName; readonly side: SideName | null }[];
    }
  /** A catalogue lies outside the scenario's folder, where nothing is written. */
  | { readonly kind: 'outside'; readonly path: string }
  /** Two axles want different values of one place, or one axle's value would change another's part. */
  | { readonly kind: 'shared'; readonly axle: AxleName | null }
  /** The measured values make no sound scenario. */
  | { readonly kind: 'problems'; readonly lines: readonly string[] };

export async function adopt(checked: Checked, audit: Audit, names: AdoptedNames): Promise<AdoptOutcome> {
  const open = unsettled(audit.units).map(({ unit: { axle, side } }) => ({ axle, side }));
  if (open.length > 0) return { ok: false, fault: { kind: 'unsettled', units: open } };
  const outside = checked.files.find(({ path }) => path.startsWith('..') || posix.isAbsolute(path));
  if (outside) return { ok: false, fault: { kind: 'outside', path: outside.path } };
  const adoptions = AXLE_NAMES.flatMap((axle) => adoptionFor(checked.scenario, audit, axle) ?? []);
  const files = await adoptedFiles(checked.files, adoptions, names);
  if (files === null) return { ok: false, fault: { kind: 'shared', axle: null } };
  return readBack(checked, audit, adoptions, names, files);
}

function adoptionFor(scenario: Scenario, { units, build }: Audit, axle: AxleName): AxleAdoption | null {
  const { options, wheelLoad, wheelLoads } = scenario.axles[axle];
  const loads = wheelLoads ?? { left: wheelLoad, right: wheelLoad };
  return adoptionOf(axle, units, digitsOf(options, build.id[axle]), loads);
}

/** The new files read as a scenario, and the build found in it, its measured parts and those of the other axle alike. */
async function readBack(
  checked: Checked,
  { build }: Audit,
  adoptions: readonly AxleAdoption[],
  names: AdoptedNames,
  files: AdoptedFiles,
): Promise<AdoptOutcome> {
  const changed = Object.entries(files).map(([path, text]) => ({ path, text }));
  const untouched = checked.files.filter(({ path }) => files[path] === undefined);
  const read = await readScenario(names.scenario, memoryFiles([...changed, ...untouched]));
  if (!read.ok) return { ok: false, fault: { kind: 'problems', lines: read.problems.map(formatProblem) } };
  const { scenario } = read;
  const expected = (axle: AxleName): Corner => adoptions.find((a) => a.axle === axle)?.corner ?? build.corners[axle];
  const digits = {
    front: digitsFor(scenario.axles.front.options, expected('front')),
    rear: digitsFor(scenario.axles.rear.options, expected('rear')),
  };
  const lost = AXLE_NAMES.find((axle) => {
    const adoption = adoptions.find((a) => a.axle === axle) ?? null;
    const taken = siteTaken(checked.scenario.axles[axle], scenario.axles[axle], adoption);
    return !taken || Object.values(digits[axle]).includes(-1);
  });
  if (lost !== undefined) return { ok: false, fault: { kind: 'shared', axle: lost } };
  const at = (axle: AxleName) => indexOf(scenario.axles[axle].options, digits[axle]);
  const id = { setup: build.setup.name, front: at('front'), rear: at('rear') };
  return { ok: true, files, scenario, combination: pairId(id, fingerprintOf(scenario)) };
}
