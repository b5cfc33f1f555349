/**
 * From an audit to a scenario that holds what was measured. Writes nothing, and gives nothing that was not read back,
 * found without a problem, and judged to the same numbers.
 */
import { formatProblem } from '../input/problems/problems.ts';
import { readScenario } from '../input/readScenario.ts';
import { memoryFiles } from '../input/source/files.ts';
import { digitsOf, indexOf } from '../model/corner/options.ts';
import type { Corner } from '../model/corner/site.ts';
import { fingerprintOf, pairId } from '../model/ids.ts';
import { AXLE_NAMES, type AxleName, type Scenario, type SideName } from '../model/scenario.ts';
import type { Checked } from '../pipeline.ts';
import type { Audit } from './audit.ts';
import { type AxleAdoption, adoptionOf, digitsFor, findUnsettled, siteTaken } from './fit/adoption.ts';
import { type Adopted, adoptText } from './read/adopt.ts';

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
