/**
 * From a checked scenario and what was measured on its build to an audit. Writes nothing.
 *
 *   combination by id, or best of a setup --audit--> every unit against its prediction --draw--> page, record
 */

import { formatProblem } from '../input/problems/problems.ts';
import { readScenario } from '../input/readScenario.ts';
import { memoryFiles } from '../input/source/files.ts';
import { cornerAt, digitsOf, indexOf } from '../model/corner/options.ts';
import { type Corner, siteOf } from '../model/corner/site.ts';
import { fingerprintOf, type PairId, pairId, parsePairId } from '../model/ids.ts';
import {
  type Assumption,
  AXLE_NAMES,
  type AxleName,
  type Scenario,
  type Setup,
  type SideName,
} from '../model/scenario.ts';
import type { Checked } from '../pipeline.ts';
import type { InputFile } from '../result/result.ts';
import { QUIET_RUN, sweepAll } from '../sweep/sweep.ts';
import { type AxleAdoption, adoptionOf, digitsFor, findUnsettled, siteTaken } from './fit/adoption.ts';
import { type AuditedUnit, auditAll } from './fit/audit.ts';
import type { Measured } from './fit/measured.ts';
import { predictedOf } from './fit/observations.ts';
import { AUDIT_SCHEMA, AUDIT_VERSION, type AuditResult } from './fit/types.ts';
import { type Adopted, adoptText } from './read/adopt.ts';

/** Measurements that were read without a problem. */
export interface CheckedMeasurements {
  readonly measured: Measured;
  readonly file: InputFile;
  readonly assumptions: readonly Assumption[];
}

/** What was built: the combination with its parts. */
export interface Build {
  readonly setup: Setup;
  readonly id: PairId;
  readonly corners: Readonly<Record<AxleName, Corner>>;
}

export interface Audit {
  readonly result: AuditResult;
  readonly build: Build;
  readonly units: readonly AuditedUnit[];
}

/** Audits what was measured; null where the setup whose best was built has nothing that works. */
export async function audit(checked: Checked, measurements: CheckedMeasurements, tool: string): Promise<Audit | null> {
  const { scenario, files } = checked;
  const { measured, file, assumptions } = measurements;
  const build = await buildOf(scenario, measured.build);
  if (build === null) return null;
  const { setup, id, corners } = build;
  const units = auditAll(scenario, setup, corners, measured);
  const result: AuditResult = {
    schema: AUDIT_SCHEMA,
    version: AUDIT_VERSION,
    tool,
    scenario: scenario.name,
    setup: setup.name,
    combination: pairId(id, fingerprintOf(scenario)),
    inputs: [...files, file],
    assumptions,
    units: units.map(({ report }) => report),
  };
  return { result, build, units };
}

/** The combination of an id that belongs to the scenario, or the best of a setup; null where there is none. */
export async function buildOf(scenario: Scenario, name: Measured['build']): Promise<Build | null> {
  const id = name.kind === 'id' ? parsedId(scenario, name.id) : await bestOf(scenario, name.setup);
  const setup = scenario.setups.find((s) => s.name === id?.setup);
  if (id === null || setup === undefined) return null;
  const corner = (axle: AxleName) => cornerAt(scenario.axles[axle].options, id[axle]);
  return { setup, id, corners: { front: corner('front'), rear: corner('rear') } };
}

function parsedId(scenario: Scenario, text: string): PairId | null {
  const parsed = parsePairId(text, fingerprintOf(scenario));
  return parsed.ok ? parsed.id : null;
}

async function bestOf(scenario: Scenario, name: string): Promise<PairId | null> {
  const setups = scenario.setups.filter((setup) => setup.name === name);
  const { setups: swept } = await sweepAll({ ...scenario, setups, plan: null }, QUIET_RUN);
  const best = swept[0]?.pairs.best[0];
  return best ? { setup: name, front: best.front.index, rear: best.rear.index } : null;
}

/** The files an audit leaves, by name. */
export type AuditPages = Readonly<Record<'audit.html' | 'audit.json', string>>;

export async function drawAudit(result: AuditResult): Promise<AuditPages> {
  const { auditHtml } = await import('./page/view.ts');
  return { 'audit.html': await auditHtml(result), 'audit.json': `${JSON.stringify(result, null, 2)}\n` };
}

/** An empty file of measurements for a build, with what is predicted of each; null where there is no such build. */
export async function blank(scenario: Scenario, name: Measured['build']): Promise<string | null> {
  const build = await buildOf(scenario, name);
  if (build === null) return null;
  const { blankMeasurements } = await import('./read/schema.ts');
  const { setup, id, corners } = build;
  const predicted = (axle: AxleName) =>
    predictedOf({ site: siteOf(scenario, setup, axle), corner: corners[axle] }, DEFAULT_READINGS);
  return blankMeasurements({
    scenario: scenario.name,
    combination: pairId(id, fingerprintOf(scenario)),
    predicted: { front: predicted('front'), rear: predicted('rear') },
  });
}

/** A prediction does not depend on how well things are read. */
const DEFAULT_READINGS = { length: 1, rideHeight: 1, wheelLoad: 1, wire: 1, coils: 1, rateShare: 1 };

// From an audit to a scenario that holds what was measured. Writes nothing, and gives nothing that was not read back,
// found without a problem, and judged to the same numbers.

export type AdoptOutcome =
  | (Omit<Adopted, 'catalogues'> & { readonly ok: true; readonly combination: string; readonly scenario: Scenario })
  | { readonly ok: false; readonly fault: AdoptFault };

export type AdoptFault =
  /** Something is built or measured wrong at these units: first put it right. */
  | {
      readonly kind: 'unsettled';
      readonly units: readonly { readonly axle: AxleName; readonly side: SideName | null }[];
    }
  /** Another axle's value would change a part of this one, or a filter leaves its spring out. */
  | { readonly kind: 'shared'; readonly axle: AxleName }
  /** The measured values make no sound scenario. */
  | { readonly kind: 'problems'; readonly lines: readonly string[] };

/** @param name what the new scenario is called, beside the first */
export async function adopt(checked: Checked, audit: Audit, name: string): Promise<AdoptOutcome> {
  const open = findUnsettled(audit.units).map(({ unit: { axle, side } }) => ({ axle, side }));
  if (open.length > 0) return { ok: false, fault: { kind: 'unsettled', units: open } };
  const adoptions = AXLE_NAMES.flatMap((axle) => adoptionFor(checked.scenario, audit, axle) ?? []);
  return readBack(checked, audit, adoptions, name, await adoptText(checked.files, adoptions));
}

function adoptionFor(scenario: Scenario, { units, build }: Audit, axle: AxleName): AxleAdoption | null {
  const { options, wheelLoad, wheelLoads } = scenario.axles[axle];
  const loads = wheelLoads ?? { left: wheelLoad, right: wheelLoad };
  return adoptionOf(axle, units, digitsOf(options, build.id[axle]), loads);
}

/**
 * The new scenario read, its catalogues as they are once the cells are entered, and the build found in it, its measured
 * parts and those of the other axle alike.
 */
async function readBack(
  checked: Checked,
  { build }: Audit,
  adoptions: readonly AxleAdoption[],
  name: string,
  { text, cells, catalogues }: Adopted,
): Promise<AdoptOutcome> {
  const untouched = checked.files.slice(1).filter((file) => !catalogues.some(({ path }) => path === file.path));
  const files = memoryFiles([{ path: name, text }, ...catalogues, ...untouched], true);
  const read = await readScenario(name, files);
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
  return { ok: true, text, cells, scenario, combination: pairId(id, fingerprintOf(scenario)) };
}
